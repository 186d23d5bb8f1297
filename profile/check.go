package profile

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// LeastThickness is the thickness in mm under which a section is refused: wood that thin breaks at the cutter.
const LeastThickness = 1.0

// check records what is wrong with the shape of a finished section. Each test runs only when the ones before it found
// nothing, since one fault of shape brings others with it.
func (s *sizer) check(sec Section) {
	if sec.Height < LeastThickness {
		s.whole("height", "the section is %s high; it must be 1 mm at least", s.mm(sec.Height))
		return
	}
	for _, v := range []struct {
		key string
		mm  float64
	}{{"height", sec.Height}, {"projection", sec.Projection}} {
		if v.mm > measure.Limit {
			s.whole(v.key, "the %s comes to %s; the limit is 20 m", v.key, s.mm(v.mm))
		}
	}
	if len(s.errs) > 0 {
		return
	}
	for _, test := range []func(Section){s.checkReach, s.checkBounds, s.checkCrossings, s.checkGap, s.checkThin} {
		if test(sec); len(s.errs) > 0 {
			return
		}
	}
}

// checkReach compares the greatest x with the projection that the profile states. Where a run is the rest it has been made to fit.
func (s *sizer) checkReach(sec Section) {
	want := s.profile.Projection
	for _, p := range s.pieces {
		if want == 0 || p.restRun {
			return
		}
	}
	diff, word := sec.Projection-want, "more"
	if diff < 0 {
		word = "less"
	}
	if !same(diff, 0) {
		s.whole("projection", "the section reaches %s from the back, which is %s %s than the projection, %s", s.mm(sec.Projection), s.mm(math.Abs(diff)), word, s.mm(want))
	}
}

// checkBounds finds elements that go below the foot, above the top, or behind the back.
func (s *sizer) checkBounds(sec Section) {
	lean := geom.Identity()
	if sp := sec.Spring; sp != nil { // turned until the slope is plumb and lies at x = 0
		lean = geom.Translation(geom.Pt(0, -sp.Wall)).Then(geom.Rotation(sp.Angle))
	}
	for i := range s.pieces {
		p := &s.pieces[i]
		var part geom.Path
		for _, l := range sec.links {
			if l.owner == p.index {
				part = append(part, l.seg)
			}
		}
		b := part.Bounds()
		switch {
		case liesOnBack(part):
			s.fault(p, "", "it lies on the back, at x = 0, and has no thickness; a greater ground would give it some")
		case b.Min.X < -equalSizes:
			s.fault(p, "", "it goes %s behind the back, which is at x = 0", s.mm(-b.Min.X))
		case b.Min.Y < -equalSizes:
			s.fault(p, "", "it goes %s below the foot of the molding", s.mm(-b.Min.Y))
		case b.Max.Y > sec.Height+equalSizes:
			s.fault(p, "", "it goes %s above the top of the molding", s.mm(b.Max.Y-sec.Height))
		case sec.Spring != nil:
			if x := part.Transform(lean).Bounds().Min.X; x < -equalSizes {
				s.fault(p, "", "it goes %s behind the spring line, the sloping back", s.mm(-x))
			}
		}
	}
}

// liesOnBack reports whether a plumb line of the path has x = 0.
func liesOnBack(p geom.Path) bool {
	for _, seg := range p {
		if l, ok := seg.(geom.Line); ok && same(l.A.X, 0) && same(l.B.X, 0) {
			return true
		}
	}
	return false
}

// checkCrossings finds parts of the outline that cross or touch each other.
func (s *sizer) checkCrossings(sec Section) { s.crossings(sec, sec.outline, "") }

// checkGap does the same between dentils.
func (s *sizer) checkGap(sec Section) {
	if sec.gapLinks == nil {
		return
	}
	for _, p := range s.pieces {
		if p.Kind == KindDentils && pathOf(sec.gapLinks).Bounds().Min.X < -equalSizes {
			s.fault(&p, "depth", "between its blocks it goes behind the back; depth must be less than %s", s.mm(sec.Members[p.index-1].Start))
			return
		}
	}
	s.checkGapCrossings(sec)
}

func (s *sizer) checkGapCrossings(sec Section) {
	s.crossings(sec, sec.gapOutline, ", between dentils")
}

