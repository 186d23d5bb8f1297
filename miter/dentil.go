package miter

import (
	"math"

	"listel/profile"
)

// A Course is a row of dentils as it is spaced on the faces of a case. Every face begins and ends with a whole block at an outside
// corner, a wall or an open end, and with a gap at an inside corner; the blocks are of one width on all faces and the gaps of one width on each,
// as near to what the profile asks for as that allows.
//
// Period proportions: gaps half as wide as the blocks, by W. R. Ware (The American Vignola, 1920: Doric dentils 1/12 of the
// diameter and 1/24 apart, Ionic 1/9 and 1/18), and by F. Laureys after Vignola (Doric dentils 4 parts wide, 2 apart and 5 high).
type Course struct {
	AskedBlock float64      `json:"asked_block_mm"`
	AskedGap   float64      `json:"asked_gap_mm"`
	Block      float64      `json:"block_mm"`
	Depth      float64      `json:"depth_mm"` // of the gaps
	Face       float64      `json:"face_mm"`  // x of the faces of the blocks
	Faces      []CourseFace `json:"faces"`
}

// A CourseFace is the course on one run. Lengths are measured along the faces of the blocks.
type CourseFace struct {
	Run    string    `json:"run"`
	Length float64   `json:"length_mm"`
	Blocks int       `json:"blocks"`
	Gap    float64   `json:"gap_mm"`
	Pitch  float64   `json:"pitch_mm"` // block and gap
	At     []float64 `json:"at_mm"`    // left side of each block from the left end
}

// dentilsOf returns the dentils of a section, nil without any.
func dentilsOf(members []profile.Member) *profile.Member {
	for i := range members {
		if members[i].Dentils != nil {
			return &members[i]
		}
		if m := dentilsOf(members[i].Inner); m != nil {
			return m
		}
	}
	return nil
}

// maxBlocks is the most dentils on one face.
const maxBlocks = 2000

// A span is a face while its course is sought.
type span struct {
	run    *run
	length float64
	gaps   int  // gaps less blocks: -1, 0 or 1
	first  bool // it begins with a gap
}

// course spaces the dentils of the molding, nil without any.
func (m *fitting) course() *Course {
	d := dentilsOf(m.profile.Members)
	if d == nil {
		return nil
	}
	c := &Course{AskedBlock: d.Dentils.Block, AskedGap: d.Dentils.Gap, Depth: d.Dentils.Depth, Face: d.Start}
	var spans []span
	for _, r := range m.runs {
		if r.ret || r.rail {
			continue
		}
		k := r.section.Projection / m.profile.Projection
		l := between(r.left.cut, r.right.cut)
		s := span{run: r, length: l.S + l.X*c.Face*k, gaps: -1}
		if r.left.corner > straight {
			s.gaps, s.first = s.gaps+1, true
		}
		if r.right.corner > straight {
			s.gaps++
		}
		if !(s.length/(c.AskedBlock+c.AskedGap) <= maxBlocks) {
			m.add(m.path+".profile", "run %s would have more than 2,000 dentils, the most on a face: its blocks are %s wide and its gaps %s", r.name, m.mm(c.AskedBlock), m.mm(c.AskedGap))
			return nil
		}
		if n, gap := s.fit(c.AskedBlock, c.AskedGap); n == 0 || !(gap > 0) {
			m.out.Notes = append(m.out.Notes, "run "+r.name+" is too short for its dentils: space them by eye")
			continue
		}
		spans = append(spans, s)
	}
	c.Block = bestBlock(spans, c.AskedBlock, c.AskedGap)
	for _, s := range spans {
		c.Faces = append(c.Faces, s.face(c.Block, c.AskedGap))
	}
	return c
}

// fit returns the number of blocks of width b whose gaps come nearest to g, and those gaps; 0 when not even one block fits.
func (s span) fit(b, g float64) (n int, gap float64) {
	best := math.Inf(1)
	guess := int((s.length - float64(s.gaps)*g) / (b + g))
	for k := max(1, guess-1); k <= guess+2; k++ {
		gaps := k + s.gaps
		if gaps < 1 {
			continue
		}
		x := (s.length - float64(k)*b) / float64(gaps)
		if off := math.Abs(math.Log(x / g)); x > 0 && off < best {
			best, n, gap = off, k, x
		}
	}
	return n, gap
}

// bestBlock returns the width of block, within a quarter of the one asked for, that keeps it and the gaps of all faces nearest
// to what was asked, by the sum of the squares of the logarithms of their ratios.
func bestBlock(spans []span, block, gap float64) float64 {
	if len(spans) == 0 {
		return block
	}
	cost := func(b float64) float64 {
		sum := math.Pow(math.Log(b/block), 2) * float64(len(spans))
		for _, s := range spans {
			n, g := s.fit(b, gap)
			if n == 0 {
				return math.Inf(1)
			}
			sum += math.Pow(math.Log(g/gap), 2)
		}
		return sum
	}
	const steps = 120
	at := func(i float64) float64 { return block * math.Pow(1.25, i/steps) }
	best, least := 0.0, cost(block)
	for i := -steps; i <= steps; i++ {
		if c := cost(at(float64(i))); c < least-1e-15 {
			best, least = float64(i), c
		}
	}
	lo, hi := best-1, best+1
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if cost(at(a)) <= cost(at(b)) {
			hi = b
		} else {
			lo = a
		}
	}
	if mid := (lo + hi) / 2; cost(at(mid)) < least {
		return at(mid)
	}
	return at(best)
}

func (s span) face(b, g float64) CourseFace {
	n, gap := s.fit(b, g)
	f := CourseFace{Run: s.run.name, Length: s.length, Blocks: n, Gap: gap, Pitch: b + gap}
	x := 0.0
	if s.first {
		x = gap
	}
	for range n {
		f.At = append(f.At, x)
		x += f.Pitch
	}
	return f
}
