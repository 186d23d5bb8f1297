package main

import (
	"listel/cmd/listel/job"
	"listel/profile"
	"listel/profile/geom"
)

// outlineTolerance is how far from the exact outline the points of JSON output may run, mm.
const outlineTolerance = 0.005

// sectionJSON is what section --json prints, in millimeters.
type sectionJSON struct {
	Name       string         `json:"name"`
	Title      string         `json:"title"`
	From       string         `json:"from"`
	Height     float64        `json:"height_mm"`
	Projection float64        `json:"projection_mm"`
	Ground     float64        `json:"ground_mm"`
	Area       float64        `json:"area_mm2"`
	Face       float64        `json:"face_mm"`
	Centroid   [2]float64     `json:"centroid"`
	Thinnest   float64        `json:"thinnest_mm"`
	Blank      blankJSON      `json:"blank"`
	Outline    [][2]float64   `json:"outline"`
	Gap        [][2]float64   `json:"gap_outline"`
	Elements   []elementJSON  `json:"elements"`
	Undercuts  []undercutJSON `json:"undercuts"`
}

type blankJSON struct {
	Polygon   [4][2]float64 `json:"polygon"`
	Width     float64       `json:"width_mm"`
	Thickness float64       `json:"thickness_mm"`
}

type elementJSON struct {
	Kind       profile.Kind `json:"kind"`
	Foot       float64      `json:"foot_mm"`
	Start      float64      `json:"start_x_mm"`
	Height     float64      `json:"height_mm"`
	Projection float64      `json:"projection_mm"`
	Set        float64      `json:"set_mm"`
	Radii      []float64    `json:"radii_mm"`
}

type undercutJSON struct {
	From  profile.View `json:"from"`
	Y0    float64      `json:"y0_mm"`
	Y1    float64      `json:"y1_mm"`
	Depth float64      `json:"depth_mm"`
}

func newSectionJSON(l job.Profile) sectionJSON {
	s := l.Section
	b := s.Blank()
	out := sectionJSON{
		Name: s.Name, Title: l.Title(), From: l.From(), Height: s.Height, Projection: s.Projection, Ground: s.Ground,
		Area: s.Area(), Face: s.FaceLength(), Centroid: pair(s.Centroid()), Thinnest: s.Thinnest().Thickness,
		Blank:   blankJSON{Width: b.Width, Thickness: b.Thickness},
		Outline: pairs(s.Outline), Gap: pairs(s.Gap), Elements: []elementJSON{}, Undercuts: []undercutJSON{},
	}
	for i, p := range b.Polygon {
		out.Blank.Polygon[i] = pair(p)
	}
	for _, m := range s.Members {
		e := elementJSON{m.Kind, m.Foot, m.Start, m.Height, m.Projection, m.Set, m.Radii}
		if e.Radii == nil {
			e.Radii = []float64{}
		}
		out.Elements = append(out.Elements, e)
	}
	for _, u := range s.Undercuts() {
		out.Undercuts = append(out.Undercuts, undercutJSON{u.From, u.Y0, u.Y1, u.Depth})
	}
	return out
}

func pair(p geom.Point) [2]float64 { return [2]float64{p.X, p.Y} }

// pairs flattens a path; nil stays nil.
func pairs(p geom.Path) [][2]float64 {
	var out [][2]float64
	for _, q := range p.Flatten(outlineTolerance) {
		out = append(out, pair(q))
	}
	return out
}
