package profile

import (
	"errors"
	"fmt"
	"slices"

	"listel/profile/measure"
)

// Errors of WithHeight and WithProjection.
var (
	ErrFixedHeight     = errors.New("the height cannot be changed: no height in the profile is in parts or rest")
	ErrFixedProjection = errors.New("the projection cannot be changed: no run in the profile is in parts or rest")
)

// Scaled returns the profile with every length multiplied by k, which must be more than 0; curves are constructed anew.
func (p Profile) Scaled(k float64) Profile {
	p.Height, p.Projection = p.Height*k, p.Projection*k
	p.Ground = p.Ground.Scaled(k)
	p.Elements = slices.Clone(p.Elements)
	for i, e := range p.Elements {
		p.Elements[i] = e.eachSize(func(s Size) Size { return s.Scaled(k) })
		if e.Kind == KindStack {
			if e.scale == 0 {
				e.scale = 1
			}
			p.Elements[i].scale = e.scale * k
		}
	}
	if r := p.Back.Rabbet; r != nil {
		p.Back.Rabbet = &Rabbet{At: r.At, Width: r.Width.Scaled(k), Depth: r.Depth.Scaled(k)}
	}
	if s := p.Back.Spring; s != nil {
		p.Back.Spring = &Spring{Angle: s.Angle, Wall: s.Wall.Scaled(k), Top: s.Top.Scaled(k)}
	}
	return p
}

// eachSize returns the entry with f done to each of its sizes; what f is given and returns may be left out.
func (e Entry) eachSize(f func(Size) Size) Entry {
	for _, s := range []*Size{&e.Set, &e.Height, &e.Projection, &e.Radius, &e.Fillet, &e.Depth, &e.Gap, &e.Block} {
		*s = f(*s)
	}
	if d := e.Drip; d != nil {
		e.Drip = &Drip{Width: f(d.Width), Depth: f(d.Depth), Inset: f(d.Inset)}
	}
	if q := e.Quirk; q != nil {
		e.Quirk = &BeadQuirk{Width: f(q.Width), Depth: f(q.Depth), Sides: q.Sides}
	}
	e.Points = slices.Clone(e.Points)
	for i, p := range e.Points {
		e.Points[i].X, e.Points[i].Y = f(p.X), f(p.Y)
		if p.Through != nil {
			e.Points[i].Through = &[2]Size{f(p.Through[0]), f(p.Through[1])}
		}
	}
	return e
}

// WithHeight returns the profile with another height, in mm: what is in parts or rest follows, and whether the sum comes out is for
// Section to say. The error is ErrFixedHeight when nothing would follow, or says that mm is no height.
func (p Profile) WithHeight(mm float64) (Profile, error) {
	if !(mm > 0 && mm <= measure.Limit) {
		return p, fmt.Errorf("the height is %s; it must be more than 0, and the limit is 20 m", spell(measure.Format{Units: p.Units}, mm))
	}
	if !p.heightMoves() {
		return p, ErrFixedHeight
	}
	p.Height = mm
	return p, nil
}

// heightMoves reports whether a height of the profile hangs on its whole height.
func (p Profile) heightMoves() bool {
	moves := func(s Size) bool { return s.IsParts() || s.IsRest() }
	for _, e := range p.Elements {
		if moves(e.Height) || e.Quirk != nil && moves(e.Quirk.Width) {
			return true
		}
		for _, q := range e.Points {
			if moves(q.Y) {
				return true
			}
		}
	}
	return false
}

// WithProjection returns the profile with another projection, in mm: the run that is the rest follows, or, where there is none, the runs,
// sets and ground in parts, all in one ratio. The error is ErrFixedProjection when nothing would follow, or says that mm is no projection, or none that
// the runs can come to.
func (p Profile) WithProjection(mm float64) (Profile, error) {
	if !(mm > 0 && mm <= measure.Limit) {
		return p, fmt.Errorf("the projection is %s; it must be more than 0, and the limit is 20 m", spell(measure.Format{Units: p.Units}, mm))
	}
	inParts := p.Ground.IsParts()
	for _, e := range p.Elements {
		if e.Projection.IsRest() {
			p.Projection = mm
			return p, nil
		}
		inParts = inParts || e.Set.IsParts() || e.Projection.IsParts()
	}
	if !inParts {
		return p, ErrFixedProjection
	}
	return p.runsTo(mm)
}

// runsTo multiplies the runs in parts so that the greatest x comes to mm. That x grows with the ratio wherever the ratio matters, so that
// halving an interval finds it.
func (p Profile) runsTo(mm float64) (Profile, error) {
	p.Projection = 0
	lo, hi := 0.0, 1.0
	reach := func(k float64) (float64, error) {
		budget := MaxElements
		s := &sizer{profile: p.withRuns(k), format: measure.Format{Units: p.Units}, budget: &budget}
		return s.reach()
	}
	for range 12 { // up to 4096 times as much
		x, err := reach(hi)
		if err != nil {
			return p, err
		}
		if x >= mm {
			break
		}
		hi *= 2
	}
	for range 80 {
		mid := (lo + hi) / 2
		x, err := reach(mid)
		if err != nil {
			return p, err
		}
		if x < mm {
			lo = mid
		} else {
			hi = mid
		}
	}
	if x, _ := reach(hi); !same(x, mm) {
		return p, fmt.Errorf("the projection cannot be %s: with the runs that are in parts it comes to %s at the least", spell(measure.Format{Units: p.Units}, mm), spell(measure.Format{Units: p.Units}, x))
	}
	out := p.withRuns(hi)
	out.Projection = mm
	return out, nil
}

// withRuns returns the profile with ground, sets and runs in parts multiplied by k.
func (p Profile) withRuns(k float64) Profile {
	times := func(s Size) Size {
		if s.IsParts() {
			s.value *= k
		}
		return s
	}
	p.Ground = times(p.Ground)
	p.Elements = slices.Clone(p.Elements)
	for i, e := range p.Elements {
		p.Elements[i].Set, p.Elements[i].Projection = times(e.Set), times(e.Projection)
	}
	return p
}

// reach returns the greatest x of the sized elements, crests of rounds included, without drawing them: a construction may not
// be possible on the way to the right ratio.
func (s *sizer) reach() (float64, error) {
	s.profileSizes()
	s.heights()
	s.runs()
	if len(s.errs) > 0 {
		return 0, s.errs
	}
	x := s.ground
	most := x
	for _, p := range s.pieces {
		x += p.set
		most = max(most, x, x+s.crest(p))
		x += p.run
		most = max(most, x)
	}
	return most, nil
}

// crest returns how far a piece stands out beyond both its ends, in mm.
func (s *sizer) crest(p piece) float64 {
	switch {
	case p.Kind == KindTorus || p.Kind == KindAstragal || p.Kind == KindBead && !p.Flush:
		return p.height / 2
	case p.Kind == KindReeds && p.Count > 0:
		return (p.height - p.Gap.In(s.part)*float64(p.Count-1)) / float64(p.Count) / 2
	}
	return 0
}
