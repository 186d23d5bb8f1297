package profile

import (
	"slices"
	"strings"

	"listel/profile/geom"
)

// A Stack is the face of a whole section as one element, without its back.
type Stack struct {
	Section Section
}

// Validate returns a *SizeError when the section has no face.
func (e Stack) Validate() error {
	if len(e.Section.links) == 0 {
		return sizeFault("profile", "the profile has no face")
	}
	return nil
}

// Outline returns the face of the section, its first level step included.
func (e Stack) Outline(from geom.Point) geom.Path { return e.placed(from, e.Section.links) }

// GapOutline returns the face between the dentils of the section, or its face when it has none.
func (e Stack) GapOutline(from geom.Point) geom.Path {
	if e.Section.gapLinks == nil {
		return e.Outline(from)
	}
	return e.placed(from, e.Section.gapLinks)
}

func (e Stack) placed(from geom.Point, links []link) geom.Path {
	return pathOf(links).Translate(from.Sub(geom.Pt(e.Section.Ground, 0)))
}

// stackHeight builds the profile that a stack names and takes its rise and run; one whose height is the rest waits.
func (s *sizer) stackHeight(p *piece) {
	switch {
	case p.Profile == "":
		s.fault(p, "profile", "profile is missing; it names the profile to be stacked")
	case slices.Contains(s.names, p.Profile):
		s.fault(p, "profile", "profile %q goes round in a circle: %s", p.Profile, strings.Join(append(slices.Clone(s.names), p.Profile), " -> "))
	case len(s.names) >= maxDepth:
		s.fault(p, "profile", "profile %q lies in too many others; the limit is %d", p.Profile, maxDepth)
	case s.lookup == nil:
		s.fault(p, "profile", "profile %q cannot be looked up here", p.Profile)
	case p.bad:
	case p.Height.IsRest():
		p.restRise = true
	case p.Height.Given():
		h := s.size(p, "height", p.Height)
		if s.refuse(p, positive("height", h)); !p.bad {
			s.nest(p, h)
			p.rise = p.height
		}
	default:
		s.nest(p, 0)
		p.rise = p.height
	}
}

// nest builds the nested section, h mm high, or as high as its own file says when h is 0.
func (s *sizer) nest(p *piece, h float64) {
	inner, err := s.lookup(p.Profile)
	if err != nil {
		s.fault(p, "profile", "%s", err)
		return
	}
	if p.scale > 0 {
		inner = inner.Scaled(p.scale)
	}
	if h > 0 && inner.heightMoves() {
		inner.Height = h
	}
	key := nestKey{p.Profile, h, p.scale}
	if sec := s.made[key]; sec != nil {
		p.nested, p.height, p.run = sec, sec.Height, endOf(sec.links).X-sec.Ground
		return
	}
	n := &sizer{profile: inner, format: s.format, lookup: s.lookup, names: append(slices.Clone(s.names), p.Profile), budget: s.budget, made: s.made}
	sec := n.face()
	if len(n.errs) > 0 {
		s.fault(p, "profile", "in profile %q %s", p.Profile, strings.ReplaceAll(n.errs.Error(), "\n", "; "))
		return
	}
	if h > 0 && !same(h, sec.Height) {
		s.fault(p, "height", "height is %s, but profile %q is %s high and none of its heights is in parts or rest", s.mm(h), p.Profile, s.mm(sec.Height))
		return
	}
	if s.made != nil {
		s.made[key] = &sec
	}
	p.nested, p.height, p.run = &sec, sec.Height, endOf(sec.links).X-sec.Ground
}