// joint is the distance in mm from a joint up to which neighbors may meet. Where an arc leaves a line tangentially a crossing found by
// a square root is only this exact.
const joint = 1e-4

// crossings records pairs of elements whose parts of a closed outline meet elsewhere than at a joint, each pair once.
func (s *sizer) crossings(sec Section, outline []link, where string) {
	n := len(outline)
	boxes := make([]geom.Rect, n)
	for i, l := range outline {
		boxes[i] = l.seg.Bounds().Expand(equalSizes)
	}
	told := map[[2]int]bool{}
	for i := range n {
		for j := i + 1; j < n; j++ {
			if !boxes[i].Overlaps(boxes[j]) {
				continue
			}
			pair := [2]int{outline[i].owner, outline[j].owner}
			if told[pair] || !meet(outline, i, j) {
				continue
			}
			told[pair], told[[2]int{pair[1], pair[0]}] = true, true
			s.crossed(sec, outline[i], outline[j], where)
		}
	}
}

// meet reports whether segments i < j of a closed outline meet elsewhere than where they join.
func meet(outline []link, i, j int) bool {
	a, b := outline[i].seg, outline[j].seg
	for _, c := range geom.Crossings(a, b) {
		atJoint := j == i+1 && c.At.Near(a.End(), joint) || i == 0 && j == len(outline)-1 && c.At.Near(a.Start(), joint)
		if !atJoint {
			return true
		}
	}
	return false
}

// crossed records that two links meet, as a fault of the upper of their elements.
func (s *sizer) crossed(sec Section, a, b link, where string) {
	if a.owner < b.owner {
		a, b = b, a
	}
	switch {
	case a.owner == 0:
		s.whole("back", "%s crosses %s%s", sec.nameOf(a), sec.nameOf(b), where)
	case a.owner == b.owner:
		s.fault(&s.pieces[a.owner-1], "", "it crosses itself%s", where)
	default:
		s.fault(&s.pieces[a.owner-1], "", "it crosses %s%s", sec.nameOf(b), where)
	}
}

// nameOf names what a link belongs to.
func (s Section) nameOf(l link) string {
	if l.owner > 0 {
		return fmt.Sprintf("element %d, %s", l.owner, s.Members[l.owner-1].Kind)
	}
	a, b := l.seg.Start(), l.seg.End()
	switch {
	case same(a.X, 0) && same(b.X, 0):
		return "the back"
	case same(a.Y, 0) && same(b.Y, 0):
		return "the foot"
	case same(a.Y, s.Height) && same(b.Y, s.Height):
		return "the top"
	}
	return s.cutName()
}

// cutName names what is cut into the back.
func (s Section) cutName() string {
	if s.Spring != nil {
		return "the spring line"
	}
	return "the rabbet"
}

// cutAtBack reports whether a link is of what is cut into the back.
func (s Section) cutAtBack(l link) bool { return l.owner == 0 && s.nameOf(l) == s.cutName() }

// checkThin finds the thinnest place when it is under LeastThickness.
func (s *sizer) checkThin(sec Section) {
	for _, o := range []struct {
		links []link
		where string
	}{{sec.outline, ""}, {sec.gapOutline, ", between dentils"}} {
		outline := newBoundary(o.links)
		t, found := outline.thinnest(LeastThickness - equalSizes)
		if !found {
			continue
		}
		a, b := outline.links[t.ends[0]], outline.links[t.ends[1]]
		if a.owner < b.owner {
			a, b = b, a
		}
		size := fmt.Sprintf("%s thick", s.mm(t.Thickness))
		if t.Thickness < equalSizes {
			size = "a sharp feather"
		}
		switch {
		case a.owner == 0:
			s.whole("back", "the section is %s between %s and %s%s; it must be 1 mm at least", size, sec.nameOf(a), sec.nameOf(b), o.where)
		case a.owner == b.owner:
			s.fault(&s.pieces[a.owner-1], "", "the section is %s in it%s; it must be 1 mm at least", size, o.where)
		default:
			s.fault(&s.pieces[a.owner-1], "", "the section is %s between it and %s%s; it must be 1 mm at least", size, sec.nameOf(b), o.where)
		}
		return
	}
}
