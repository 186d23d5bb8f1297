package template_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
	"listel/template/sheet"
)

// planOf plans a library profile with the generic inch set, quickly.
func planOf(t testing.TB, name string, works ...cutter.Work) template.SetupPlan {
	t.Helper()
	_, s := libraryProfile(t, name, 1)
	return planSection(t, s, works...)
}

func planSection(t testing.TB, s profile.Section, works ...cutter.Work) template.SetupPlan {
	t.Helper()
	set, _, err := library.Open("", "").Tools(library.InchTools)
	require.NoError(t, err)
	r, err := cutter.Plan(context.Background(), cutter.FromSection(s), set.Tools, cutter.Options{Effort: cutter.Quick, Works: works})
	require.NoError(t, err)
	return template.SetupPlan{Section: s.From(r.Blank.Way), Plan: r, Tools: set.Tools, Set: set.Title, Left: 0.3}
}

// keptPlan returns the plan of the waist of the press that is kept in testdata, so that its sheets stay what they are when the planner finds another;
// UPDATE_GOLDEN=1 plans anew.
func keptPlan(t testing.TB) template.SetupPlan {
	t.Helper()
	const file = "testdata/press-waist-plan.json"
	_, s := libraryProfile(t, "press-waist", 1)
	if os.Getenv("UPDATE_GOLDEN") != "" {
		data, err := json.Marshal(planSection(t, s).Plan)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(file, data, 0o666))
	}
	set, _, err := library.Open("", "").Tools(library.InchTools)
	require.NoError(t, err)
	plan := template.SetupPlan{Section: s, Tools: set.Tools, Set: set.Title, Left: 0.3}
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &plan.Plan))
	return plan
}

// Nothing clashes on the sheets of set-ups: upright and sprung blanks, long and small ones, by machine and by hand, on any paper, in either unit.
func TestNothingClashesOnSetupSheets(t *testing.T) {
	t.Parallel()
	plans := []template.SetupPlan{
		keptPlan(t), planOf(t, "press-cornice"), planOf(t, "press-base"), planOf(t, "edge-bead"),
		planOf(t, "press-waist", cutter.Plane),
	}
	bad := planOf(t, "thumb-edge")
	bad.Faults = []string{"set-up 1: cuts 0.3 mm into the section"}
	plans = append(plans, bad)
	for _, paper := range []string{"A4", "A4 landscape", "Letter", "Letter landscape", "ANSI B", "A5"} {
		for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
			for _, plan := range plans {
				pages := template.SetupSheets(plan, style(t, paper, units))
				for i, page := range (sheet.Document{Pages: pages}).Numbered().Pages {
					require.Empty(t, clashes(page), "%s on %s in %s, page %d", plan.Section.Name, paper, units, i+1)
				}
			}
		}
	}
}

// lettering returns all that is written on the pages, in one string a page.
func lettering(pages []sheet.Page) []string {
	var out []string
	for _, p := range pages {
		texts, _ := marksOf(p.Drawing())
		var b strings.Builder
		for _, s := range texts {
			b.WriteString(s.S + "\n")
		}
		out = append(out, b.String())
	}
	return out
}

// What the sheets say is what the plan says: six set-ups to a sheet, each with its tool, faces, fence, height and passes; and before them the
// tools with their speeds.
func TestSetupSheetsSayWhatThePlanSays(t *testing.T) {
	plan := planOf(t, "press-cornice")
	st := style(t, "Letter", measure.Inches)
	pages := template.SetupSheets(plan, st)
	n := len(plan.Plan.Setups)
	require.Greater(t, n, 6, "more than one sheet of pictures")
	require.GreaterOrEqual(t, len(pages), 1+(n+5)/6)
	said := lettering(pages)
	for _, u := range plan.Plan.Setups {
		page := ""
		for _, words := range said[1:] {
			if from, to, ok := setupsOf(words); ok && u.N >= from && u.N <= to {
				page = words
			}
		}
		require.Contains(t, page, fmt.Sprintf("%d\n", u.N))
		require.Contains(t, strings.ToLower(page), strings.ToLower(u.Tool))
		require.Contains(t, page, st.Lengths.Drawing(u.Height))
		require.Contains(t, page, fmt.Sprintf("(%.3f)", u.Height/25.4))
		if u.Fence >= 0 {
			require.Contains(t, page, st.Lengths.Drawing(u.Fence))
			require.Contains(t, page, fmt.Sprintf("(%.3f)", u.Fence/25.4))
		}
		if u.Tilt != 0 {
			require.Contains(t, page, fmt.Sprintf("%.1f°", math.Abs(u.Tilt)))
		}
		if u.Passes > 1 {
			require.Contains(t, page, fmt.Sprintf("%d passes", u.Passes))
		}
	}
	front := said[0]
	for _, s := range plan.Plan.Speeds {
		require.Contains(t, front, fmt.Sprintf("%d rpm", s.RPM))
	}
	require.Contains(t, strings.Join(said, ""), "local rules")
	require.Contains(t, strings.Join(said, ""), "push blocks")
}

// setupsOf reads which set-ups a sheet shows off its title.
func setupsOf(words string) (from, to int, ok bool) {
	m := regexp.MustCompile(`: set-ups? (\d+)(?: to (\d+))? of \d+`).FindStringSubmatch(words)
	if m == nil {
		return 0, 0, false
	}
	from, _ = strconv.Atoi(m[1])
	to = from
	if m[2] != "" {
		to, _ = strconv.Atoi(m[2])
	}
	return from, to, true
}

// Heights of a plan for planes are those that stay over the bench; no saw, no router and no speed is spoken of.
func TestSetupSheetsByHand(t *testing.T) {
	plan := planOf(t, "press-waist", cutter.Plane)
	said := strings.Join(lettering(template.SetupSheets(plan, style(t, "A4", measure.Millimeters))), "")
	require.Contains(t, said, fmt.Sprintf("%.1f mm", math.Round(2*plan.Plan.Setups[0].Height)/2))
	require.Contains(t, said, "the scribed line decides")
	require.Contains(t, said, "stop")
	require.NotContains(t, said, "rpm")
	require.NotContains(t, said, "end first")
	require.NotContains(t, said, "the fence")
}

// A plan without set-ups has no sheets, and a tool that is not in the set is drawn all the same.
func TestSetupSheetsOfNothing(t *testing.T) {
	plan := planOf(t, "edge-bead")
	plan.Tools = nil
	require.NotEmpty(t, template.SetupSheets(plan, style(t, "A4", measure.Inches)))
	plan.Plan.Setups = nil
	require.Empty(t, template.SetupSheets(plan, style(t, "A4", measure.Inches)))
}

// The pictures of a small plan, byte for byte.
func TestGoldenSetupSheet(t *testing.T) {
	pages := template.SetupSheets(keptPlan(t), style(t, "Letter", measure.Inches))
	pages = (sheet.Document{Pages: pages}).Numbered().Pages
	golden(t, "press-waist-setups.svg", pages[len(pages)-1])
}

// Where a molding has several sections, the titles of their set-ups tell them apart.
func TestMoldedSectionsAreToldApart(t *testing.T) {
	for _, name := range []string{"herb-press", "seed-cabinet"} {
		_, r := exampleNamed(t, name)
		seen := map[string]bool{}
		for _, s := range (template.Job{Result: r}).Molded() {
			require.False(t, seen[s.Title], s.Title)
			seen[s.Title] = true
		}
		if name == "seed-cabinet" {
			require.True(t, seen["Surbase of the seed cabinet, narrowed, left and right"])
			require.True(t, seen["Raking molding of the seed cabinet's pediment, the raking part"])
		}
	}
}
