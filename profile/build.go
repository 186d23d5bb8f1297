package profile

import (
	"math"
	"slices"

	"listel/profile/geom"
	"listel/profile/measure"
)

// Section builds the shape of the profile in millimeters; lookup finds the profiles that its stacks name and may be nil when it has
// none. The error is Errors with all that is wrong: sizes first, and when those are right the shape, which must not cross
// itself, go behind its own back, or be thinner than 1 mm.
func (p Profile) Section(lookup Lookup) (Section, error) {
	budget := MaxElements
	s := &sizer{profile: p, format: measure.Format{Units: p.Units}, lookup: lookup.remembered(), names: []string{p.Name}, budget: &budget, made: map[nestKey]*Section{}}
	if len(p.Elements) <= MaxElements && p.count(s.lookup) > MaxElements {
		s.tooMany()
		return Section{}, s.errs
	}
	face := s.face()
	sec := face
	if len(s.errs) == 0 {
		s.complete(&sec)
	}
	if len(s.errs) > 0 {
		slices.SortStableFunc(s.errs, func(a, b *ElementError) int { return a.Index - b.Index })
		if face.Height > 0 {
			s.adviseAngle(face)
		}
		return Section{}, s.errs
	}
	return sec, nil
}

// complete gives a face its back, and checks the shape that they make.
func (s *sizer) complete(sec *Section) {
	back := s.back(sec)
	if len(s.errs) == 0 {
		s.close(sec, back)
		s.check(*sec)
	}
}

// face sizes the elements and draws them one over the other; the section it returns has no back yet, and means something only
// when no fault was found.
func (s *sizer) face() Section {
	if *s.budget -= len(s.profile.Elements); *s.budget < 0 && len(s.names) > 1 {
		s.tooMany()
		return Section{}
	}
	s.profileSizes()
	s.heights()
	s.runs()
	s.elements()
	if len(s.errs) == 0 {
		s.sums()
	}
	if len(s.errs) > 0 {
		return Section{}
	}
	return s.assemble()
}

func (s *sizer) tooMany() {
	s.whole("elements", "there are too many elements, those of stacks counted in; the limit is %d", MaxElements)
}

// assemble places the sized elements.
func (s *sizer) assemble() Section {
	sec := Section{Name: s.profile.Name, Title: s.profile.Title, Ground: s.ground}
	at, gaps := geom.Pt(s.ground, 0), false
	for i := range s.pieces {
		p := &s.pieces[i]
		step := level(at, p.set)
		if c, ok := p.element.(Corona); ok {
			step = c.Soffit(at)
			c.Set, c.Drip = 0, nil
			p.element = c
		}
		foot := at.Add(geom.Pt(p.set, 0))
		drawn, gap := p.element.Outline(foot), geom.Path(nil)
		switch e := p.element.(type) {
		case Dentils:
			gap, gaps = e.GapOutline(foot), true
		case Stack:
			gap, gaps = e.GapOutline(foot), gaps || e.Section.gapLinks != nil
		default:
			gap = drawn
		}
		sec.Members = append(sec.Members, s.member(p, foot, drawn))
		sec.links = append(append(sec.links, linked(p.index, step)...), linked(p.index, drawn)...)
		sec.gapLinks = append(append(sec.gapLinks, linked(p.index, step)...), linked(p.index, gap)...)
		at = foot.Add(geom.Pt(p.run, p.rise))
	}
	if !gaps {
		sec.gapLinks = nil
	}
	sec.Height = at.Y
	return sec
}

// member describes a piece where it stands.
func (s *sizer) member(p *piece, foot geom.Point, drawn geom.Path) Member {
	m := Member{
		Index: p.index, Kind: p.Kind, Foot: foot.Y, Start: foot.X, Set: p.set, Height: p.height, Projection: p.run,
		Radii: radii(drawn), Path: drawn,
	}
	switch e := p.element.(type) {
	case Dentils:
		m.Dentils = &e
	case Corona:
		m.Drip = s.corona(p).Drip
	case Stack:
		move := geom.Translation(foot.Sub(geom.Pt(e.Section.Ground, 0)))
		for _, in := range e.Section.Members {
			m.Inner = append(m.Inner, in.mapped(move))
		}
	}
	return m
}

// radii returns the radii of the arcs of a path, for an elliptic one both half axes.
func radii(p geom.Path) []float64 {
	var out []float64
	for _, s := range p {
		switch a := s.(type) {
		case geom.Arc:
			out = append(out, a.Radius)
		case geom.EllipticArc:
			out = append(out, a.RX, a.RY)
		}
	}
	return out
}

// back sizes what is done to the back and returns it, from the end of the face round to the ground.
func (s *sizer) back(sec *Section) []link {
	end := endOf(sec.links)
	if s.profile.Back.Rabbet != nil && s.profile.Back.Spring != nil {
		s.whole("back", "back has both a rabbet and a spring; it can have one")
		return nil
	}
	pts := []geom.Point{end, {X: 0, Y: end.Y}, {}}
	switch {
	case end.X < -equalSizes:
		s.fault(&s.pieces[len(s.pieces)-1], "", "it ends %s behind the back, which is at x = 0", s.mm(-end.X))
		return nil
	case s.profile.Back.Rabbet != nil:
		pts = s.rabbet(sec, end)
	case s.profile.Back.Spring != nil:
		pts = s.spring(sec, end)
	}
	return linked(0, geom.Polyline(append(pts, startOf(sec.links))...))
}

