package serve

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

func askCase(t testing.TB, s *Server, q caseRequest) caseAnswer {
	t.Helper()
	w := asked(t, s.postCase, "/api/case", q)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	var a caseAnswer
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &a))
	return a
}

// The press is 42 in wide: its front base piece measures as much at the back and, mitered at both ends, twice its projection more at the
// long point. Both follow from the file by hand.
func TestCaseShowsPiecesAndFollowsItsSizes(t *testing.T) {
	s := serving(t)
	q := caseRequest{Name: "press.yaml", Text: exampleText(t, library.ExampleName)}
	a := askCase(t, s, q)
	require.True(t, a.OK, a.Mistakes)
	require.Empty(t, a.Mistakes)
	require.Len(t, a.Views, 4)
	front := func(a caseAnswer, molding string) casePiece {
		for _, m := range a.Moldings {
			for _, p := range m.Pieces {
				if m.Name == molding && p.Run == "front" {
					return p
				}
			}
		}
		t.Fatal("no " + molding)
		return casePiece{}
	}
	require.Equal(t, "42", front(a, "base").Back)
	require.Equal(t, "miter 45.0°", front(a, "base").Left.Words)
	require.Contains(t, front(a, "base").Left.Saw, "keep what lies")

	// A lower stage by itself does not fit the rabbet any more; one that the upper follows does.
	q.Change = &caseChange{Path: "stages[0].plan.width", Value: "44 1/4"}
	alone := askCase(t, s, q)
	require.False(t, alone.OK)
	require.Equal(t, strings.Replace(q.Text, "width: 42,", "width: 44 1/4,", 1), alone.Text)
	q.Change.Follow = true
	b := askCase(t, s, q)
	require.True(t, b.OK, b.Mistakes)
	require.Equal(t, strings.Replace(alone.Text, "width: 39,", "width: 41 1/4,", 1), b.Text)
	require.Equal(t, "44 1/4", front(b, "base").Back)
	require.Contains(t, viewNamed(b, "front").Dims[0].Text, "44 1/4")
	require.Equal(t, "stages[0].plan.width", viewNamed(b, "front").Dims[0].Path)
}

func viewNamed(a caseAnswer, name string) caseView {
	for _, v := range a.Views {
		if string(v.View) == name {
			return v
		}
	}
	return caseView{}
}

// A case that cannot be says so at its lines in the words of check, and keeps its text.
func TestCaseTellsMistakesAtTheirLines(t *testing.T) {
	s := serving(t)
	text := strings.Replace(exampleText(t, library.ExampleName), "at: 46", "hight: 46", 1)
	a := askCase(t, s, caseRequest{Name: "press", Text: text})
	require.False(t, a.OK)
	require.NotEmpty(t, a.Mistakes)
	line := 0
	for i, l := range strings.Split(text, "\n") {
		if strings.Contains(l, "hight: 46") {
			line = i + 1
		}
	}
	found := false
	for _, m := range a.Mistakes {
		require.True(t, m.Own)
		if strings.Contains(m.Text, `unknown key "hight"`) {
			found = true
			require.Equal(t, line, m.Line)
		}
	}
	require.True(t, found, a.Mistakes)
	require.NotEmpty(t, a.Fields)
	require.Empty(t, a.Views)
}

// Texts that are not saved count: a waist that is drawn on the page stands on the case, and its mistakes are told with its own file's name.
func TestCaseTakesUnsavedProfiles(t *testing.T) {
	s := serving(t)
	text := strings.Replace(exampleText(t, library.ExampleName), "profile: press-base", "profile: mine", 1)
	q := caseRequest{Name: "press", Text: text}
	require.False(t, askCase(t, s, q).OK)
	mine := strings.Replace(profileText(t, "press-base"), "name: press-base", "name: mine", 1)
	q.Profiles = map[string]string{"mine": mine}
	a := askCase(t, s, q)
	require.True(t, a.OK, a.Mistakes)
	require.Equal(t, "mine", a.Moldings[0].Profile)
	q.Profiles["mine"] = mine + "colour: red\n"
	a = askCase(t, s, q)
	require.False(t, a.OK)
	require.Equal(t, "mine.yaml", a.Mistakes[0].File)
	require.False(t, a.Mistakes[0].Own)
}

