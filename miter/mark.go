package miter

import (
	"fmt"
	"math"
	"slices"

	"listel/profile"
	"listel/profile/geom"
)

// lengthTol is within which lengths count as equal, in mm: what rounding leaves, far under what anyone can cut.
const lengthTol = 1e-6

// near reports whether two numbers differ by no more than tol.
func near(a, b, tol float64) bool { return a-b <= tol && b-a <= tol }

// tipTold is by how much a piece takes more of the stick than its rough length before a note says so, in mm: less is lost in what is left to spare.
const tipTold = 1.0

// mark turns the runs into pieces: equal ones share a mark and a count.
func (m *fitting) mark(prefix string) {
	for _, r := range m.runs {
		p := m.piece(r)
		i := m.twin(p)
		if i < 0 {
			p.Mark = fmt.Sprintf("%s%d", prefix, len(m.out.Pieces)+1)
			i = len(m.out.Pieces)
			m.out.Pieces = append(m.out.Pieces, p)
		} else {
			q := &m.out.Pieces[i]
			q.Count++
			q.Runs = append(q.Runs, r.name)
			q.Places = append(q.Places, r.back())
		}
		m.out.Runs = append(m.out.Runs, PlacedRun{Run: r.name, Mark: m.out.Pieces[i].Mark,
			Inner: r.planLine(0), Outer: r.planLine(r.section.Projection), main: !r.ret && !r.rail, Side: !r.ret && !r.rail && m.stage.sideways(r.edge) > 0})
	}
	m.out.Closed = m.chain.closed
	for _, u := range m.used {
		m.out.Sections = append(m.out.Sections, UsedSection{Role: u.role, Section: u.Section, Runs: u.runs})
	}
}

// twin returns the piece equal to p, -1 without one.
func (m *fitting) twin(p Piece) int {
	for i, q := range m.out.Pieces {
		if same(p, q) {
			return i
		}
	}
	return -1
}

// same reports whether two pieces are cut alike.
func same(p, q Piece) bool {
	return p.Section == q.Section && near(p.Back, q.Back, lengthTol) && near(p.Long, q.Long, lengthTol) && near(p.Short, q.Short, lengthTol) &&
		alike(p.Ends[0], q.Ends[0]) && alike(p.Ends[1], q.Ends[1])
}

func alike(a, b End) bool {
	return a.Kind == b.Kind && a.Spline == b.Spline && a.Pin == b.Pin && near(a.Tenon, b.Tenon, lengthTol) && near(a.Cut.X, b.Cut.X, 1e-9) && near(a.Cut.Y, b.Cut.Y, 1e-9)
}

// mirrored returns the end as it is on the piece's mirror image.
func mirrored(e End) End {
	e.Cut = Plane{-e.Cut.S, -e.Cut.X, -e.Cut.Y}
	return e
}

// piece returns the run as a piece without a mark.
func (m *fitting) piece(r *run) Piece {
	l := between(r.left.cut, r.right.cut)
	short, long := r.section.span(l)
	lo, _ := r.section.span(r.left.cut)
	_, hi := r.section.span(r.right.cut)
	p := Piece{Run: r.name, Runs: []string{r.name}, Count: 1, Back: tidy(l.S), Long: tidy(long), Short: tidy(short), Tip: tidy(hi - lo),
		Profile: r.section.Name, Section: &r.section.Section, Places: []Placement{r.back()}, Notes: r.notes,
		Ends: []End{m.end(r, LeftHand), m.end(r, RightHand)}}
	if b := r.section.Rabbet; b != nil {
		seat := tidy(l.At(geom.Pt(b.Width, 0)))
		p.Seat = &seat
	}
	p.Hand = m.hand(p)
	m.rough(&p)
	p.Notes = append(p.Notes, m.advice(r, p)...)
	return p
}

// Where a saw of the usual kind ends: common practice, no source.
const (
	sawMiterMost = 60 * geom.Degree
	sawBevelMost = 47 * geom.Degree
)

