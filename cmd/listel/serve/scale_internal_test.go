package serve

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/measure"
)

// The cornice of the other tests is 1 1/4 in high: scaled to 2 1/2 in, every length in it is twice what it was, worked by hand.
func TestScale(t *testing.T) {
	s := serving(t)
	a := edit(t, s, cornice, change{Op: "scale", Value: "2 1/2"})
	require.Empty(t, a.Section.Mistakes)
	require.InDelta(t, 2.5*25.4, a.Section.Height, 1e-9)
	require.InDelta(t, 2*1.5625*25.4, a.Section.Projection, 1e-9)
	require.Contains(t, a.Text, "ground: 1")
	require.Contains(t, a.Text, "cove: {height: 1 1/4}")

	// A factor that no fraction comes to: 1 1/4 to 1 1/3 in is 16/15.
	a = edit(t, s, cornice, change{Op: "scale", Value: "1 1/3"})
	require.Empty(t, a.Section.Mistakes)
	require.InDelta(t, 1.25*25.4*16/15, a.Section.Height, 1e-5)
	require.InDelta(t, 1.5625*25.4*16/15, a.Section.Projection, 1e-5)

	// A height that the members do not come to is what is asked for.
	given := strings.Replace(cornice, "units: in\n", "units: in\nheight: 2 1/2\n", 1)
	require.NotEqual(t, cornice, given)
	v, err := s.section(sectionRequest{Name: "cornice.yaml", Text: given})
	require.NoError(t, err)
	require.False(t, v.OK)
	a = edit(t, s, given, change{Op: "scale", Value: "2 1/2"})
	require.Empty(t, a.Section.Mistakes)
	require.InDelta(t, 2.5*25.4, a.Section.Height, 1e-9)

	for _, value := range []string{"", "tall", "-1", "0"} {
		w := asked(t, s.postEdit, "/api/edit", map[string]any{"name": "cornice.yaml", "text": cornice, "change": change{Op: "scale", Value: value}})
		require.Equal(t, http.StatusUnprocessableEntity, w.Code, value)
	}
}

// A curve through points is scaled with the rest, and so are a drip and the back.
func TestScaleNested(t *testing.T) {
	const text = "kind: profile\nname: n\nunits: mm\nground: 12\nback: {rabbet: {at: top, width: 6, depth: 6}}\nelements:\n" +
		"  - corona: {height: 20, set: 10, drip: {width: 3, depth: 2, inset: 3}}\n" +
		"  - curve: {points: [{x: 10, y: 8, through: [6, 3]}, {x: 10, y: 12}]}\n  - fillet: {height: 8}\n"
	a := edit(t, serving(t), text, change{Op: "scale", Value: "20"})
	require.Empty(t, a.Section.Mistakes)
	require.Contains(t, a.Text, "drip: {width: 1.5, depth: 1, inset: 1.5}")
	require.Contains(t, a.Text, "points: [{x: 5, y: 4, through: [3, 1.5]}, {x: 5, y: 6}]")
	require.Contains(t, a.Text, "{at: top, width: 3, depth: 3}")
}

// Parts divide the height: a file without one gets that which it has, 1 1/4 in, in the same step.
func TestPartsWriteHeight(t *testing.T) {
	a := edit(t, serving(t), cornice, change{Op: "set", Path: "parts", Value: "10"})
	require.Empty(t, a.Section.Mistakes)
	require.Contains(t, a.Text, "height: 1 1/4")
	require.InDelta(t, 1.25*25.4, a.Section.Height, 1e-9)
	require.Equal(t, "Parts divide the height, so it is given now: 1 1/4 in, as it stands.", a.Told)
}

// A height that is left to the members takes parts that no size is in with it, and stays where one is.
func TestHeightFollowsAgain(t *testing.T) {
	s := serving(t)
	text := edit(t, s, cornice, change{Op: "set", Path: "parts", Value: "10"}).Text
	text = edit(t, s, text, change{Op: "set", Path: "elements[3].height", Value: "1/4"}).Text
	a := edit(t, s, text, change{Op: "unset", Path: "height"})
	require.Empty(t, a.Section.Mistakes)
	require.Empty(t, a.Section.Warnings)
	require.NotContains(t, a.Text, "parts")
	require.Contains(t, a.Told, "the parts are left out")
	text = edit(t, s, text, change{Op: "set", Path: "elements[0].height", Value: "2p"}).Text
	w := asked(t, s.postEdit, "/api/edit", map[string]any{"text": text, "change": change{Op: "unset", Path: "height"}})
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	require.Contains(t, w.Body.String(), "a size is 2p; give it as a length first")
}

// A bead is put in with its grooves in both units, and is no mistake between two flats.
func TestBeadWithGrooves(t *testing.T) {
	for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
		text := "kind: profile\nname: n\nunits: " + units.String() + "\nground: 30\nelements:\n  - fillet: {height: 3}\n  - fillet: {height: 3}\n"
		a := edit(t, serving(t), text, change{Op: "insert", At: 1, Kind: string(profile.KindBead)})
		require.Empty(t, a.Section.Mistakes)
		require.Contains(t, a.Text, "quirk: {width: ")
	}
}
