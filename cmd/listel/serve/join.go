package serve

import (
	"errors"
	"fmt"
	"math"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// Two members that bend opposite ways where they meet are one cyma to a maker's eye when the line turns by less than mostKink there, as it may on a plate, and
// when a cyma leaves them nowhere by more than joinReach of the greater of its height and run.
const (
	mostKink  = 15 * geom.Degree
	joinReach = 0.05
)

// joins reports whether the member at a place of a section's members and the one above it may be one cyma.
func joins(all []profile.Member, i int) bool {
	if i < 0 || i+1 >= len(all) {
		return false
	}
	m, above := all[i], all[i+1]
	if len(m.Path) == 0 || len(above.Path) == 0 || above.Set != 0 {
		return false
	}
	in, ok := m.Path[len(m.Path)-1].(geom.Arc)
	out, also := above.Path[0].(geom.Arc)
	if !ok || !also || in.Sweep*out.Sweep >= 0 || m.Projection*above.Projection <= 0 {
		return false
	}
	return in.Tangent(1).Dot(out.Tangent(0)) > mostKink.Cos()
}

// join makes one cyma of the member at an index and the one above it: of all that end where the two do, the one nearest to them. One of a radius, the mean
// of the two where they meet, is taken where it is nearer by half than the usual constructions.
func (s *Server) join(q sectionRequest, i int) (data []byte, told string, err error) {
	p, err := s.load(q)
	if err != nil {
		return nil, "", errUndrawn
	}
	if !joins(p.Section.Members, i) {
		return nil, "", errors.New("these two are no cyma")
	}
	m, above := p.Section.Members[i], p.Section.Members[i+1]
	foot, _ := ends(m)
	_, top := ends(above)
	size, line := top.Sub(foot), append(append(geom.Path{}, m.Path...), above.Path...)
	alone, err := library.RemoveElement([]byte(q.Text), i+1)
	if err != nil {
		return nil, "", err
	}
	f, best, kind := measure.Format{Units: p.Profile.Units}, joinReach*math.Max(size.Y, math.Abs(size.X)), profile.Kind("")
	mean := (m.Path[len(m.Path)-1].(geom.Arc).Radius + above.Path[0].(geom.Arc).Radius) / 2
	at := fmt.Sprintf("elements[%d].", i)
	height, run := library.KeyValue{Path: at + "height", Value: f.Entry(size.Y)}, library.KeyValue{Path: at + "projection", Value: f.Entry(size.X)}
	radius := library.KeyValue{Path: at + "radius", Value: f.Entry(math.Max(mean, profile.LeastCymaRadius(size.Y, size.X)+0.01))}
	for _, k := range []profile.Kind{profile.KindCymaRecta, profile.KindCymaReversa} {
		keys, err := ofKind(alone, i, k, f.Units)
		if err != nil {
			return nil, "", err
		}
		var ways []library.KeyValue
		for _, curve := range k.Constructions() {
			ways = append(ways, library.KeyValue{Path: at + "curve", Value: string(curve)})
		}
		for _, way := range append(ways, radius) {
			text, err := keys.Set(height, run, way)
			if err != nil {
				return nil, "", err
			}
			q.Text = string(text)
			one, err := s.load(q)
			if err != nil {
				continue // this construction takes no such size
			}
			off := geom.Hausdorff(line, one.Section.Members[i].Path, 0.5)
			if off < best && (way != radius || data == nil || off < best/2) {
				data, best, kind = text, off, k
			}
		}
	}
	if data == nil {
		return nil, "", errors.New("no cyma comes near enough to these two; they stay as they are")
	}
	return data, fmt.Sprintf("The two are one %s, nowhere farther than %s from what they were.", kind.Words(), f.Length(best)), nil
}

// ofKind returns the keys of a profile with the member at an index made one of another kind.
func ofKind(text []byte, i int, kind profile.Kind, units measure.Units) (library.Keyed, error) {
	text, err := library.SetElementKind(text, i, kind, units)
	if err != nil {
		return library.Keyed{}, err
	}
	return library.ReadKeyed(text)
}
