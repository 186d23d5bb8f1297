package miter

import (
	"math"

	"listel/miter/stock"
	"listel/profile/geom"
)

// A Slant is how strips for a sprung molding are ripped with the blade tilted, so that each takes less of the board's width than its
// blank is wide: the section lies on its back between parallel beveled rips. A rip of slope m runs from u at the board's lower face to u + m v at the height
// v over it, u across the board and v square to it. Only the rips between two strips lean; the outer edges of the first and the last stay square, so
// that one strip by itself takes as much as one ripped square.
type Slant struct {
	Bevel geom.Angle // of the saw, from square, within 45 degrees
	Slope float64    // m; positive where the rips lean toward the top of the molding
	Range float64    // mm, the range of u - m v over the section: what it takes across the board between two such rips
	Pitch float64    // mm, from one strip to the next, with jointing and kerf
	First float64    // mm, what the first strip takes, with jointing

	strip float64 // mm, the width that the job counts with
}

// mostSlope is that of a saw's blade at 45 degrees.
const mostSlope = 1.0

// Width returns the width of board, in mm, that n strips take, n >= 1; kerfs between them included.
func (s Slant) Width(n int) float64 { return s.First + float64(n-1)*s.Pitch }

// newSlant returns the slant of slope m for a blank. A cut, and what is jointed off beside it, is as much wider across the board as it leans.
func newSlant(b Blank, m, joint, kerf float64) Slant {
	s := Slant{Bevel: geom.Angle(math.Atan(math.Abs(m))), Slope: m, First: b.Width + joint}
	dir := geom.Pt(-m, 1) // u - m v, with v along x and u along y
	s.Range = dir.Norm() * b.back().Rotate(-dir.Angle()).Bounds().Width()
	s.Pitch = s.Range + (joint+kerf)*math.Hypot(1, m)
	return s
}

// slants looks for sprung blanks of which boards yield more when they are ripped on the slant. Of those that share a board only the first is.
func (p *Purchase) slants() {
	shared := map[int]bool{}
	for i := range p.Blanks {
		if !p.Blanks[i].Section.Leans() {
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
		width, layers := p.Job.Takes(p.Job.Profiles[blank], k)
		switch {
		case layers != 1 || it.Width == 0: // nothing is glued up where something is thick enough
		case width < p.Blanks[blank].Width:
			return nil, false
		default:
			boards = append(boards, k)
		}
	}
	return boards, len(boards) > 0
}

// bestSlant returns the slant with the least pitch, nil when the boards yield no more strips with it than with square rips.
func (p *Purchase) bestSlant(blank int, boards []int) *Slant {
	s := p.leastSlant(blank)
	width, ok := p.counted(blank, boards, s)
	if !ok || p.yield(blank, boards, width) <= p.yield(blank, boards, p.Blanks[blank].Width) {
		return nil
	}
	s.strip = width
	return &s
}

// yield returns how many strips of a width the boards give, one of each board.
func (p *Purchase) yield(blank int, boards []int, width float64) int {
	sum := 0
	for _, k := range boards {
		sum += stock.Strips(p.Job.Stock[k].Width, width, p.Job.Shop.Kerf, p.Job.Shop.Joint)
	}
	return sum
}

// leastSlant returns the slant of the least pitch. The pitch is convex in the slope, being the sum of two convex parts: the range of the section
// and the stretch of the cuts.
func (p *Purchase) leastSlant(blank int) Slant {
	b, sh := p.Blanks[blank], p.Job.Shop
	pitch := func(m float64) float64 { return newSlant(b, m, sh.Joint, sh.Kerf).Pitch }
	lo, hi := -mostSlope, mostSlope
	for hi-lo > 1e-6 {
		a, c := lo+(hi-lo)/3, hi-(hi-lo)/3
		if pitch(a) <= pitch(c) {
			hi = c
		} else {
			lo = a
		}
	}
	return newSlant(b, (lo+hi)/2, sh.Joint, sh.Kerf)
}

// counted returns the least strip width for the job with which no board is counted to give a strip too many, whatever else is ripped
// from it; false when there are too many ways to rip.
func (p *Purchase) counted(blank int, boards []int, s Slant) (float64, bool) {
	sh := p.Job.Shop
	most := 0.0
	for _, k := range boards {
		rooms, ok := p.rooms(blank, k)
		if !ok {
			return 0, false
		}
		for _, room := range rooms {
			n := math.Max(0, math.Floor((room-sh.Kerf-s.First)/s.Pitch+1e-9)+1)
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
		if width, layers := p.Job.Takes(p.Job.Profiles[i], item); i != blank && layers > 0 {
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
