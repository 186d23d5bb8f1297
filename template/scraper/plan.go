package scraper

import (
	"math"
	"slices"

	"listel/profile"
	"listel/profile/geom"
)

// A Plan is the blades for one section.
type Plan struct {
	Section profile.Section
	Options Options
	Blades  []Blade
	Missed  []Place // what the plunge that was asked for does not scrape; nil when none was asked for
	Left    []Place // what no blade scrapes
}

// Make returns the blades that scrape the face of a section, from the foot upward; with a plunge asked for, first those along it and then those
// for what it misses. The error is an *OptionError, or ErrHidden.
func Make(s profile.Section, o Options) (Plan, error) {
	if err := o.Validate(); err != nil {
		return Plan{}, err
	}
	m := &maker{chooser: newChooser(newScene(s), o), o: o}
	m.scraped = make([][]string, len(m.atoms))
	if err := m.stretches(); err != nil {
		return Plan{}, err
	}
	p := Plan{Section: s, Options: o}
	for i, st := range m.list {
		b, err := m.blade(st, i)
		if err != nil {
			return Plan{}, err
		}
		p.Blades = append(p.Blades, b)
	}
	for i := range p.Blades {
		st, w := m.list[i], m.seen[i]
		p.Blades[i].Rubs = m.places(st.from, st.to, func(j int) (Why, bool) { return Rub, !w.scrapesAtom(m.atoms[j]) })
	}
	if o.Plunge != nil {
		p.Missed = m.missed()
	}
	p.Left = m.left()
	return p, nil
}

// A maker makes the blades of a plan.
type maker struct {
	*chooser
	o       Options
	list    []stretch
	seen    []*view    // for each stretch
	scraped [][]string // for each atom, the marks of the blades that scrape it
}

// stretches finds the stretches of the blades.
func (m *maker) stretches() error {
	done := make([]bool, len(m.atoms))
	add := func(list []stretch, found bool) {
		for _, s := range list {
			if found {
				s = m.settle(s, func(i int) bool { return m.clean[i]&gridMask != 0 && !done[i] })
			}
			w := m.view(s.plunge)
			m.list, m.seen = append(m.list, s), append(m.seen, w)
		}
		for k, s := range m.list {
			for i := s.from; i < s.to; i++ {
				done[i] = done[i] || m.seen[k].scrapesAtom(m.atoms[i])
			}
		}
	}
	if m.o.Plunge != nil {
		add(m.choose(askedMask, func(int) bool { return true }), false)
		if len(m.list) == 0 {
			return ErrHidden
		}
	}
	missing := slices.Clone(done)
	add(m.choose(gridMask, func(i int) bool { return !missing[i] }), true)
	if len(m.list) == 0 {
		return ErrHidden
	}
	return nil
}

// scrapesAtom reports whether the view's plunge scrapes an atom that it exposes.
func (w *view) scrapesAtom(a atom) bool {
	return off(a.lo, a.hi, w.plunge) <= scrapes && w.exposes(a)
}

// blade returns the blade of stretch st, the i-th of the plan.
func (m *maker) blade(st stretch, i int) (Blade, error) {
	w := m.seen[i]
	b := Blade{Mark: markOf(i), Hand: LeftHand, Lean: m.o.Lean, Plunge: geom.Angle(st.plunge) * geom.Degree}
	lower, upper := m.ends(st, w)
	b.Work = w.workLine(lower, upper)
	if h := m.o.Head; h != nil {
		if err := h.fits(b); err != nil {
			return b, err
		}
	}
	depth := m.o.depth()
	b.Edge = b.Work.Transform(b.ToBlade()).Reverse()
	b.Outline, b.Steel = w.steelOf(b.Edge, depth, m.o.width(), [2]bool{upper.wall, lower.wall})
	b.Files = filesFor(b.Edge)
	b.Guide = m.guide(st, w, lower, upper)
	if h := m.o.Head; h != nil {
		b = h.knife(b)
	}
	m.spans(&b, st, w)
	return b, nil
}

