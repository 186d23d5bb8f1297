package miter

import (
	"fmt"
	"math"
	"slices"

	"listel/profile/geom"
	"listel/profile/measure"
)

// A Notch is a vee of 90 degrees cut into a bead for the point of another: where its middle lies along the bead from the left end
// of its foot, how deep it goes, and in which side.
type Notch struct {
	At    float64 `json:"at_mm"`
	Depth float64 `json:"depth_mm"`
	Side  Face    `json:"side"` // foot or top
}

// A beader makes the beads of a layout. A bead lies with its back on the front of the case, or let into it, and its foot along the opening's edge, so
// that its height is its width on the face.
type beader struct {
	*fitter
	l       *Layout
	section *used
	edge    Edge
	wide    float64 // mm, of a bead on the face
	out     []Piece
}

// beadSection returns the section of the beads, nil without any or with a fault.
func (f *fitter) beadSection() *used {
	if f.Beads == nil {
		return nil
	}
	u := f.section(f.Beads.Profile, "beads.profile")
	switch {
	case u == nil:
		return nil
	case u.Spring != nil:
		f.add("beads.profile", "a bead has a flat back; %s is sprung", u.Name)
		return nil
	case !(f.Beads.Inset < u.Projection-f.usual.proud+1e-9):
		f.add("beads.inset", "the bead is %s from its back to its crest: let in by %s, less than %s of it stands proud; %s or less would do",
			f.mm(u.Projection), f.mm(f.Beads.Inset), f.mm(f.usual.proud), f.mm(math.Max(0, u.Projection-f.usual.proud)))
	}
	return u
}

// beads adds the beads of section u around the openings to the result.
func (f *fitter) beads(r *Result, l *Layout, u *used, rows []int, divider float64) {
	e, _ := f.plan(l.Stage).Edge(l.Edge)
	b := &beader{fitter: f, l: l, section: u, edge: e, wide: u.Height}
	switch {
	case divider < 1e-6 && len(l.Openings) > 1:
		f.add("openings.divider", "a bead between two drawers needs a divider to lie on")
	case b.wide > divider+1e-6 && len(l.Openings) > 1:
		f.add("openings.divider", "the bead is %s wide and would stand over the drawers on both sides of a divider of %s; %s or more would do", f.mm(b.wide), f.mm(divider), f.mm(b.wide))
	default:
		l.Inset, l.Proud = f.Beads.Inset, u.Projection-f.Beads.Inset
		if l.Proud > f.usual.mostProud+1e-9 {
			rule := measure.Format{Units: f.Units, Fraction: 32}
			r.Notes = append(r.Notes, fmt.Sprintf("the beads stand %s proud of the %s; cock beads are let in until about %s shows (common practice, no source): inset: %s under beads does it",
				f.mm(l.Proud), l.Edge, f.mm(f.usual.cock), rule.Bare(rule.Shown(u.Projection-f.usual.cock))))
		}
		b.outer()
		b.dividers()
		b.posts(rows)
		b.mark(r)
	}
}

// place returns where a bead lies whose foot begins at p of the face and goes on in the direction along.
func (b *beader) place(p, along geom.Point) Placement {
	d, n := level(b.edge.Dir(), 0), level(b.edge.Out(), 0)
	on := func(q geom.Point) Vec3 { return d.Mul(q.X).Add(Vec3{Z: q.Y}) }
	return Placement{Origin: level(b.edge.A, 0).Add(on(p)).Add(n.Mul(-b.Beads.Inset)), Along: on(along), Out: n, Up: on(along.Left())}
}

// add adds a bead: foot along the line from p to q of the face, with both ends alike.
func (b *beader) add(run string, p, q geom.Point, kind CutKind, meets [2]string, notches []Notch) {
	length := p.Dist(q)
	along := q.Sub(p).Unit()
	w := b.wide
	piece := Piece{Run: run, Runs: []string{run}, Count: 1, Back: tidy(length), Short: tidy(length), Long: tidy(length + 2*w),
		Profile: b.section.Name, Section: &b.section.Section, Places: []Placement{b.place(p, along)}, Notches: notches}
	if kind == CutVee {
		piece.Long = tidy(length + w) // points of 90 degrees are half as long as wide
	}
	piece.Tip = piece.Long
	for i, h := range []Hand{LeftHand, RightHand} {
		c := Plane{Y: -1}
		if h == RightHand {
			c = Plane{S: length, Y: 1}
		}
		piece.Ends = append(piece.Ends, End{End: h, Kind: kind, Corner: 90 * geom.Degree, Meets: meets[i], Cut: c, Standing: lyingBed.saw(c, h)})
	}
	piece.Rough = piece.Long + 2*b.Shop.Rough
	if kind == CutVee {
		piece.Notes = []string{"each end is a point of 90 degrees in the middle of its width: cut one side with the foot against the fence, the other with the top against it and the saw swung to the other side"}
	}
	box := geom.EmptyRect()
	for _, s := range []float64{0, length} {
		for _, y := range []float64{0, w} {
			box = box.Include(p.Add(along.Mul(s)).Add(along.Left().Mul(y)))
		}
	}
	over := (piece.Long - length) / 2
	upright := math.Abs(along.Y) > 0.5
	if upright {
		box.Min.Y, box.Max.Y = box.Min.Y-over, box.Max.Y+over
	} else {
		box.Min.X, box.Max.X = box.Min.X-over, box.Max.X+over
	}
	b.l.Beads = append(b.l.Beads, PlacedBead{Run: run, At: box, Upright: upright})
	b.out = append(b.out, piece)
}

