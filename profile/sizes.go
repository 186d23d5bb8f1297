package profile

import (
	"fmt"
	"math"
	"strings"

	"listel/profile/geom"
	"listel/profile/measure"
)

// A Lookup finds the profile that a stack names.
type Lookup func(name string) (Profile, error)

// A sizer turns the sizes of one profile into millimeters and collects its faults.
type sizer struct {
	profile Profile
	format  measure.Format
	lookup  Lookup
	names   []string             // the profiles that lead here, this one last
	budget  *int                 // elements that may still be built, stacks counted in
	made    map[nestKey]*Section // the faces of stacks built so far
	part    float64              // mm, 0 without parts
	ground  float64              // mm
	pieces  []piece
	errs    Errors
}

// A piece is one element on its way from its file to its place.
type piece struct {
	Entry
	index             int
	bad               bool // a size is faulty: nothing further is said of it
	set, height       float64
	rise, run         float64 // from the end of the one before to its end
	restRise, restRun bool
	element           Element
	nested            *Section
}

// fault records what is wrong with key of a piece.
func (s *sizer) fault(p *piece, key, format string, args ...any) {
	p.bad = true
	s.errs = append(s.errs, &ElementError{Index: p.index, Kind: p.Kind, Key: key, Reason: fmt.Sprintf(format, args...)})
}

// whole records what is wrong with the profile as a whole.
func (s *sizer) whole(key, format string, args ...any) {
	s.errs = append(s.errs, &ElementError{Key: key, Reason: fmt.Sprintf(format, args...)})
}

// refuse records the error of an element's Validate.
func (s *sizer) refuse(p *piece, err error) {
	if e, ok := err.(*SizeError); ok {
		s.fault(p, e.Key, "%s", e.In(s.format))
	} else if err != nil {
		s.fault(p, "", "%s", err)
	}
}

func (s *sizer) mm(v float64) string { return spell(s.format, v) }

// size returns v in mm. What is no length is recorded as a fault of key and gives 0.
func (s *sizer) size(p *piece, key string, v Size) float64 {
	mm, reason := s.inMM(v)
	if reason != "" {
		s.fault(p, key, "%s %s", key, reason)
	}
	return mm
}

// wholeSize is size for a size of the profile itself.
func (s *sizer) wholeSize(key string, v Size) float64 {
	mm, reason := s.inMM(v)
	if reason != "" {
		s.whole(key, "%s %s", key, reason)
	}
	return mm
}

func (s *sizer) inMM(v Size) (float64, string) {
	if v.IsRest() {
		return 0, "cannot be rest; only height and projection can"
	}
	if v.IsParts() && !(s.part > 0) {
		return 0, fmt.Sprintf("is %gp, but the profile gives no parts; give it parts and height", v.value)
	}
	mm := v.In(s.part)
	switch {
	case math.IsNaN(mm):
		return 0, "is not a number; it must be a length"
	case math.Abs(mm) > measure.Limit:
		return 0, "is " + s.mm(mm) + "; the limit is 20 m"
	}
	return mm, ""
}

// profileSizes checks what the profile says of itself.
func (s *sizer) profileSizes() {
	p := s.profile
	for _, v := range []struct {
		key string
		mm  float64
	}{{"height", p.Height}, {"projection", p.Projection}} {
		switch {
		case math.IsNaN(v.mm):
			s.whole(v.key, "%s is not a number; it must be a length", v.key)
		case v.mm < 0:
			s.whole(v.key, "%s is %s; it must be more than 0", v.key, s.mm(v.mm))
		case v.mm > measure.Limit:
			s.whole(v.key, "%s is %s; the limit is 20 m", v.key, s.mm(v.mm))
		}
	}
	switch {
	case !(p.Parts >= 0) || math.IsInf(p.Parts, 0):
		s.whole("parts", "parts is %g; it must be more than 0", p.Parts)
	case p.Parts > 0 && p.Height == 0:
		s.whole("height", "height is missing; parts divide it")
	case p.Parts > 0 && p.Height > 0:
		s.part = p.Height / p.Parts
	}
	if s.ground = s.wholeSize("ground", p.Ground); s.ground < 0 {
		s.whole("ground", "ground is %s; it must be 0 or more", s.mm(s.ground))
	}
	switch n := len(p.Elements); {
	case n == 0:
		s.whole("elements", "elements are missing; a profile needs one at least")
	case n > MaxElements:
		s.whole("elements", "there are %d elements; the limit is %d", n, MaxElements)
	}
}

