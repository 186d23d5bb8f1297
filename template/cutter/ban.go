package cutter

// ban puts aside the cuts of a plan that have no safe place in its order, as far as others clear what they clear. It reports whether there was
// one.
func (s *search) ban(p plan) bool {
	o, found := s.steps(p.picked), false
	for _, pl := range p.order {
		if pl.notes&forbidden == 0 {
			continue
		}
		c := o[pl.step].cut
		if s.setAside(func(d *cut) bool { return d.tool == c.tool && d.view == c.view }) || s.setAside(func(d *cut) bool { return d == c }) {
			found = true
		}
	}
	if found {
		s.kept = nil
		s.need()
	}
	return found
}

// setAside bans the cuts that match, and pairs with them, unless some waste is then cleared by none; face that only these would leave clean is for
// the scraper. It reports whether it did.
func (s *search) setAside(match func(*cut) bool) bool {
	var now []int
	rest := s.needed.clone()
	for i := range s.rows.point(0) {
		rest.clear(i)
	}
	for k := range s.cuts {
		c := &s.cuts[k]
		hit := match(c) || c.parts[0] >= 0 && (match(&s.cuts[c.parts[0]]) || match(&s.cuts[c.parts[1]]))
		switch {
		case c.banned:
		case hit:
			now = append(now, k)
		default:
			rest.andNot(c.rows)
		}
	}
	if len(now) == 0 {
		return false
	}
	for _, k := range now {
		s.cuts[k].banned = true
	}
	if s.settleFor(rest) {
		return true
	}
	for _, k := range now {
		s.cuts[k].banned = false
	}
	return false
}

// settleFor lets the cuts that are left clear the given hard points with what margin they have. It reports whether they can.
func (s *search) settleFor(rows bitset) bool {
	type grant struct{ cut, row int }
	var grants []grant
	ok := true
	rows.each(func(r int) {
		p, best := s.t.hard[r-s.rows.point(0)], len(marginLevels)
		var with []int
		for k := range s.cuts {
			if s.cuts[k].banned {
				continue
			}
			switch l := s.clears(&s.cuts[k], p); {
			case l < best:
				best, with = l, []int{k}
			case l == best && l < len(marginLevels):
				with = append(with, k)
			}
		}
		ok = ok && len(with) > 0
		for _, k := range with {
			grants = append(grants, grant{k, r})
		}
	})
	if !ok {
		return false
	}
	for _, g := range grants {
		s.cuts[g.cut].rows.set(g.row)
	}
	return true
}
