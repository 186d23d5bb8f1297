package miter

import (
	"math"

	"listel/miter/stock"
	"listel/profile/geom"
)

// A Slant is how strips for a sprung molding are ripped with the blade tilted, so that each takes less of the board's width than its
// blank is wide: the section lies on its back between parallel beveled rips. A rip of slope m runs from u at the board's lower face to u + m v at the height
// v over it, u across the board and v square to it; strips stand a pitch apart, and the board's two edges take the
// triangle |m| x its thickness once.
type Slant struct {
	Bevel geom.Angle // of the saw, from square, within 45 degrees
	Slope float64    // m; positive where the rips lean toward the top of the molding
	Range float64    // mm, what the section takes across the board between two rips
	Pitch float64    // mm, from one strip to the next, with jointing and kerf

	strip float64 // mm, the width that the job counts with
}

// mostSlope is that of a saw's blade at 45 degrees.
const mostSlope = 1.0

// Width returns the width of board, in mm, that n strips take out of a board of that rough thickness, n >= 1.
func (s Slant) Width(n int, thickness, kerf float64) float64 {
	return float64(n)*s.Pitch - kerf*s.stretch() + math.Abs(s.Slope)*thickness
}

// stretch is how much wider a beveled cut is across the board than square to itself.
func (s Slant) stretch() float64 { return math.Hypot(1, s.Slope) }

// newSlant returns the slant of slope m for a blank.
func newSlant(b Blank, m, joint, kerf float64) Slant {
	s := Slant{Bevel: geom.Angle(math.Atan(math.Abs(m))), Slope: m}
	dir := geom.Pt(-m, 1) // u - m v, with v along x and u along y
	s.Range = dir.Norm() * b.back().Rotate(-dir.Angle()).Bounds().Width()
	s.Pitch = s.Range + (joint+kerf)*s.stretch()
	return s
}

// slants looks for sprung blanks that save width when they are ripped on the slant. Of those that share a board only the first is.
func (p *Purchase) slants() {
	shared := map[int]bool{}
	for i := range p.Blanks {
		if p.Blanks[i].Section.Spring == nil {
			continue
		}
		boards, ok := p.boardsFor(i)
		if !ok {
			continue
		}
		taken := false
		for _, k := range boards {
			taken = taken || shared[k]
		}
		s := p.bestSlant(i, boards)
		if taken || s == nil {
			continue
		}
		p.Blanks[i].Slant = s
		p.Job.Profiles[i].Width, p.Job.Profiles[i].Turn = s.strip, false
		for _, k := range boards {
			shared[k] = true
		}
	}
}

// boardsFor returns the boards that strips of a blank can be ripped from lying on their backs; false when there are none, or one that would
// take them on edge.
func (p *Purchase) boardsFor(blank int) (boards []int, ok bool) {
	for k, it := range p.Job.Stock {
		width, layers := p.takes(blank, k)
		switch {
		case layers == 0 || it.Width == 0:
		case layers > 1 || width < p.Blanks[blank].Width:
			return nil, false
		default:
			boards = append(boards, k)
		}
	}
	return boards, len(boards) > 0
}

// takes returns the width of a strip of a blank on an item, ripped square, and how many are glued up to one; 0 where the item does not serve.
func (p *Purchase) takes(blank, item int) (width float64, layers int) {
	b, q, it := p.Blanks[blank], p.Job.Profiles[blank], p.Job.Stock[item]
	if q.Wood != "" && it.Wood != "" && q.Wood != it.Wood {
		return 0, 0
	}
	const slop = 0.005 // mm, of rounding, as in package stock
	t := stock.Surfaced(it.Thickness) + slop
	lies, stands := b.Thickness <= t, b.Width <= t
	switch {
	case lies && stands:
		return math.Min(b.Width, b.Thickness), 1
	case lies:
		return b.Width, 1
	case stands:
		return b.Thickness, 1
	}
	if t <= slop {
		return 0, 0
	}
	return b.Width, int(math.Ceil((b.Thickness - slop) / (t - slop)))
}

