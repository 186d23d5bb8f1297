package profile

import (
	"fmt"
	"slices"
	"sort"

	"listel/profile/geom"
)

// adviseAngle adds to the first fault the angle of the back that would do, when it is the sprung back alone that is at fault and there is one. It is
// found by trying, in the tenths of a degree that angles are told in: the steeper a back from its flat at the wall, or the flatter one from its flat at
// the top, the more wood it leaves.
func (s *sizer) adviseAngle(face Section) {
	sp := s.profile.Back.Spring
	if sp == nil || s.profile.Back.Rabbet != nil {
		return
	}
	does := func(tenths int) bool {
		try, spring := *s, *sp
		try.errs, try.pieces = nil, slices.Clone(s.pieces)
		spring.Angle = geom.Angle(tenths) * geom.Degree / 10
		try.profile.Back.Spring = &spring
		sec := face
		try.complete(&sec)
		return len(try.errs) == 0
	}
	const right = 900 // tenths of a degree
	angle, way := sort.Search(right, func(n int) bool { return n > 0 && !does(n) })-1, "less"
	if sp.Top.Given() {
		angle, way = sort.Search(right, does), "more"
	}
	if angle > 0 && angle < right-1 {
		s.errs[0].Reason += fmt.Sprintf("; an angle of %s or %s would do", degrees(geom.Angle(angle)*geom.Degree/10), way)
	}
}
