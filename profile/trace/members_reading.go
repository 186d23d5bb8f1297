package trace

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// The unknowns that every reading has: x of the back, y of the foot, and how far the face at the foot lies from the back.
const (
	unknownBack = iota
	unknownFoot
	unknownGround
	firstOwn
)

// A part is one member of a reading, with the level step before it.
type part struct {
	shape shape
	at    int // its first unknown of its own
	step  int // the unknown of its set, -1 when it has none
	drip  int // the first unknown of its drip: width, depth, inset; -1 without one
}

// A reading is a section whose members are known and whose sizes are to be fitted.
type reading struct {
	parts  []part
	back   backKind
	backAt int
	theta  []float64
	fixed  []bool
	cost   float64 // with the price of its sizes
	system *system
	spans  []span
	index  []int // of the outline's points that the sights are
}

// A span tells which of the outline's points a part was read from.
type span struct{ first, last int }

// newReading makes a reading of a way through the face, with the sizes that its members have each for itself.
func (c *chain) newReading(ways []way) *reading {
	face := c.bits[c.face:c.top]
	r := &reading{}
	r.theta = []float64{0, 0, face[0].from.X}
	var step *way
	first, at, tail := face[0].first, face[0].from, false
	for i := range ways {
		w := ways[i]
		switch {
		case w.junk:
		case w.step:
			step = &ways[i]
		default:
			p := part{shape: w.shape, step: -1, drip: -1}
			switch stepped := step != nil || w.lead || tail; {
			case len(r.parts) == 0 && (step == nil || step.drip == nil): // along the foot: it is part of the ground
				r.theta[unknownGround], at.X = w.at.X, w.at.X
			case stepped:
				p.step = r.unknown(w.at.X - at.X)
				at.X = w.at.X
			}
			if step != nil && step.drip != nil {
				p.drip = r.unknown(step.drip.Width)
				r.unknown(step.drip.Depth)
				r.unknown(step.drip.Inset)
			}
			own := append([]float64(nil), w.own...)
			if top := c.startAfter(ways, i); w.shape.form == flat && top-at.Y > shortBit {
				own[0] = top - at.Y // flats take up what the members fitted each for itself leave between them
			}
			p.at = r.unknowns(own)
			r.parts = append(r.parts, p)
			r.spans = append(r.spans, span{first, face[w.to-1].last})
			at = at.Add(geom.Pt(w.shape.run(own), own[0]))
			first, step, tail = face[w.to-1].last, nil, w.tail
		}
	}
	kind, a, b, _ := c.back()
	if r.back = kind; kind != plainBack {
		r.backAt = r.unknown(a)
		r.unknown(b)
	}
	return r
}

// startAfter returns y where the member after way i starts, or that of the top.
func (c *chain) startAfter(ways []way, i int) float64 {
	for _, w := range ways[i+1:] {
		if !w.step && !w.junk {
			return w.at.Y
		}
	}
	return c.bits[c.top-1].to.Y
}

// unknown adds an unknown and returns its index.
func (r *reading) unknown(v float64) int {
	r.theta = append(r.theta, v)
	return len(r.theta) - 1
}

// x and y of the end of part k, as rows.
func (r *reading) ends() (x, y []row) {
	atX, atY := groundRow(), row{{unknownFoot, 1}}
	for _, p := range r.parts {
		if p.step >= 0 {
			atX = atX.plus(row{{p.step, 1}}, 1)
		}
		atY = atY.plus(row{{p.at, 1}}, 1)
		if k, tied := p.shape.form.tie(); tied {
			if k != 0 {
				atX = atX.plus(row{{p.at, 1}}, k*p.shape.sign)
			}
		} else {
			atX = atX.plus(row{{p.at + 1, 1}}, 1)
		}
		x, y = append(x, atX), append(y, atY)
	}
	return x, y
}

// build makes the system of the reading's strands: foot, then for each part its step and its shape, top, back.
func (r *reading) build(c *chain) {
	xs, ys := r.ends()
	n := len(xs)
	foot, rest := r.backStrands(xs[n-1], ys[n-1])
	strands := []strand{foot}
	where := make([]int, n)
	x, y := groundRow(), row{{unknownFoot, 1}}
	for k, p := range r.parts {
		if p.step >= 0 {
			to := x.plus(row{{p.step, 1}}, 1)
			strands = append(strands, stepStrand(x, to, y, p))
			x = to
		}
		rows := []row{x, y}
		for i := range p.shape.own() {
			rows = append(rows, row{{p.at + i, 1}})
		}
		shape := p.shape
		where[k] = len(strands)
		strands = append(strands, strand{rows, func(v []float64) geom.Path { return shape.draw(geom.Pt(v[0], v[1]), v[2:]) }})
		x, y = xs[k], ys[k]
	}
	r.system = &system{strands: append(strands, rest...), sigma: c.sigma, least: c.least}
	r.sights(c, where)
}