// A lower stage 2 in higher: all that is over its middle goes up by 2 in with it, the base stays, and the case still fits.
func TestHeightsFollow(t *testing.T) {
	text := exampleText(t, library.ExampleName)
	got, err := caseChange{Path: "stages[0].height", Value: "32", Follow: true}.applied(text)
	require.NoError(t, err)
	want := text
	for from, to := range map[string]string{"height: 30}": "height: 32}", "at: 30\n": "at: 32\n", "at: 60 1/2": "at: 62 1/2", "at: 46": "at: 48", "top: 28 1/2": "top: 30 1/2"} {
		require.Contains(t, want, from)
		want = strings.Replace(want, from, to, 1)
	}
	require.Equal(t, want, got)
	a := askCase(t, serving(t), caseRequest{Name: "press", Text: got})
	require.True(t, a.OK, a.Mistakes)
	same, err := caseChange{Path: "stages[1].height", Value: "33", Follow: true}.applied(text)
	require.NoError(t, err)
	require.Contains(t, same, "at: 61 1/2")
	require.Contains(t, same, "at: 46")
}

func TestCaseChanges(t *testing.T) {
	text := exampleText(t, library.ExampleName)
	for _, c := range []struct{ path, value, from, to string }{
		{"moldings[2].at", "61", "at: 60 1/2", "at: 61"},
		{"moldings[0].reach.left", "1/2", "profile: press-base\n    at: 0\n    ends: wall\n", "profile: press-base\n    at: 0\n    ends: wall\n    reach: {left: 1/2}\n"},
		{"moldings[1].inset", "", "    inset: 1 31/32\n", ""},
		{"wood", "black walnut", "wood: black cherry\n", "wood: black walnut\n"},
		{"title", `"Press: low"`, "title: Low press for a herb room", `title: "Press: low"`},
		{"title", `Press: low`, "title: Low press for a herb room", `title: 'Press: low'`},
	} {
		got, err := caseChange{Path: c.path, Value: c.value}.apply(text)
		require.NoError(t, err, c.path)
		require.Equal(t, strings.Replace(text, c.from, c.to, 1), got, c.path)
	}
	_, err := caseChange{Path: "moldings[9].at", Value: "1"}.apply(text)
	require.ErrorContains(t, err, "moldings[9]")
}

// A molding is added with a name of its own, over the base of the press, which is 4 in high, and taken out again; the case fits with it.
func TestCaseMoldingMoreAndLess(t *testing.T) {
	s := serving(t)
	text := exampleText(t, library.ExampleName)
	q := caseRequest{Name: "press", Text: text, Change: &caseChange{Path: "moldings", Value: "press-shelf-bead"}}
	a := askCase(t, s, q)
	require.Contains(t, a.Text, "    ends: open\n  - {name: molding, on: lower, profile: press-shelf-bead, at: 4, ends: wall}\n")
	require.Len(t, a.Moldings, 5)
	q.Text = a.Text
	b := askCase(t, s, q)
	require.Contains(t, b.Text, "{name: molding-2, on: lower")
	q.Change = &caseChange{Path: "moldings[4]"}
	require.Equal(t, text, askCase(t, s, q).Text)
	q.Change = &caseChange{Path: "moldings", Value: "x: {y"}
	require.Equal(t, http.StatusUnprocessableEntity, asked(t, s.postCase, "/api/case", q).Code)
}

// The press's cornice is 2 1/2 in high and the top of its stage 62 3/4 in over the floor: 30 in, the 3/4 in of the waist and 32 in. Level with
// it the foot is at 60 1/4 in; at 59 in the cornice ends 1 1/4 in short, and says so.
func TestCaseLevelWithTheTop(t *testing.T) {
	s := serving(t)
	q := caseRequest{Name: "press", Text: exampleText(t, library.ExampleName)}
	cornice := func() caseMolding { return askCase(t, s, q).Moldings[2] }
	require.Equal(t, "60 1/4", cornice().Level)
	require.Empty(t, cornice().Short) // it hides the top's edge on purpose
	q.Text = strings.Replace(q.Text, "at: 60 1/2", "at: 59", 1)
	require.Equal(t, "1 1/4 in", cornice().Short)
	q.Text = strings.Replace(q.Text, "at: 59", "at: "+cornice().Level, 1)
	require.Empty(t, cornice().Level)
	require.Empty(t, cornice().Short)
	require.Empty(t, askCase(t, s, q).Moldings[3].Short) // the shelf lies under the cornice
}

