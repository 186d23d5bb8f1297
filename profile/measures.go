package profile

import (
	"math"

	"listel/profile/geom"
)

// Area returns the area of the section, in mm2.
func (s Section) Area() float64 { return s.Outline.Area() }

// FaceLength returns the length of the worked face along its curves, in mm.
func (s Section) FaceLength() float64 { return s.Face.Length() }

// Centroid returns the center of gravity of the section.
func (s Section) Centroid() geom.Point { return s.Outline.Centroid() }

// Blank returns the smallest rectangle that holds the section: upright, or, for one with a spring, turned with its sloping back, which
// lies on a side of it. Width is along the back and Thickness square to it.
func (s Section) Blank() Blank {
	turn := geom.Angle(0)
	if s.Leans() {
		turn = s.Spring.Angle
	}
	b := s.Outline.Rotate(turn).Bounds() // the slope stands plumb then
	out := Blank{Width: b.Height(), Thickness: b.Width()}
	for i, p := range []geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		out.Polygon[i] = p.Rotate(-turn)
	}
	return out
}

// Thinnest returns the place where the section is thinnest: the smallest of the circles inside it that touch two parts of the outline
// which face each other. Where none do, as in a triangle, it is the lesser side of the blank, at the centroid.
func (s Section) Thinnest() Thin {
	b := newBoundary(s.boundaryLinks())
	blank := s.Blank()
	most := math.Min(blank.Width, blank.Thickness)
	for limit := 2 * LeastThickness; limit < 2*most; limit *= 2 {
		if t, found := b.thinnest(math.Min(limit, most*(1+1e-6))); found {
			return t
		}
	}
	return Thin{Thickness: most, At: s.Centroid()}
}

// boundaryLinks returns the outline with its owners, all 0 on a section that Profile.Section did not make.
func (s Section) boundaryLinks() []link {
	if len(s.outline) == len(s.Outline) {
		return s.outline
	}
	return linked(0, s.Outline)
}

// OwnMirror reports whether the section, turned upside down, is the same within tol mm: a stick of it then serves either hand.
func (s Section) OwnMirror(tol float64) bool {
	flip := s.Outline.MirrorY().Translate(geom.Pt(0, s.Height))
	for _, seg := range flip {
		for _, t := range [...]float64{0, 0.25, 0.5, 0.75} {
			if _, _, d := s.Outline.Nearest(seg.At(t)); d > tol {
				return false
			}
		}
	}
	return true
}

// RabbetSeat returns the inner corner of the rabbet, where a seated case bears, and false when there is none.
func (s Section) RabbetSeat() (geom.Point, bool) {
	if s.Rabbet == nil {
		return geom.Point{}, false
	}
	y := s.Height - s.Rabbet.Depth
	if s.Rabbet.At == AtFoot {
		y = s.Rabbet.Depth
	}
	return geom.Pt(s.Rabbet.Width, y), true
}

// BackSpan returns from where to where over the foot the back stands at x = 0, in mm: a rabbet is left out, and of a sprung back all but the flat at
// the wall.
func (s Section) BackSpan() (foot, top float64) {
	corner, cut := s.RabbetSeat()
	switch {
	case s.Spring != nil:
		return 0, s.Spring.Wall
	case !cut:
		return 0, s.Height
	case s.Rabbet.At == AtFoot:
		return corner.Y, s.Height
	}
	return 0, corner.Y
}

// Mapped returns the section as m maps it, under another name: a raking or a narrowed molding. The outline stays exact and counter-clockwise. Sizes of
// members, rabbet and spring are those of the image. m must have a Det other than 0.
func (s Section) Mapped(name string, m geom.Affine) Section {
	out := s
	out.Name = name
	turn := func(p geom.Path) geom.Path {
		q := p.Transform(m)
		if m.Det() < 0 {
			q = q.Reverse()
		}
		return q
	}
	out.Outline, out.Gap, out.Face, out.Back = turn(s.Outline), turn(s.Gap), turn(s.Face), turn(s.Back)
	if s.Gap == nil {
		out.Gap = nil
	}
	out.outline, out.gapOutline = relinked(s.outline, out.Outline, m), relinked(s.gapOutline, out.Gap, m)
	out.links, out.gapLinks = nil, nil
	b := out.Outline.Bounds()
	out.Height, out.Projection = b.Height(), b.Max.X
	out.Ground = m.Apply(geom.Pt(s.Ground, 0)).X
	out.Members = make([]Member, len(s.Members))
	for i, e := range s.Members {
		out.Members[i] = e.mapped(m)
	}
	along, up := m.ApplyVector(geom.Pt(1, 0)).Norm(), m.ApplyVector(geom.Pt(0, 1)).Norm()
	if r := s.Rabbet; r != nil {
		out.Rabbet = &SizedRabbet{At: r.At, Width: r.Width * along, Depth: r.Depth * up}
	}
	if sp := s.Spring; sp != nil {
		back := m.ApplyVector(geom.Pt(sp.Angle.Sin(), sp.Angle.Cos()))
		out.Spring = &SizedSpring{Angle: geom.Angle(math.Atan2(math.Abs(back.X), math.Abs(back.Y))), Wall: sp.Wall * up, Top: sp.Top * along}
	}
	return out
}

// relinked gives the segments of a mapped outline their owners.
func relinked(links []link, mapped geom.Path, m geom.Affine) []link {
	if len(links) != len(mapped) {
		return nil
	}
	out := make([]link, len(links))
	for i, seg := range mapped {
		from := i
		if m.Det() < 0 {
			from = len(links) - 1 - i
		}
		out[i] = link{seg, links[from].owner}
	}
	return out
}

// mapped returns the member as m maps it: height and run are those between the images of its ends.
func (e Member) mapped(m geom.Affine) Member {
	out := e
	out.Path = e.Path.Transform(m)
	rise, along := m.ApplyVector(geom.Pt(e.Projection, e.Height)), m.ApplyVector(geom.Pt(e.Set, 0))
	foot := m.Apply(geom.Pt(e.Start, e.Foot))
	out.Start, out.Foot, out.Height, out.Projection, out.Set = foot.X, foot.Y, rise.Y, rise.X, along.X
	if m.Det() < 0 {
		out.Path = out.Path.Reverse()
	}
	out.Radii = radii(out.Path)
	out.Inner = nil
	for _, in := range e.Inner {
		out.Inner = append(out.Inner, in.mapped(m))
	}
	return out
}
