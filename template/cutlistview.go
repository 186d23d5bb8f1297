package template

import (
	"math"
	"slices"

	"listel/miter"
	"listel/profile/geom"
)

// A stickView is the way that a piece is looked at on its drawing, always with its left end at the left: which direction of its
// section runs up the sheet, and which comes toward the reader.
type stickView struct {
	up, toward geom.Point
	words      string
	over       string // what lies along the upper edge
	under      string // and along the lower
}

// The views of a piece that is not sprung.
var (
	viewAbove = stickView{geom.Pt(-1, 0), geom.Pt(0, 1), "seen from above, its face toward you", "back", "face"}
	viewFront = stickView{geom.Pt(0, 1), geom.Pt(1, 0), "seen from its face", "top", "foot"}
)

// viewOf returns how the piece is drawn: from above, so that its miters show their true angle; a sprung one as it lies on its
// back on the bench; one whose ends slope along its height from its face.
func viewOf(p miter.Piece) stickView {
	if p.Section.Spring != nil {
		a := p.Section.Spring.Angle
		return stickView{geom.Pt(a.Sin(), a.Cos()), geom.Pt(a.Cos(), -a.Sin()), "lying on its back, its face up", "top", "foot"}
	}
	for _, e := range p.Ends {
		if math.Abs(e.Cut.Y) > 1e-9 {
			return viewFront
		}
	}
	if len(p.Notches) > 0 {
		return viewFront
	}
	return viewAbove
}

// A stick is a piece to be drawn: its section and how far along it its ends lie, tenons and points included.
type stick struct {
	piece  miter.Piece
	view   stickView
	frame  *miter.Frame // of a rail, else nil
	points []geom.Point // of the section
	height float64      // of the section, for points in the middle of it
}

func newStick(p miter.Piece, f *miter.Frame) stick {
	return stick{piece: p, view: viewOf(p), frame: f, points: p.Section.Outline.Flatten(0.05), height: p.Section.Outline.Bounds().Max.Y}
}

// end returns how far along the piece its end lies at the section point q, mm. The ends of a vee are points.
func (s stick) end(i int, q geom.Point) float64 {
	e := s.piece.Ends[i]
	if e.Kind != miter.CutVee {
		return e.Cut.At(q)
	}
	reach := min(q.Y, s.height-q.Y)
	if i == 0 {
		return e.Cut.S - reach
	}
	return e.Cut.S + reach
}

// span returns the least and the greatest place of an end, its tenon included.
func (s stick) span(i int) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, q := range s.points {
		v := s.end(i, q)
		lo, hi = min(lo, v), max(hi, v)
	}
	if s.piece.Ends[i].Kind == miter.CutVee {
		v := s.end(i, geom.Pt(0, s.height/2))
		lo, hi = min(lo, v), max(hi, v)
	}
	if t := s.piece.Ends[i].Tenon; i == 0 {
		lo -= t
	} else {
		hi += t
	}
	return lo, hi
}

// depth returns the least and the greatest place of the section up the sheet, mm.
func (s stick) depth() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, q := range s.points {
		v := q.Dot(s.view.up)
		lo, hi = min(lo, v), max(hi, v)
	}
	return lo, hi
}

// extremes returns the points of the section where the piece is longest and shortest.
func (s stick) extremes() (long, short geom.Point) {
	most, least := math.Inf(-1), math.Inf(1)
	pts := s.points
	if s.piece.Ends[0].Kind == miter.CutVee || s.piece.Ends[1].Kind == miter.CutVee {
		pts = append([]geom.Point{{Y: s.height / 2}}, pts...)
	}
	for _, q := range pts {
		l := s.end(1, q) - s.end(0, q)
		far := q.Dot(s.view.toward) * 1e-9 // of equal ones the one that the reader sees
		if l+far > most {
			most, long = l+far, q
		}
		if l-far < least {
			least, short = l-far, q
		}
	}
	return long, short
}

// lines returns the edges of members that are seen along the piece, each from its left to its right end; in mm of wood, s to the
// right and the view's up.
func (s stick) lines() [][2]geom.Point {
	var out [][2]geom.Point
	all := strips(*s.piece.Section)
	for i, strip := range all {
		before := all[(i+len(all)-1)%len(all)]
		if s.seen(before[len(before)-2], before[len(before)-1]) || s.seen(strip[0], strip[1]) {
			q := strip[0]
			if !s.hidden(q) {
				u := q.Dot(s.view.up)
				out = append(out, [2]geom.Point{{X: s.end(0, q), Y: u}, {X: s.end(1, q), Y: u}})
			}
		}
	}
	return out
}

// contours returns the edges of the cut ends that are seen on the wood, in mm of it: inside the outline where an end slopes away from
// the reader.
func (s stick) contours() [][]geom.Point {
	var out [][]geom.Point
	for i := range s.piece.Ends {
		var run []geom.Point
		for k, a := range s.points {
			b := s.points[(k+1)%len(s.points)]
			if !s.seen(a, b) || s.hidden(a.Lerp(b, 0.5)) {
				if len(run) > 1 {
					out = append(out, run)
				}
				run = nil
				continue
			}
			if run == nil {
				run = []geom.Point{{X: s.end(i, a), Y: a.Dot(s.view.up)}}
			}
			run = append(run, geom.Pt(s.end(i, b), b.Dot(s.view.up)))
		}
		if len(run) > 1 {
			out = append(out, run)
		}
	}
	return out
}

