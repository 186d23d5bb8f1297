package miter

import (
	"cmp"
	"fmt"

	"listel/profile/geom"
)

// A Layout is where the drawer openings of a case lie, and their beads. Places are given on the face of the edge: x from its left
// end, y above the floor, in mm.
type Layout struct {
	Stage, Edge string
	Area        geom.Rect   // the clear frame
	Openings    []geom.Rect // as Result.Drawers
	Dividers    []geom.Rect // between rows, from the bottom
	Posts       []geom.Rect // between the drawers of a row
	Heights     []float64   // of the rows, from the bottom
	Left        float64     // mm, what rounding left over; it is in the bottom row, negative where that is less high for it
	Beads       []PlacedBead
	Inset       float64 // mm, how deep the beads are let into the front
	Proud       float64 // mm, how far they stand out from it
}

// A PlacedBead is one bead on the face: the rectangle that it covers, tips and miters included.
type PlacedBead struct {
	Run, Mark string
	At        geom.Rect
	Upright   bool
}

// openings lays out the drawers of the case and the beads around them.
func (f *fitter) openings(r *Result) {
	o := f.Openings
	if o == nil {
		if f.Beads != nil {
			f.add("beads", "there are no openings for the beads to go around")
		}
		return
	}
	before := len(f.list)
	f.unknownInOpenings(&f.faults)
	bead, wide := f.beadSection(), 0.0
	if bead != nil {
		wide = bead.Height
	}
	l := f.frameOf(*o, wide)
	if l == nil || len(f.list) > before {
		return
	}
	rows := make([]int, max(o.Graduate.Rows, len(o.Graduate.Heights)))
	for i := range rows {
		rows[i] = 1
		if len(o.Graduate.Heights) > 0 {
			rows[i] = max(1, o.Graduate.Heights[i].Drawers)
		} else if i == len(rows)-1 {
			rows[i] = max(1, o.TopRow)
		}
	}
	total := l.Area.Height() - float64(max(0, len(rows)-1))*o.Divider
	if !(o.Divider >= 0) || total < leastDrawer {
		f.add("openings.divider", "the dividers of %d rows leave no height for drawers", len(rows))
		return
	}
	l.Heights, l.Left = o.Graduate.graduated(total, grain(f.Units), "openings.graduate", f)
	if l.Heights == nil {
		return
	}
	f.fill(r, l, rows, o.Divider)
	switch {
	case l.Left > 0:
		r.Notes = append(r.Notes, fmt.Sprintf("drawer rows are whole %s; what that leaves, %s, is in the bottom row", f.stepName(), f.fine(l.Left)))
	case l.Left < 0:
		r.Notes = append(r.Notes, fmt.Sprintf("drawer rows are whole %s; what that takes too much, %s, is taken off in the bottom row", f.stepName(), f.fine(-l.Left)))
	}
	if len(f.list) == before {
		if r.Layout = l; bead != nil {
			f.beads(r, l, bead, rows, o.Divider)
		}
	}
}

// edge returns the name of the edge that the openings are in.
func (o Openings) edge() string { return cmp.Or(o.Edge, "front") }

func (f *fitter) stepName() string {
	if grain(f.Units) == 0.1 {
		return "tenths of a millimeter"
	}
	return "64ths of an inch"
}

// frameOf returns the clear frame of the openings with beads bead mm wide round them, nil and faults when it does not lie on its edge.
func (f *fitter) frameOf(o Openings, bead float64) *Layout {
	s := f.plan(o.On)
	if s == nil {
		return nil // told with the names
	}
	e, ok := s.Edge(o.edge())
	if !ok {
		return nil
	}
	l := &Layout{Stage: s.Name, Edge: e.Name, Area: geom.Rect{Min: geom.Pt(o.Left, o.Bottom), Max: geom.Pt(e.Length()-o.Right, o.Top)}}
	f.beside(o, e, bead)
	f.clear(l, s, bead)
	return l
}

// fill puts the drawers, the dividers and the posts into the layout.
func (f *fitter) fill(r *Result, l *Layout, rows []int, divider float64) {
	y := l.Area.Min.Y
	for i, h := range l.Heights {
		if i > 0 {
			l.Dividers = append(l.Dividers, geom.Rect{Min: geom.Pt(l.Area.Min.X, y), Max: geom.Pt(l.Area.Max.X, y+divider)})
			y += divider
		}
		n := float64(rows[i])
		w := (l.Area.Width() - (n-1)*divider) / n
		if rows[i] > 100 || w < leastColumn && rows[i] > 1 || w < leastDrawer {
			f.add("openings", "the drawers do not fit: %d in row %d would be %s wide; %s or more would do", rows[i], i+1, f.mm(w), f.mm(leastColumn))
			return
		}
		for k := range rows[i] {
			x := l.Area.Min.X + float64(k)*(w+divider)
			l.Openings = append(l.Openings, geom.Rect{Min: geom.Pt(x, y), Max: geom.Pt(x+w, y+h)})
			r.Drawers = append(r.Drawers, Drawer{Row: i + 1, Column: k + 1, Width: tidy(w), Height: tidy(h)})
			if k > 0 {
				l.Posts = append(l.Posts, geom.Rect{Min: geom.Pt(x-divider, y), Max: geom.Pt(x, y+h)})
			}
		}
		y += h
	}
}
