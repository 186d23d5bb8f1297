package profile

import "math"

// elements makes the sized element of every piece and checks it.
func (s *sizer) elements() {
	for i := range s.pieces {
		p := &s.pieces[i]
		if p.bad {
			continue
		}
		e := s.sized(p)
		if p.bad {
			continue
		}
		p.element = e
		s.refuse(p, e.Validate())
	}
}

// sized returns the element of a piece whose height and run are known.
func (s *sizer) sized(p *piece) Element {
	h, run := p.height, p.run
	switch p.Kind {
	case KindCorona:
		return s.corona(p)
	case KindChamfer:
		return Chamfer{Height: h, Projection: run}
	case KindOvolo:
		return Ovolo{Height: h, Projection: run, Curve: p.Curve}
	case KindCove:
		return Cove{Height: h, Projection: run, Curve: p.Curve}
	case KindConge:
		return Conge{Height: h, Projection: run}
	case KindCymaRecta:
		return CymaRecta{Height: h, Projection: run, Curve: p.Curve, Radius: s.radius(p)}
	case KindCymaReversa:
		return CymaReversa{Height: h, Projection: run, Curve: p.Curve, Radius: s.radius(p)}
	case KindScotia:
		return s.scotia(p)
	case KindTorus, KindAstragal:
		return Torus{Height: h}
	case KindBead:
		return s.bead(p)
	case KindThumb:
		return Thumb{Height: h, Projection: run, Fillet: s.size(p, "fillet", p.Fillet)}
	case KindQuirk:
		return Quirk{Height: h, Depth: s.needed(p, "depth", p.Depth)}
	case KindReeds:
		return Reeds{Height: h, Count: p.Count, Gap: s.size(p, "gap", p.Gap)}
	case KindFlutes:
		return Flutes{Height: h, Count: p.Count, Gap: s.size(p, "gap", p.Gap)}
	case KindDentils:
		return Dentils{Height: h, Block: s.needed(p, "block", p.Block), Gap: s.needed(p, "gap", p.Gap), Depth: s.needed(p, "depth", p.Depth)}
	case KindCurve:
		return p.element
	case KindStack:
		return Stack{Section: *p.nested}
	}
	return Fillet{Height: h}
}

// needed is size for a key that has no default.
func (s *sizer) needed(p *piece, key string, v Size) float64 {
	if !v.Given() {
		s.fault(p, key, "%s is missing", key)
	}
	return s.size(p, key, v)
}

// radius returns the radius of a cyma, 0 where its file gives none.
func (s *sizer) radius(p *piece) float64 {
	r := s.size(p, "radius", p.Radius)
	if p.Radius.Given() && r == 0 {
		s.refuse(p, positive("radius", r))
	}
	return r
}

// scotia returns a scotia; one struck in sevenths must say its run.
func (s *sizer) scotia(p *piece) Element {
	if p.Curve == CurveSevenths && !p.Projection.Given() {
		s.fault(p, "projection", "projection is missing; curve: sevenths needs one, %s or more either way", s.mm(p.height/7))
	}
	return Scotia{Height: p.height, Projection: p.run, Curve: p.Curve}
}

// corona returns a corona with the drip in its soffit. The x of the soffit's inner end does not matter to it.
func (s *sizer) corona(p *piece) Corona {
	c := Corona{Height: p.height, Set: p.set}
	if d := p.Drip; d != nil {
		c.Drip = &SizedDrip{Width: s.needed(p, "drip.width", d.Width), Depth: s.needed(p, "drip.depth", d.Depth), Inset: s.needed(p, "drip.inset", d.Inset)}
	}
	return c
}

// bead returns a bead with its quirks.
func (s *sizer) bead(p *piece) Bead {
	b := Bead{Height: p.height, Flush: p.Flush}
	if q := p.Quirk; q != nil {
		b.Quirk = &SizedQuirk{Width: s.needed(p, "quirk.width", q.Width), Depth: s.needed(p, "quirk.depth", q.Depth), Sides: q.Sides}
		if !(q.Sides >= BothSides && q.Sides <= BelowOnly) {
			s.fault(p, "quirk.sides", "quirk.sides must be above, below or both")
		}
	}
	return b
}

// sums reports heights that do not come out at the profile's height.
func (s *sizer) sums() {
	if s.profile.Height == 0 {
		return
	}
	sum := 0.0
	for _, p := range s.pieces {
		sum += p.rise
	}
	diff := sum - s.profile.Height
	word := "more"
	if diff < 0 {
		word = "less"
	}
	if !same(diff, 0) {
		s.whole("height", "the elements come to %s, which is %s %s than the height, %s", s.mm(sum), s.mm(math.Abs(diff)), word, s.mm(s.profile.Height))
	}
}