// heights finds the rise of each element, and what is left for the one whose height is the rest.
func (s *sizer) heights() {
	if len(s.profile.Elements) > MaxElements {
		return
	}
	sum, open, known := 0.0, -1, true
	for i, e := range s.profile.Elements {
		s.pieces = append(s.pieces, piece{Entry: e, index: i + 1})
		p := &s.pieces[i]
		s.height(p)
		switch {
		case p.bad:
			known = false
		case p.restRise && open >= 0:
			s.fault(p, "height", "height is rest, and so is that of element %d; one at most can be", open+1)
			known = false
		case p.restRise:
			open = i
		}
		sum += p.rise
	}
	if open >= 0 {
		s.restHeight(&s.pieces[open], sum, known)
	}
}

// restHeight gives a piece the height that the others, sum mm in all, leave.
func (s *sizer) restHeight(p *piece, sum float64, known bool) {
	left := s.profile.Height - sum
	switch {
	case s.profile.Height == 0:
		s.fault(p, "height", "height is rest, which needs the profile's height")
	case !known || !(s.profile.Height > 0):
		p.bad = true // its height would be wrong, but not by its own fault
	case left <= equalSizes:
		p.bad = true
		s.whole("height", "height is %s, and the elements come to %s without the %s of element %d, whose height is rest; more than %s would do, or less high elements",
			s.mm(s.profile.Height), s.mm(sum), p.Kind, p.index, s.mm(sum))
	default:
		p.height, p.rise = left, p.rise+left
		if p.Kind == KindStack {
			s.nest(p, left)
		}
	}
}

// height finds the rise of one element, except for a rest.
func (s *sizer) height(p *piece) {
	if _, ok := factsOf[p.Kind]; !ok {
		s.fault(p, "", "there is no such element")
		return
	}
	s.strayKeys(p)
	p.set = s.size(p, "set", p.Set)
	switch p.Kind {
	case KindCurve:
		s.curveHeight(p)
		return
	case KindStack:
		s.stackHeight(p)
		return
	}
	switch {
	case !p.Height.Given():
		s.fault(p, "height", "height is missing")
	case p.Height.IsRest():
		p.restRise = true
	default:
		p.height = s.size(p, "height", p.Height)
		if !p.bad {
			s.refuse(p, positive("height", p.height))
		}
	}
	p.rise = p.height
	if p.Kind == KindBead && p.Quirk != nil {
		bead := s.bead(p)
		below, above := bead.quirks()
		p.rise += below + above
	}
}

// strayKeys refuses keys that the kind does not take.
func (s *sizer) strayKeys(p *piece) {
	given := []struct {
		key string
		is  bool
	}{
		{"projection", p.Projection.Given()}, {"curve", p.Curve != ""}, {"radius", p.Radius.Given()}, {"drip", p.Drip != nil}, {"quirk", p.Quirk != nil},
		{"flush", p.Flush}, {"fillet", p.Fillet.Given()}, {"depth", p.Depth.Given()}, {"count", p.Count != 0},
		{"gap", p.Gap.Given()}, {"block", p.Block.Given()}, {"points", p.Points != nil}, {"profile", p.Profile != ""},
	}
	for _, g := range given {
		if !g.is || p.Kind.takes(g.key) {
			continue
		}
		hint := "it takes " + strings.Join(p.Kind.Keys(), ", ")
		if g.key == "projection" {
			hint = "to step in or out, use set"
		}
		s.fault(p, g.key, "%s has no place here; %s", g.key, hint)
	}
}