// outer adds the four beads round the frame, mitered at its corners. Their feet are at the opening; the uprights run through
// and take the points of the dividers.
func (b *beader) outer() {
	a := b.l.Area
	ll, lr, ur, ul := a.Min, geom.Pt(a.Max.X, a.Min.Y), a.Max, geom.Pt(a.Min.X, a.Max.Y)
	var left, right []Notch
	for _, d := range b.l.Dividers {
		y := (d.Min.Y + d.Max.Y) / 2
		left = append(left, b.notch(y-a.Min.Y))
		right = append([]Notch{b.notch(a.Max.Y - y)}, right...)
	}
	b.add("left-upright", ll, ul, CutMiter, [2]string{"bottom", "top"}, left)
	b.add("top", ul, ur, CutMiter, [2]string{"left-upright", "right-upright"}, b.postNotches(a.Max.Y, a.Min.X, 1))
	b.add("right-upright", ur, lr, CutMiter, [2]string{"top", "bottom"}, right)
	b.add("bottom", lr, ll, CutMiter, [2]string{"right-upright", "left-upright"}, b.postNotches(a.Min.Y, a.Max.X, -1))
}

func (b *beader) notch(at float64) Notch {
	return Notch{At: tidy(at), Depth: b.wide / 2, Side: FootFace}
}

// postNotches returns the notches for the posts that end at height y, measured from x in the direction dir, in order along the bead.
func (b *beader) postNotches(y, x, dir float64) []Notch {
	var out []Notch
	for _, p := range b.l.Posts {
		if near(p.Max.Y, y, 1e-6) || near(p.Min.Y, y, 1e-6) {
			out = append(out, b.notch(((p.Min.X+p.Max.X)/2-x)*dir))
		}
	}
	if dir < 0 {
		slices.Reverse(out)
	}
	return out
}

// dividers adds the beads between the rows, pointed at both ends, in the middle of their dividers.
func (b *beader) dividers() {
	for i, d := range b.l.Dividers {
		y := (d.Min.Y+d.Max.Y)/2 - b.wide/2
		notches := b.postNotches(d.Min.Y, d.Min.X, 1)
		for _, n := range b.postNotches(d.Max.Y, d.Min.X, 1) {
			n.Side = TopFace
			notches = append(notches, n)
		}
		b.add(fmt.Sprintf("divider-%d", i+1), geom.Pt(d.Min.X, y), geom.Pt(d.Max.X, y), CutVee, [2]string{"left-upright", "right-upright"}, notches)
	}
}

// posts adds the upright beads between the drawers of a row, pointed at both ends. They reach from the edge of the bead below to
// that of the bead above.
func (b *beader) posts(rows []int) {
	k := 0
	for i, n := range rows {
		for range n - 1 {
			p := b.l.Posts[k]
			k++
			y0, y1, below, above := b.l.Area.Min.Y, b.l.Area.Max.Y, "bottom", "top"
			if i > 0 {
				d := b.l.Dividers[i-1]
				y0, below = (d.Min.Y+d.Max.Y)/2+b.wide/2, fmt.Sprintf("divider-%d", i)
			}
			if i < len(b.l.Dividers) {
				d := b.l.Dividers[i]
				y1, above = (d.Min.Y+d.Max.Y)/2-b.wide/2, fmt.Sprintf("divider-%d", i+1)
			}
			x := (p.Min.X+p.Max.X)/2 + b.wide/2
			b.add(fmt.Sprintf("post-%d", k), geom.Pt(x, y0), geom.Pt(x, y1), CutVee, [2]string{below, above}, nil)
		}
	}
}

// mark gives the beads their marks and hands, equal ones the same mark.
func (b *beader) mark(r *Result) {
	prefix := b.prefix("edge bead")
	middle := (b.l.Area.Min.X + b.l.Area.Max.X) / 2
	for i, p := range b.out {
		at := &b.l.Beads[i]
		p.Hand = beadHand(p, at.At.Center().X-middle)
		k := -1
		for j, q := range r.Beads {
			if same(p, q) && sameNotches(p.Notches, q.Notches) {
				k = j
			}
		}
		if k < 0 {
			p.Mark = fmt.Sprintf("%s%d", prefix, len(r.Beads)+1)
			at.Mark = p.Mark
			r.Beads = append(r.Beads, p)
			continue
		}
		q := &r.Beads[k]
		q.Count++
		q.Runs = append(q.Runs, p.Run)
		q.Places = append(q.Places, p.Places[0])
		at.Mark = q.Mark
	}
}

// beadHand returns the side a bead is on, none when it is its own mirror image.
func beadHand(p Piece, off float64) Hand {
	own := true
	for _, n := range p.Notches {
		found := false
		for _, o := range p.Notches {
			found = found || o.Side == n.Side && near(o.At, p.Back-n.At, lengthTol)
		}
		own = own && found
	}
	switch {
	case own || math.Abs(off) < 0.01:
		return NoHand
	case off < 0:
		return LeftHand
	}
	return RightHand
}

func sameNotches(a, b []Notch) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Side != b[i].Side || !near(a[i].At, b[i].At, lengthTol) {
			return false
		}
	}
	return true
}
