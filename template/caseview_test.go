package template_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile/geom"
	"listel/template"
)

func viewOf(t testing.TB, r miter.Result, name template.ViewName) template.CaseView {
	t.Helper()
	for _, v := range template.CaseViews(r) {
		if v.Name == name {
			return v
		}
	}
	t.Fatalf("no view %s", name)
	return template.CaseView{}
}

// cuts returns the outlines cut from the runs of a molding.
func cuts(v template.CaseView, molding, run string) []template.Surface {
	var out []template.Surface
	for _, s := range v.Surfaces {
		if s.Kind == template.CutSurface && s.Molding == molding && (run == "" || s.Run == run) {
			out = append(out, s)
		}
	}
	return out
}

// Each front molding of the press stands in the section where its section put at its height and on its stage's face lies: the cut through
// the room and the section by itself are two ways to one outline.
func TestSectionShowsEveryMoldingInPlace(t *testing.T) {
	c, r := exampleNamed(t, library.ExampleName)
	v := viewOf(t, r, template.SectionView)
	for i, m := range r.Moldings {
		found := cuts(v, m.Name, "front")
		require.Len(t, found, 1, m.Name)
		s := m.Sections[0].Section
		face := 0.0
		for _, st := range r.Stages {
			if st.Name == m.Stage {
				face = -st.Bounds().Min.Y - c.Moldings[i].Inset
			}
		}
		want := s.Outline.Translate(geom.Pt(face, m.Foot))
		got := boundsOf(found[0].Outline)
		for _, pair := range [][2]float64{{want.Bounds().Min.X, got.Min.X}, {want.Bounds().Min.Y, got.Min.Y}, {want.Bounds().Max.X, got.Max.X}, {want.Bounds().Max.Y, got.Max.Y}} {
			require.InDelta(t, pair[0], pair[1], 0.05, m.Name)
		}
		require.InEpsilon(t, s.Outline.Area(), geom.PolygonArea(found[0].Outline), 2e-3, m.Name)
		for _, p := range found[0].Outline {
			_, _, far := want.Nearest(p)
			require.Less(t, far, 1e-6, m.Name)
		}
	}
	require.NotEmpty(t, cuts(v, "waist", "back-rail"))
	require.NotEmpty(t, cuts(v, template.BeadsName, ""))
}

// The section of the press misses the post in the middle of its top row: two drawers stand there, and a cut along a post shows neither.
func TestSectionMissesPosts(t *testing.T) {
	_, r := exampleNamed(t, library.ExampleName)
	v := viewOf(t, r, template.SectionView)
	require.Greater(t, math.Abs(v.Cut-21*25.4), 10.0)
	openings := 0
	for _, s := range v.Surfaces {
		if s.Kind == template.OpeningSurface {
			openings++
		}
	}
	require.Equal(t, 4, openings) // one a row
}

// A plane that meets a molding slanting cuts it larger by one over the cosine: a pediment of 22 degrees cut plumb.
func TestSectionCutsPedimentPlumb(t *testing.T) {
	_, r := exampleNamed(t, "seed-cabinet")
	v := viewOf(t, r, template.SectionView)
	for _, m := range r.Moldings {
		found := cuts(v, m.Name, "")
		require.NotEmpty(t, found, m.Name)
		if m.Rake == nil {
			continue
		}
		area := 0.0
		for _, p := range m.Pieces {
			if p.Mark == found[0].Mark {
				area = p.Section.Outline.Area()
			}
		}
		require.InEpsilon(t, area/m.Rake.Pitch.Cos(), math.Abs(geom.PolygonArea(found[0].Outline)), 2e-3)
	}
}

// From every side each molding can be picked: it has a surface of its own, within the case's bounds.
func TestEveryMoldingShowsInEveryView(t *testing.T) {
	for _, name := range []string{library.ExampleName, "seed-cabinet"} {
		_, r := exampleNamed(t, name)
		for _, v := range template.CaseViews(r) {
			seen := map[string]bool{}
			for _, s := range v.Surfaces {
				seen[s.Molding] = true
				for _, p := range s.Outline {
					require.False(t, math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0))
				}
			}
			for _, m := range r.Moldings {
				if v.Name == template.EndView && m.Name == "shelf" {
					continue // it runs along the front only, flush with the sides
				}
				require.True(t, seen[m.Name], "%s %s %s", name, v.Name, m.Name)
			}
			require.False(t, v.Bounds().Empty())
		}
	}
}