// advice says in words what the numbers of a piece do not: short pieces, steep cuts, copes.
func (m *fitting) advice(r *run, p Piece) []string {
	var out []string
	if r.ret {
		out = append(out, "cut its miter on the end of a longer stick, and saw the return off last, by hand or held in a block; from the same stick, next to the run, its grain goes on round the corner; glue it, do not nail it")
	} else if p.Rough < m.Shop.Safe {
		out = append(out, "too short to machine: cut it off a stick at least "+m.mm(m.Shop.Safe)+" long")
	}
	for _, e := range p.Ends {
		if e.Kind == CutCope {
			out = append(out, "cut the miter of its "+string(e.End)+" end first: the line that shows on the face is the one to saw along, undercut a little; the template is the section of "+e.Meets)
			if undercutInFront(r.section) {
				out = append(out, "the section is undercut as seen from the front: a cope cannot be pushed straight in, only slid in from above or below; a miter closes better")
			}
		}
		s := e.Standing
		if e.Flat != nil && e.Flat.Miter <= sawMiterMost && e.Flat.Bevel <= sawBevelMost {
			s = *e.Flat
		}
		if s.Miter > sawMiterMost || s.Bevel > sawBevelMost {
			out = append(out, fmt.Sprintf("the cut at its %s end is steeper than most saws go: build a jig as the saw's manual allows, or saw it by hand", e.End))
		}
	}
	return out
}

func undercutInFront(u *used) bool {
	for _, c := range u.Undercuts() {
		if c.From == profile.FromFront {
			return true
		}
	}
	return false
}

// back returns where the run stands, its origin at the left end of its back.
func (r *run) back() Placement {
	p := r.place
	p.Origin = p.At(r.left.cut.S, geom.Point{})
	return p
}

// tenons returns the length of both tenons, in mm.
func (p Piece) tenons() float64 { return p.Ends[0].Tenon + p.Ends[1].Tenon }

// Stick returns what to cut off the stick for the piece, in mm, with rough mm left on each end: its rough length, or more where its ends
// lean the same way, so that no length of it is as great as from tip to tip.
func (p Piece) Stick(rough float64) float64 {
	return math.Max(p.Rough, p.Tip+p.tenons()+2*rough)
}

// rough sets the rough length. A piece whose ends lean the same way is longer from tip to tip than L is anywhere, and
// takes that much more of the stick.
func (m *fitting) rough(p *Piece) {
	p.Rough = p.Long + p.tenons() + 2*m.Shop.Rough
	if stick := p.Stick(m.Shop.Rough); stick > p.Rough+tipTold {
		p.Notes = append(p.Notes, "its ends lean the same way: cut "+m.mm(m.format.NoLess(stick))+" off the stick for it, the lean of both ends included")
	}
}

// tidy removes the dust of rounding around whole numbers and zero.
func tidy(v float64) float64 {
	if r := math.Round(v*1e6) / 1e6; math.Abs(v-r) < 1e-9 {
		return r + 0
	}
	return v
}

func (m *fitting) end(r *run, h Hand) End {
	e := r.end(h)
	out := End{End: h, Kind: e.kind, Corner: e.corner, Tenon: e.tenon, Meets: e.meets, Cut: e.cut, along: e.along}
	out.Cut.S -= r.left.cut.S
	if p, ok := placeOf(r, h); ok {
		out.Spline = m.out.Spline != nil && slices.Contains(m.splined, p)
		out.Pin = m.out.Pin != nil && slices.Contains(m.pinned, p)
	}
	b := standingBed
	if s := r.section.Spring; s != nil {
		b = nestedBed
		flat := flatSaw(s.Angle, e.cut, h)
		out.Flat = &flat
	}
	out.Standing = b.saw(e.cut, h)
	return out
}

// hand returns the side of the case that the piece stands on, none when it is its own mirror or stands across the middle of the front.
func (m *fitting) hand(p Piece) Hand {
	if alike(p.Ends[0], mirrored(p.Ends[1])) {
		return NoHand
	}
	const tol = 0.01 // mm
	left, right := p.Cuts()
	a, b := p.Places[0].At(left.S, geom.Point{}).X, p.Places[0].At(right.S, geom.Point{}).X
	switch middle := m.stage.middle(); {
	case math.Min(a, b) < middle-tol && math.Max(a, b) <= middle+tol:
		return LeftHand
	case math.Max(a, b) > middle+tol && math.Min(a, b) >= middle-tol:
		return RightHand
	}
	return NoHand
}

// middle returns the x of the middle of the front, which corners off square leave where it is; of the whole plan when no edge is named so.
func (s StagePlan) middle() float64 {
	if e, ok := s.Edge("front"); ok {
		return e.A.Lerp(e.B, 0.5).X
	}
	return s.Bounds().Center().X
}