// The two humidities of a room are fields of their own. One alone stands for both; without one there is no room.
func TestCaseAirIsTwoFields(t *testing.T) {
	text := exampleText(t, library.ExampleName)
	set := func(text, path, value string) string {
		got, err := caseChange{Path: path, Value: value}.apply(text)
		require.NoError(t, err)
		return got
	}
	require.Equal(t, strings.Replace(text, "[30, 65]", "[30, 60]", 1), set(text, "room.humidity[1]", "60"))
	none := set(text, "room.humidity[0]", "")
	require.Equal(t, strings.Replace(text, "room: {humidity: [30, 65], built-at: 45, temperature: 70F}\n", "", 1), none)
	one := set(none, "room.humidity[0]", "35")
	require.Contains(t, one, "room: {humidity: [35, 35]}")
	require.Contains(t, set(one, "room.humidity[1]", "60"), "room: {humidity: [35, 60]}")
}

// A molding's profile, name and height are not taken out by emptying their fields: that is refused in plain words.
func TestCaseKeepsWhatItNeeds(t *testing.T) {
	text := exampleText(t, library.ExampleName)
	for path, words := range map[string]string{"moldings[2].profile": "a profile", "moldings[0].at": "a height", "name": "a name"} {
		_, err := caseChange{Path: path}.applied(text)
		require.ErrorContains(t, err, words)
		require.NotContains(t, err.Error(), "line")
	}
	_, err := caseChange{Path: "moldings[1].inset"}.applied(text)
	require.NoError(t, err)
}

// The thickness of the sides and how deep a bead is let in are fields; without a profile there are no beads and no field for their inset.
func TestCaseSidesAndBeads(t *testing.T) {
	s := serving(t)
	q := caseRequest{Name: "box.yaml", Text: plainCases["in"] + "side: {build: solid}\nopenings: {area: {left: 1, right: 1, bottom: 8, top: 40}, divider: 3/4, graduate: {rows: 3, ratio: 0.9}}\n"}
	set := func(path, value string) caseAnswer {
		q.Change = &caseChange{Path: path, Value: value}
		a := askCase(t, s, q)
		require.True(t, a.OK, "%s: %v\n%s", path, a.Mistakes, a.Text)
		q.Text = a.Text
		return a
	}
	a := set("side.thickness", "3/4")
	require.Contains(t, a.Text, "side: {build: solid, thickness: 3/4}")
	require.Equal(t, "3/4", fieldAt(a, "side.thickness").Text)
	require.Nil(t, fieldAt(a, "beads.inset"))
	require.NotNil(t, fieldAt(set("beads.profile", "edge-bead"), "beads.inset"))
	require.Contains(t, set("beads.inset", "1/8").Text, "beads: {profile: edge-bead, inset: 1/8}\n")
	q.Change = &caseChange{Path: "beads.inset", Value: "2"}
	a = askCase(t, s, q)
	require.Len(t, a.Mistakes, 1)
	require.Equal(t, "beads.inset", a.Mistakes[0].Key)
	a = set("beads.profile", "")
	require.NotContains(t, a.Text, "beads")
	require.Empty(t, a.Beads)
	require.NotContains(t, set("side.thickness", "").Text, "thickness: 3/4")
}

// The seed cabinet is 60 in wide with cants set back 3 in and a middle of 28 in that stands 3 in forward: from left to right 3, 13, 28, 13
// and 3 in, and from the front 3 in of step, 3 in of cant and the 8 in to the wall that are left of its 14.
func TestCasePlanGivesCantsAndBreakfront(t *testing.T) {
	a := askCase(t, serving(t), caseRequest{Name: "cabinet", Text: exampleText(t, "seed-cabinet")})
	require.True(t, a.OK, a.Mistakes)
	fine := func(view, side string) (texts, paths []string) {
		for _, d := range viewNamed(a, view).Dims {
			if d.Fine && d.Side == side {
				texts, paths = append(texts, d.Text), append(paths, d.Path)
			}
		}
		return texts, paths
	}
	texts, paths := fine("plan", "foot")
	require.Equal(t, []string{"3 in", "13 in", "28 in", "13 in", "3 in"}, texts)
	require.Equal(t, "stages[0].plan.canted.setback", paths[0])
	require.Equal(t, "stages[0].plan.breakfront.width", paths[2])
	texts, paths = fine("end", "foot")
	require.Equal(t, []string{"3 in", "3 in", "11 in"}, texts)
	require.Equal(t, []string{"stages[0].plan.breakfront.step", "stages[0].plan.canted.setback", ""}, paths)
	press := askCase(t, serving(t), caseRequest{Name: "press", Text: exampleText(t, library.ExampleName)})
	for _, v := range press.Views {
		for _, d := range v.Dims {
			require.False(t, d.Fine)
		}
	}
}