// runs finds the run of each element whose height is known, and of the one whose run is the rest.
func (s *sizer) runs() {
	x, furthest, known, open := s.ground, -1, true, -1
	reach := math.Inf(-1)
	for i := range s.pieces {
		p := &s.pieces[i]
		s.run(p)
		known = known && !p.bad
		if p.restRun && open >= 0 {
			s.fault(p, "projection", "projection is rest, and so is that of element %d; one at most can be", open+1)
			known, p.restRun = false, false
		}
		x += p.set
		if p.restRun {
			open = i
			known = s.restRun(p, x, known) && known
		}
		if x += p.run; x > reach+equalSizes {
			reach, furthest = x, i
		}
	}
	if open >= 0 && known && furthest != open && reach > s.profile.Projection+equalSizes {
		s.fault(&s.pieces[open], "projection", "projection is rest, which stands on the element that reaches furthest; element %d, %s, reaches %s further",
			furthest+1, s.pieces[furthest].Kind, s.mm(reach-s.profile.Projection))
	}
}

// restRun gives a piece that starts at x the run that takes it to the profile's projection, and reports whether it
// could.
func (s *sizer) restRun(p *piece, x float64, known bool) bool {
	left := s.profile.Projection - x
	switch {
	case s.profile.Projection == 0:
		s.fault(p, "projection", "projection is rest, which needs the profile's projection")
	case !known || !(s.profile.Projection > 0):
		p.bad = true
	case left <= equalSizes:
		s.fault(p, "projection", "projection is rest, but nothing is left: the element starts at %s of %s", s.mm(x), s.mm(s.profile.Projection))
	default:
		p.run = left
		return true
	}
	return false
}

// run finds the run of one element, except for a rest.
func (s *sizer) run(p *piece) {
	f := factsOf[p.Kind]
	switch {
	case p.bad || p.Kind == KindCurve || p.Kind == KindStack || !f.runs:
	case p.Projection.IsRest():
		p.restRun = true
	case p.Projection.Given():
		p.run = s.size(p, "projection", p.Projection)
	default:
		p.run = f.factor * p.height
	}
}

// curveHeight takes a curve's rise and run from its last point.
func (s *sizer) curveHeight(p *piece) {
	c := s.curve(p)
	if p.bad {
		return
	}
	if s.refuse(p, c.Validate()); p.bad {
		return
	}
	p.element, p.height, p.rise, p.run = c, c.Height(), c.Height(), c.Projection()
	for _, v := range []struct {
		key  string
		size Size
		mm   float64
	}{{"height", p.Height, p.height}, {"projection", p.Projection, p.run}} {
		if !v.size.Given() {
			continue
		}
		if v.size.IsRest() {
			s.fault(p, v.key, "%s cannot be rest here; the last point decides it", v.key)
		} else if mm := s.size(p, v.key, v.size); !same(mm, v.mm) {
			s.fault(p, v.key, "%s is %s, but the last point makes it %s", v.key, s.mm(mm), s.mm(v.mm))
		}
	}
}

// curve sizes the points of a curve.
func (s *sizer) curve(p *piece) Curve {
	var c Curve
	for i, pt := range p.Points {
		if i == MaxElements {
			break
		}
		key := fmt.Sprintf("points.%d", i+1)
		q := SizedPoint{At: geom.Pt(s.size(p, key, pt.X), s.size(p, key, pt.Y))}
		if pt.Through != nil {
			t := geom.Pt(s.size(p, key, pt.Through[0]), s.size(p, key, pt.Through[1]))
			q.Through = &t
		}
		c.Points = append(c.Points, q)
	}
	if len(p.Points) > MaxElements {
		s.fault(p, "points", "there are %d points; the limit is %d", len(p.Points), MaxElements)
	}
	return c
}