// seen reports whether the surface over the edge from p to q of the section faces the reader.
func (s stick) seen(p, q geom.Point) bool {
	d := q.Sub(p)
	return geom.Pt(d.Y, -d.X).Dot(s.view.toward) > 1e-6
}

// hidden reports whether other wood of the section lies between the point q and the reader.
func (s stick) hidden(q geom.Point) bool {
	u, near := q.Dot(s.view.up), q.Dot(s.view.toward)
	for i, a := range s.points {
		b := s.points[(i+1)%len(s.points)]
		ua, ub := a.Dot(s.view.up)-u, b.Dot(s.view.up)-u
		if ua*ub >= 0 {
			continue
		}
		if a.Lerp(b, ua/(ua-ub)).Dot(s.view.toward) > near+1e-3 {
			return true
		}
	}
	return false
}

// outline returns the piece's outline as it is seen, in mm of wood: up its left end and down its right one.
func (s stick) outline() []geom.Point {
	var levels []float64
	for _, q := range s.points {
		levels = append(levels, q.Dot(s.view.up))
	}
	if s.vee() {
		levels = append(levels, s.height/2)
	}
	levels = slices.Compact(sortedBy(levels, func(u float64) float64 { return u }))
	var left, right []geom.Point
	for _, u := range levels {
		lo, hi := math.Inf(1), math.Inf(-1)
		for i, a := range s.points {
			b := s.points[(i+1)%len(s.points)]
			ua, ub := a.Dot(s.view.up)-u, b.Dot(s.view.up)-u
			if ua*ub > 0 {
				continue
			}
			q := a
			if ua != ub {
				q = a.Lerp(b, ua/(ua-ub))
			}
			lo, hi = min(lo, s.end(0, q)), max(hi, s.end(1, q))
		}
		left, right = append(left, geom.Pt(lo, u)), append(right, geom.Pt(hi, u))
	}
	slices.Reverse(left)
	return append(left, right...)
}

func (s stick) vee() bool {
	return s.piece.Ends[0].Kind == miter.CutVee || s.piece.Ends[1].Kind == miter.CutVee
}

// A brokenLine maps places along a piece to the sheet: true near what must be seen, with plain wood broken out between.
type brokenLine struct {
	k      float64   // mm on the sheet for a mm of wood
	from   []float64 // places along the piece where a stretch begins, rising; the last ends it
	to     []float64 // the same on the sheet
	breaks []float64 // the middle of each stretch that is broken, on the sheet
}

// at returns the place on the sheet of one along the piece.
func (b brokenLine) at(s float64) float64 {
	n := len(b.from)
	if s <= b.from[0] {
		return b.to[0] + (s-b.from[0])*b.k
	}
	for i := 1; i < n; i++ {
		if s <= b.from[i] {
			return b.to[i-1] + (s-b.from[i-1])/(b.from[i]-b.from[i-1])*(b.to[i]-b.to[i-1])
		}
	}
	return b.to[n-1] + (s-b.from[n-1])*b.k
}

// breakLine fits the stretches that must be seen, in order and each with its ends, into width mm at k.
func breakLine(seen [][2]float64, k, width float64) brokenLine {
	const around = 9.0 // mm on the sheet beside what must be seen
	b := brokenLine{k: k}
	merged := [][2]float64{seen[0]}
	for i, s := range seen {
		grown := [2]float64{s[0], s[1]}
		if i > 0 {
			grown[0] -= around / k
		}
		if i < len(seen)-1 {
			grown[1] += around / k
		}
		last := &merged[len(merged)-1]
		if i > 0 && grown[0] > last[1] {
			merged = append(merged, grown)
			continue
		}
		last[1] = max(last[1], grown[1])
	}
	room := width
	var gaps []float64
	for i, m := range merged {
		room -= (m[1] - m[0]) * k
		if i > 0 {
			gaps = append(gaps, (m[0]-merged[i-1][1])*k)
		}
	}
	drawn := shareOut(gaps, room)
	x := 0.0
	for i, m := range merged {
		if i > 0 {
			if drawn[i-1] < gaps[i-1]-1e-9 {
				b.breaks = append(b.breaks, x+drawn[i-1]/2)
			}
			x += drawn[i-1]
		}
		b.from, b.to = append(b.from, m[0], m[1]), append(b.to, x, x+(m[1]-m[0])*k)
		x += (m[1] - m[0]) * k
	}
	return b
}

// shareOut deals room out to the gaps, none getting more than it needs.
func shareOut(gaps []float64, room float64) []float64 {
	out := make([]float64, len(gaps))
	open := len(gaps)
	for open > 0 {
		share := room / float64(open)
		settled := false
		for i, g := range gaps {
			if out[i] == 0 && g <= share {
				out[i] = max(g, 1e-12)
				room -= g
				open--
				settled = true
			}
		}
		if !settled {
			for i := range gaps {
				if out[i] == 0 {
					out[i] = share
				}
			}
			return out
		}
	}
	return out
}