// ends returns how the edge of a stretch goes on at both ends.
func (m *maker) ends(st stretch, w *view) (lower, upper edgeEnd) {
	first, last := m.atoms[st.from], m.atoms[st.to-1]
	u0, u1 := math.Inf(1), math.Inf(-1)
	for _, a := range m.atoms[st.from:st.to] {
		for _, p := range [2]geom.Point{a.pts[0], a.pts[len(a.pts)-1]} {
			u0, u1 = math.Min(u0, p.Dot(w.u)), math.Max(u1, p.Dot(w.u))
		}
	}
	room := (m.o.width() - (u1 - u0)) / 2
	low := reach{overlap: m.o.overlap(), room: room, lip: lipLength, curve: st.from > 0 && !first.natural}
	high := low
	high.curve = st.to < len(m.atoms) && !m.atoms[st.to].natural
	if m.o.Head != nil { // a knife does not run on the wood
		low.lip, high.lip = 0, 0
	}
	lower = w.runOn(spotAt(first.s0, -1), -1, low)
	if lower.lip {
		high.lip = 0 // one lip keeps a blade in its place, two would depend on the height of the wood
	}
	upper = w.runOn(spotAt(last.s1, 1), 1, high)
	return lower, upper
}

// spans notes what a blade scrapes: the atoms of its stretch that its plunge scrapes.
func (m *maker) spans(b *Blade, st stretch, w *view) {
	b.Covers = [2]float64{math.Inf(1), math.Inf(-1)}
	steep := 0.0
	for i := st.from; i < st.to; i++ {
		a := m.atoms[i]
		if !w.scrapesAtom(a) {
			continue
		}
		m.scraped[i] = append(m.scraped[i], b.Mark)
		if n := len(b.Spans); n > 0 && b.Spans[n-1].To >= a.s0-1e-9 {
			b.Spans[n-1].To = a.s1
		} else {
			b.Spans = append(b.Spans, Span{a.s0, a.s1})
		}
		box := a.seg.Bounds()
		b.Covers[0], b.Covers[1] = math.Min(b.Covers[0], box.Min.Y), math.Max(b.Covers[1], box.Max.Y)
		steep = math.Max(steep, off(a.lo, a.hi, w.plunge))
	}
	b.Covers[0], b.Covers[1] = math.Max(0, b.Covers[0])+0, math.Min(m.section.Height, b.Covers[1]) // without rounding's -0
	b.Steep = geom.Angle(90-steep) * geom.Degree
}

// markOf returns the mark of blade i: A to Z, then AA, AB, ...
func markOf(i int) string {
	if i >= 26 {
		return markOf(i/26-1) + string(rune('A'+i%26))
	}
	return string(rune('A' + i))
}

// guide returns what a blade runs on.
func (m *maker) guide(st stretch, w *view, lower, upper edgeEnd) Guide {
	across := func(p geom.Path) [2]float64 {
		out := [2]float64{math.Inf(1), math.Inf(-1)}
		for _, q := range []geom.Point{p.Start(), p.End()} {
			out[0], out[1] = math.Min(out[0], q.Dot(w.u)), math.Max(out[1], q.Dot(w.u))
		}
		return out
	}
	const least = 1.5 // mm of a surface that steadies a blade
	for i, e := range [2]edgeEnd{lower, upper} {
		if e.lip && e.length >= least {
			kind := [2]GuideKind{GuideFoot, GuideTop}[i]
			g := w.seg(e.k)
			part := g.Trim(0, e.t)
			if i == 0 {
				part = g.Trim(e.t, 1)
			}
			return Guide{Kind: kind, Length: part.Length(), U: across(geom.Path{part})}
		}
	}
	for i, e := range [2]edgeEnd{lower, upper} {
		if e.flat < 0 || w.onBack(e.flat) || e.length < least {
			continue
		}
		from := m.atoms[st.from].s0
		if i == 1 {
			from = m.atoms[st.to-1].s1
		}
		k := w.index(e.flat)
		lo, hi := math.Max(float64(k), math.Min(from, float64(k)+e.t)), math.Min(float64(k+1), math.Max(from, float64(k)+e.t))
		part := w.ring[k].Trim(lo-float64(k), hi-float64(k))
		if part.Length() < least {
			continue
		}
		mem := m.section.Members[m.memberAt(k)]
		return Guide{Kind: GuideFlat, Element: mem.Index, Member: mem.Kind, Length: part.Length(), U: across(geom.Path{part})}
	}
	var best Guide
	for _, a := range m.atoms[st.from:st.to] {
		if a.isLine && a.length > math.Max(least, best.Length) {
			mem := m.section.Members[a.member]
			best = Guide{Kind: GuideOwn, Element: mem.Index, Member: mem.Kind, Length: a.length, U: across(geom.Path{a.seg})}
		}
	}
	if best.Kind == "" {
		best.Kind = GuideNone
	}
	return best
}

// memberAt returns the member that segment k of the face belongs to.
func (m *maker) memberAt(k int) int {
	for _, a := range m.atoms {
		if a.segment == k {
			return a.member
		}
	}
	return 0
}
