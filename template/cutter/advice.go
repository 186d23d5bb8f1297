package cutter

import (
	"fmt"
	"math"
	"sort"

	"listel/profile/geom"
)

// advise adds what would make the plan shorter or better.
func (s *search) advise(r, up *Result) error {
	if r.unsafe > 0 {
		r.Hints = append(r.Hints, Hint{Kind: HintOrder})
	}
	s.adviseUpright(r, up)
	for _, u := range r.Unreached {
		r.Hints = append(r.Hints, Hint{Kind: HintUnreached, Place: &u})
	}
	s.adviseScraping(r)
	if err := s.adviseRadii(r); err != nil {
		return err
	}
	for _, h := range r.Hints {
		r.Advice = append(r.Advice, h.Words(inMM))
	}
	return nil
}

// adviseScraping names the members that do not come clean.
func (s *search) adviseScraping(r *Result) {
	for _, m := range s.t.piece.Members {
		clean, length, low, high := 0.0, 0.0, math.Inf(1), math.Inf(-1)
		for i, f := range s.t.facets {
			if f.element == m.Index {
				clean, length = clean+r.Faces[i].Clean*f.length, length+f.length
				b := geom.Path{f.seg}.Bounds()
				low, high = math.Min(low, b.Min.Y), math.Max(high, b.Max.Y)
			}
		}
		if length == 0 || clean >= 0.95*length {
			continue
		}
		h := Hint{Kind: HintScraper, Element: m.Index, Member: m.Kind, Clean: round(clean/length, 1e3)}
		for _, u := range r.Unreached {
			h.Blocked = h.Blocked || u.Y0 < high && u.Y1 > low
		}
		r.Hints = append(r.Hints, h)
	}
}

// adviseUpright tells what a sprung molding would take from an upright blank, where that plan reaches as much and is shorter, or this one is not safe.
func (s *search) adviseUpright(r, up *Result) {
	if up == nil || len(r.Setups) < 6 {
		return
	}
	saved := len(r.Setups) - len(up.Setups)
	if unreachedArea(*up) > unreachedArea(*r)+1 || saved <= 0 && r.unsafe == 0 {
		return
	}
	b := s.t.piece.Outline.Bounds()
	r.Hints = append(r.Hints, Hint{
		Kind: HintUpright, Width: round(b.Height(), 1e4), Thickness: round(b.Width(), 1e4), Setups: len(up.Setups), Saved: max(0, saved), Safer: r.unsafe > 0, Watch: up.watched(), ByHand: s.byHand(),
		Wood: round(b.Height()*b.Width()/(r.Blank.Width*r.Blank.Thickness), 100),
	})
}

// watched counts the set-ups that say what to watch.
func (r Result) watched() int {
	n := 0
	for _, u := range r.Setups {
		if u.Warning != "" {
			n++
		}
	}
	return n
}

// unreachedArea returns the waste over the allowance that a plan does not reach, in mm2.
func unreachedArea(r Result) float64 {
	sum := 0.0
	for _, u := range r.Unreached {
		sum += u.Area
	}
	return sum
}

// A wish is an arc that no tool of the set cuts in one.
type wish struct {
	facet   int
	radius  float64
	concave bool
	length  float64
}

// wishes returns the arcs that no single cut leaves clean, the longest first, one of each radius.
func (s *search) wishes() []wish {
	var out []wish
	for i, f := range s.t.facets {
		a, ok := f.seg.(geom.Arc)
		if !ok || s.needed.has(s.rows.facet(i)) {
			continue
		}
		w := wish{facet: i, radius: a.Radius, concave: a.Sweep < 0, length: f.length}
		known := false
		for k := range out {
			if out[k].concave == w.concave && math.Abs(out[k].radius-w.radius) < 0.05 {
				out[k].length += w.length
				known = true
			}
		}
		if !known {
			out = append(out, w)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].length > out[j].length })
	return out
}