// stepStrand is the level step before a part, with its drip.
func stepStrand(from, to, y row, p part) strand {
	if p.drip < 0 {
		return levelStrand(from, to, y)
	}
	rows := []row{from, to, y, {{p.drip, 1}}, {{p.drip + 1, 1}}, {{p.drip + 2, 1}}}
	return strand{rows, func(v []float64) geom.Path {
		d := profile.SizedDrip{Width: v[3], Depth: v[4], Inset: v[5]}
		if !(d.Width > leastSize && d.Depth > leastSize && d.Inset > leastSize && v[1]-v[0]-d.Inset-d.Width > -leastSize) {
			return nil
		}
		return profile.Corona{Height: d.Depth, Set: v[1] - v[0], Drip: &d}.Soffit(geom.Pt(v[0], v[2]))
	}}
}

// pointsAtMost is how many of the outline's points a reading is fitted to; the rest add their weight to them.
const pointsAtMost = 1600

// sights assigns the outline's points to the strands that they may lie on: those of their part and of its neighbors.
func (r *reading) sights(c *chain, where []int) {
	n := len(c.pts) - 1
	stride := max(1, n/pointsAtMost)
	last := len(r.system.strands)
	topStrand := where[len(where)-1] + 1
	k := 0
	r.index = nil
	faceFirst, faceLast := r.spans[0].first, r.spans[len(r.spans)-1].last
	for i := stride / 2; i < n; i += stride {
		s := sight{at: c.pts[i], w: c.w[i] * float64(stride)}
		r.index = append(r.index, i)
		switch {
		case i < faceFirst:
			s.lo, s.hi = 0, min(where[0]+1, last) // foot, or the back below it
			if c.face > 1 && i <= c.bits[c.face-2].last {
				s.lo, s.hi = topStrand+1, last
				r.system.sights = append(r.system.sights, s)
				continue
			}
		case i > faceLast:
			s.lo, s.hi = where[len(where)-1], last
		default:
			for k+1 < len(r.spans) && i > r.spans[k].last {
				k++
			}
			s.lo, s.hi = 0, topStrand+1
			if k > 0 {
				s.lo = where[k-1]
			}
			if k+1 < len(where) {
				s.hi = where[k+1] + 1
			}
		}
		r.system.sights = append(r.system.sights, s)
	}
}

// fit fits all free sizes together and sets the cost.
func (r *reading) fit(c *chain, rounds int) {
	r.build(c)
	if r.fixed == nil || len(r.fixed) != len(r.theta) {
		r.fixed = make([]bool, len(r.theta))
	}
	var cost float64
	r.theta, cost = r.system.solve(r.theta, r.fixed, rounds)
	r.cost = cost + r.price()
}

// price is what the reading costs beside its distances.
func (r *reading) price() float64 {
	sum := sizePrice * float64(len(r.theta)-firstOwn)
	for _, p := range r.parts {
		sum += memberPrice
		sum += p.shape.price()
	}
	for k := range r.parts {
		if r.undercut(k) {
			sum += cuspPrice
		}
		if r.odd(k) {
			sum += oddPrice
		}
		if r.slight(k) {
			sum += slightPrice
		}
	}
	return sum
}

// slight reports whether part k, or the step before it, is smaller than the drawing's line and its noise can tell: none is meant so.
func (r *reading) slight(k int) bool {
	p := r.parts[k]
	own := r.theta[p.at : p.at+p.shape.own()]
	least := leastDrawn
	if r.system != nil {
		least = math.Max(least, r.system.least)
	}
	switch run := math.Abs(p.shape.run(own)); {
	case own[0] < least, p.step >= 0 && p.drip < 0 && math.Abs(r.theta[p.step]) < least:
		return true
	case p.shape.form == slope:
		return run < 2*least
	case p.shape.form == free, p.shape.form == flat:
		return false
	}
	// A curve is as broad as the line that it is drawn by at least.
	factor, tied := p.shape.form.tie()
	return own[0] < 2*least || !(tied && factor == 0) && !p.shape.round(own)
}

// undercut reports whether part k lies so between its steps.
func (r *reading) undercut(k int) bool {
	step := func(k int) float64 {
		if k >= len(r.parts) || r.parts[k].step < 0 {
			return 0
		}
		return r.theta[r.parts[k].step]
	}
	return r.parts[k].shape.undercut(step(k), step(k+1))
}

// odd reports whether part k is struck otherwise than as a quadrant though its rise is nearly its run: nobody would have drawn it so.
func (r *reading) odd(k int) bool {
	p := r.parts[k]
	return p.shape.odd(r.theta[p.at : p.at+p.shape.own()])
}