// bestSlant returns the slant that yields the most strips from the boards, nil when none yields more than square rips do.
func (p *Purchase) bestSlant(blank int, boards []int) *Slant {
	var best *Slant
	most := p.yield(blank, boards, p.Blanks[blank].Width)
	const fewest, many = 1, 12 // strips on a board; more than so many slope alike
	for n := fewest; n <= many; n++ {
		for _, k := range boards {
			s := p.leastSlant(blank, n, p.Job.Stock[k].Thickness)
			width, ok := p.counted(blank, boards, s)
			if !ok {
				continue
			}
			s.strip = width
			if got := p.yield(blank, boards, width); got > most {
				most, best = got, &s
			}
		}
	}
	return best
}

// yield returns how many strips of a width the boards give, one of each board.
func (p *Purchase) yield(blank int, boards []int, width float64) int {
	sum := 0
	for _, k := range boards {
		sum += stock.Strips(p.Job.Stock[k].Width, width, p.Job.Shop.Kerf, p.Job.Shop.Joint)
	}
	return sum
}

// leastSlant returns the slant at which n strips take the least width of a board. The width is convex in the slope, since it is a sum of convex
// parts: the range of the section, the stretch of the cuts, and the triangle.
func (p *Purchase) leastSlant(blank, n int, thickness float64) Slant {
	b, sh := p.Blanks[blank], p.Job.Shop
	width := func(m float64) float64 { return newSlant(b, m, sh.Joint, sh.Kerf).Width(n, thickness, sh.Kerf) }
	lo, hi := -mostSlope, mostSlope
	for hi-lo > 1e-6 {
		a, c := lo+(hi-lo)/3, hi-(hi-lo)/3
		if width(a) <= width(c) {
			hi = c
		} else {
			lo = a
		}
	}
	return newSlant(b, (lo+hi)/2, sh.Joint, sh.Kerf)
}

// counted returns the least strip width for the job with which no board is counted to give a strip too many, whatever else is ripped
// from it; false when there are too many ways to rip. Whoever rips may do so square where that gives as many.
func (p *Purchase) counted(blank int, boards []int, s Slant) (float64, bool) {
	sh := p.Job.Shop
	square := p.Blanks[blank].Width + sh.Joint + sh.Kerf
	most := 0.0
	for _, k := range boards {
		it := p.Job.Stock[k]
		rooms, ok := p.rooms(blank, k)
		if !ok {
			return 0, false
		}
		for _, room := range rooms {
			n := math.Floor(room/square + 1e-9)
			slanted := math.Floor((room-s.Width(1, it.Thickness, sh.Kerf)-sh.Kerf)/s.Pitch+1e-9) + 1
			n = math.Max(n, slanted)
			most = math.Max(most, room/(n+1))
		}
	}
	const more = 0.002 // mm, so that the job's rounding to its own units of 1/1600 mm cannot bring it back
	return most - sh.Kerf - sh.Joint + more, most > 0
}

// roomCap bounds the ways to rip a board that are looked at.
const roomCap = 2000

// rooms returns the widths, one kerf more than the board, that are left to a blank on an item when any number of strips of the other blanks
// is ripped from it; false when there are more than roomCap.
func (p *Purchase) rooms(blank, item int) ([]float64, bool) {
	sh := p.Job.Shop
	var each []float64
	for i := range p.Blanks {
		if width, layers := p.takes(i, item); i != blank && layers > 0 {
			each = append(each, float64(layers)*(width+sh.Joint+sh.Kerf))
		}
	}
	var out []float64
	var fill func(i int, left float64) bool
	fill = func(i int, left float64) bool {
		if len(out) >= roomCap {
			return false
		}
		if i == len(each) {
			out = append(out, left)
			return true
		}
		for ; left >= 0; left -= each[i] {
			if !fill(i+1, left) {
				return false
			}
		}
		return true
	}
	ok := fill(0, p.Job.Stock[item].Width+sh.Kerf)
	return out, ok
}