// adviseRadii tells, for the arcs that no tool at hand fits, how many set-ups the right tool would save, and which radius at hand is nearest. What is
// saved is told from a cover without that tool, looked for in the same way.
func (s *search) adviseRadii(r *Result) error {
	most := map[Effort]int{Quick: 0, Usual: 2, Long: 4}[s.opts.Effort]
	bare := -1
	for i, w := range s.wishes() {
		if i >= most {
			break
		}
		t := w.tool(s.byHand())
		n, err := s.weightWith(t)
		if err != nil {
			return err
		}
		if n >= min(s.least, len(r.Setups)) {
			continue
		}
		if bare < 0 {
			if bare, err = s.weightWith(); err != nil {
				return err
			}
		}
		saved := min(bare, s.least, len(r.Setups)) - n
		if saved < 1 {
			continue
		}
		r.Hints = append(r.Hints, Hint{
			Kind: HintRadius, Element: s.t.facets[w.facet].element, Tool: t.Kind, Radius: round(w.radius, 1e4), Nearest: s.nearestRadius(w), Saved: saved,
			Tip: t.Tip, Deep: s.deepest(t),
		})
	}
	return nil
}

// deepest returns how deep, mm, the tool of a wish reaches where the set has one of its kind and radius that reaches less; 0 where it has none.
func (s *search) deepest(wish Tool) float64 {
	for _, t := range s.tools {
		if t.Kind == wish.Kind && math.Abs(t.Radius-wish.Radius) < sameRadius && (t.Reach < wish.Reach || t.Length > 0 && t.Length < wish.Reach) {
			return wish.Reach
		}
	}
	return 0
}

// sameRadius is the difference, in mm, under which two radii are the same tool's.
const sameRadius = 0.05

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// byHand reports whether planes alone may be used.
func (s *search) byHand() bool {
	for _, t := range s.tools {
		if t.Works() != Plane {
			return false
		}
	}
	return true
}

// tool returns a tool that would fit.
func (w wish) tool(hand bool) Tool {
	switch {
	case hand && w.concave:
		return Tool{Name: "wish", Kind: RoundPlane, Radius: w.radius, Reach: 60, PerPass: 0.5}
	case hand:
		return Tool{Name: "wish", Kind: HollowPlane, Radius: w.radius, Reach: 60, PerPass: 0.5}
	case w.concave:
		return Tool{Name: "wish", Kind: RoundNose, Radius: w.radius, Reach: 50, PerPass: 6}
	}
	return Tool{Name: "wish", Kind: RoundOver, Radius: w.radius, Tip: 4, Reach: 50, PerPass: 6}
}

// nearestRadius returns the radius of the tool of the set that comes nearest, 0 when none is within a quarter of it.
func (s *search) nearestRadius(w wish) float64 {
	best := 0.0
	for _, t := range s.tools {
		fits := w.concave && (t.Kind == RoundNose || t.Kind == RoundPlane) || !w.concave && (t.Kind == RoundOver || t.Kind == HollowPlane)
		if fits && math.Abs(t.Radius-w.radius) < math.Abs(best-w.radius) {
			best = t.Radius
		}
	}
	if math.Abs(best-w.radius) > w.radius/4 {
		return 0
	}
	return best
}

// weightWith returns how many set-ups a cover takes with more tools, or with none more.
func (s *search) weightWith(more ...Tool) (int, error) {
	o := *s
	o.tools = append(append([]Tool{}, s.tools...), more...)
	o.variants = append([][]*variant{}, s.variants...)
	for _, t := range more {
		o.variants = append(o.variants, variantsOf(t))
	}
	o.cuts, o.kept, o.weak = nil, nil, nil
	o.scratch = newBitset(s.rows.total())
	for _, k := range s.kept {
		o.cuts = append(o.cuts, s.cuts[k])
	}
	for k := len(s.tools); k < len(o.tools); k++ {
		o.cutsOf(k)
	}
	o.levels = append([]int{}, s.levels...)
	o.weak = nil // what the new tool only just reaches does not count in its favor
	o.need()
	o.nodes = s.budget() / 8
	picked, _, _, err := o.leastCover(0)
	return o.weightOf(picked), err
}

// cutsOf adds the candidates of a tool.
func (s *search) cutsOf(k int) {
	for _, v := range s.views {
		if !s.enters(v, s.tools[k], s.variants[k][0].shape) {
			continue
		}
		for _, w := range s.variants[k] {
			for _, x := range s.offsets(v, w) {
				s.try(k, w, v, x)
			}
		}
	}
}