// rabbet sizes a rabbet and returns the corners of the back.
func (s *sizer) rabbet(sec *Section, end geom.Point) []geom.Point {
	r := *s.profile.Back.Rabbet
	w, d := s.wholeSize("back.rabbet.width", r.Width), s.wholeSize("back.rabbet.depth", r.Depth)
	if len(s.errs) > 0 {
		return nil
	}
	room, where := end.X, "at the top"
	if r.At == AtFoot {
		room, where = startOf(straightened(sec.links)).X, "at the foot"
		if first := sec.links[0].seg; same(first.End().Y, 0) {
			room = first.End().X
		}
	}
	for _, v := range []struct {
		key      string
		given    bool
		mm, most float64
		what     string
	}{
		{"back.rabbet.width", r.Width.Given(), w, room, "the molding's depth " + where},
		{"back.rabbet.depth", r.Depth.Given(), d, end.Y, "the molding's height"},
	} {
		switch {
		case !v.given:
			s.whole(v.key, "%s is missing", v.key)
		case !(v.mm > 0):
			s.whole(v.key, "%s is %s; it must be more than 0", v.key, s.mm(v.mm))
		case !(v.mm < v.most):
			s.whole(v.key, "%s is %s; it must be less than %s, %s", v.key, s.mm(v.mm), v.what, s.mm(v.most))
		}
	}
	sec.Rabbet = &SizedRabbet{At: r.At, Width: w, Depth: d}
	if r.At == AtFoot {
		return []geom.Point{end, {X: 0, Y: end.Y}, {X: 0, Y: d}, {X: w, Y: d}, {X: w, Y: 0}}
	}
	return []geom.Point{end, {X: w, Y: end.Y}, {X: w, Y: end.Y - d}, {X: 0, Y: end.Y - d}, {}}
}

// spring sizes a leaning back and returns its corners: the flat along the top, the slope, the flat at x = 0.
func (s *sizer) spring(sec *Section, end geom.Point) []geom.Point {
	sp := *s.profile.Back.Spring
	switch {
	case !(sp.Angle > 0 && sp.Angle < 90*geom.Degree):
		s.whole("back.spring.angle", "back.spring.angle is %s; it must lie between 0 and 90 degrees", degrees(sp.Angle))
		return nil
	case sp.Wall.Given() == sp.Top.Given():
		s.whole("back.spring", "back.spring takes one of wall and top; the other follows")
		return nil
	}
	wall, top := s.wholeSize("back.spring.wall", sp.Wall), s.wholeSize("back.spring.top", sp.Top)
	slope := sp.Angle.Tan()
	given, other := "wall", "top"
	if sp.Wall.Given() {
		top = end.X - (end.Y-wall)*slope
	} else {
		given, other = other, given
		wall = end.Y - (end.X-top)/slope
	}
	key := "back.spring." + given
	switch {
	case len(s.errs) > 0:
	case sp.Wall.Given() && !(wall >= 0 && wall < end.Y):
		s.whole(key, "%s is %s; it must be 0 or more and less than the height, %s", key, s.mm(wall), s.mm(end.Y))
	case sp.Top.Given() && !(top >= 0 && top < end.X):
		s.whole(key, "%s is %s; it must be 0 or more and less than the molding's depth at the top, %s", key, s.mm(top), s.mm(end.X))
	case math.Min(wall, top) < -equalSizes:
		s.whole("back.spring.angle", "a back at %s and a %s of %s leave no %s", degrees(sp.Angle), given, s.mm(math.Max(wall, top)), other)
	}
	wall, top = math.Max(0, wall), math.Max(0, top)
	sec.Spring = &SizedSpring{Angle: sp.Angle, Wall: wall, Top: top}
	return []geom.Point{end, {X: end.X - top, Y: end.Y}, {X: 0, Y: wall}, {}}
}

// close joins face and back into the outline, and parts it again into the worked face and the rest.
func (s *sizer) close(sec *Section, back []link) {
	sec.outline = straightened(append(append([]link{}, sec.links...), back...))
	var face, rest []link
	face, rest, sec.outline = parted(sec.outline, sec.Height)
	sec.Face, sec.Back, sec.Outline = pathOf(face), pathOf(rest), pathOf(sec.outline)
	if sec.gapLinks != nil {
		_, _, sec.gapOutline = parted(straightened(append(append([]link{}, sec.gapLinks...), back...)), sec.Height)
		sec.Gap = pathOf(sec.gapOutline)
	}
	sec.Projection = sec.Outline.Bounds().Max.X
}

// parted splits a closed chain where the worked face starts and ends: level lines along the foot and the top, whichever element
// made them, are no part of it. The outline it returns starts at the foot of the back.
func parted(chain []link, height float64) (face, rest, outline []link) {
	n := len(chain)
	along := func(l link) bool {
		line, ok := l.seg.(geom.Line)
		return ok && same(line.A.Y, line.B.Y) && (same(line.A.Y, 0) || same(line.A.Y, height))
	}
	first, last := 0, n-1
	for first < n && (chain[first].owner == 0 || along(chain[first])) {
		first++
	}
	for last > first && (chain[last].owner == 0 || along(chain[last])) {
		last--
	}
	if first >= n {
		return nil, chain, chain
	}
	face = chain[first : last+1]
	rest = append(append([]link{}, chain[last+1:]...), chain[:first]...)
	cut := len(rest)
	for cut > 0 && along(rest[cut-1]) && same(rest[cut-1].seg.Start().Y, 0) {
		cut--
	}
	outline = append(append(append([]link{}, rest[cut:]...), face...), rest[:cut]...)
	return face, rest, outline
}
