package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// mapTo returns the map from one section to another that was made of it, found from three corners of their outlines.
func mapTo(t *testing.T, from, to profile.Section) func(geom.Point) geom.Point {
	t.Helper()
	a, b := from.Outline, to.Outline
	require.Len(t, b, len(a))
	for i := 1; i < len(a)-1; i++ {
		for j := i + 1; j < len(a); j++ {
			o, u, v := a[0].Start(), a[i].Start().Sub(a[0].Start()), a[j].Start().Sub(a[0].Start())
			det := u.Cross(v)
			if math.Abs(det) < 10 {
				continue
			}
			p, q := b[i].Start().Sub(b[0].Start()), b[j].Start().Sub(b[0].Start())
			return func(x geom.Point) geom.Point {
				d := x.Sub(o)
				return b[0].Start().Add(p.Mul(d.Cross(v) / det)).Add(q.Mul(u.Cross(d) / det))
			}
		}
	}
	require.Fail(t, "no three corners")
	return nil
}

// A sunk is what is sunk square into one end of a piece, in its own coordinates: X along it, Y out, Z up.
type sunk struct {
	piece   miter.Piece
	at      func(geom.Point) miter.Vec3 // a point of the profile on the sawn face
	in      miter.Vec3                  // into the piece, square to the face
	opposed miter.Plane                 // the other end
}

func sink(t *testing.T, own profile.Section, p miter.Piece, i int) sunk {
	to, c := mapTo(t, own, *p.Section), p.Ends[i].Cut
	s := sunk{piece: p, opposed: p.Ends[1-i].Cut, in: miter.Vec3{X: -1, Y: c.X, Z: c.Y}}
	if p.Ends[i].End == miter.LeftHand {
		s.in = s.in.Mul(-1)
	}
	s.in = s.in.Mul(1 / s.in.Norm())
	s.at = func(q geom.Point) miter.Vec3 {
		q = to(q)
		return miter.Vec3{X: c.At(q), Y: q.X, Z: q.Y}
	}
	return s
}

// cover returns the least wood around points of the face that go depth deep: to the molding's surface, and to the other end.
func (s sunk) cover(t *testing.T, pts []miter.Vec3, depth float64) float64 {
	t.Helper()
	least := math.Inf(1)
	for _, w := range pts {
		for k := range 5 {
			v := w.Add(s.in.Mul(depth * float64(k) / 4))
			q := geom.Pt(v.Y, v.Z)
			require.True(t, s.piece.Section.Outline.Contains(q), "%s: outside of the wood", s.piece.Run)
			_, _, dist := s.piece.Section.Outline.Nearest(q)
			beyond := math.Abs(v.X-s.opposed.At(q)) / math.Sqrt(1+s.opposed.X*s.opposed.X+s.opposed.Y*s.opposed.Y)
			least = math.Min(least, math.Min(dist, beyond))
		}
	}
	return least
}

func line3(a, b miter.Vec3, f float64) miter.Vec3 { return a.Add(b.Sub(a).Mul(f)) }

// jointed returns the least wood around the grooves and the holes of a molding, over all ends that are said to have them, and the runs whose ends are.
func jointed(t *testing.T, m miter.MoldingResult) (groove, hole float64, runs map[string]bool) {
	t.Helper()
	groove, hole, runs = math.Inf(1), math.Inf(1), map[string]bool{}
	for _, p := range m.Pieces {
		for i, e := range p.Ends {
			if !e.Spline && !e.Pin {
				continue
			}
			runs[p.Run+" "+string(e.End)] = true
			s := sink(t, m.Sections[0].Section, p, i)
			if sp := m.Spline; e.Spline {
				a, b := s.at(geom.Pt(sp.From[0], sp.From[1])), s.at(geom.Pt(sp.To[0], sp.To[1]))
				side := b.Sub(a).Cross(s.in)
				side = side.Mul(sp.Thickness / 2 / side.Norm())
				var rim []miter.Vec3
				for k := range 101 {
					c := line3(a, b, float64(k)/100)
					rim = append(rim, c.Add(side), c.Sub(side))
				}
				groove = math.Min(groove, s.cover(t, rim, sp.Depth))
			}
			if pin := m.Pin; e.Pin {
				c := s.at(geom.Pt(pin.At[0], pin.At[1]))
				u := s.in.Cross(miter.Vec3{X: 0.3, Y: 0.5, Z: 0.8})
				u = u.Mul(pin.Diameter / 2 / u.Norm())
				v := s.in.Cross(u)
				var rim []miter.Vec3
				for k := range 72 {
					a := geom.Angle(k) * 5 * geom.Degree
					rim = append(rim, c.Add(u.Mul(a.Cos())).Add(v.Mul(a.Sin())))
				}
				hole = math.Min(hole, s.cover(t, rim, pin.Depth))
			}
		}
	}
	return groove, hole, runs
}

// TestJointedEnds: splines and pins lie in the wood of every end that is said to have them, returns, peaks and top returns too, found by
// sinking them into the solid pieces.
func TestJointedEnds(t *testing.T) {
	rake := func(broken, plumb bool) *miter.RakeSpec {
		return &miter.RakeSpec{Pitch: 18 * geom.Degree, Broken: broken, Plumb: plumb}
	}
	for name, c := range map[string]struct {
		m    miter.Molding
		runs []string
	}{
		"returned front":   {miter.Molding{Runs: []string{"front"}, EndLeft: miter.EndReturn, EndRight: miter.EndReturn}, []string{"left-return right", "front left", "front right", "right-return left"}},
		"returned sides":   {miter.Molding{EndLeft: miter.EndReturn}, []string{"left-return right", "left left", "left right", "front left", "front right", "right left"}},
		"narrowed returns": {miter.Molding{EndLeft: miter.EndReturn, Reach: map[string]float64{"left": 36}}, []string{"left-return right", "left left"}},
		"closed peak":      {miter.Molding{At: 900, Rake: rake(false, true)}, []string{"left-rake left", "left-rake right", "right-rake left", "right-rake right"}},
		"open peak":        {miter.Molding{At: 900, Rake: rake(true, true)}, []string{"left-rake right", "left-top-return left", "right-top-return right", "right-rake left"}},
		"leaning returns":  {miter.Molding{At: 900, Rake: rake(true, false)}, []string{"left-rake right", "left-top-return left", "right-top-return right"}},
	} {
		c.m.Spline, c.m.Pin = &miter.SplineSpec{Thickness: 3, Depth: 6, Stopped: true}, &miter.PinSpec{Diameter: 4, Depth: 6}
		m := fit(t, box(c.m)).Moldings[0]
		groove, hole, runs := jointed(t, m)
		for _, run := range c.runs {
			require.Contains(t, runs, run, "%s: %v", name, m.Notes)
		}
		require.GreaterOrEqual(t, groove, m.Spline.Cover-0.01, name)
		require.LessOrEqual(t, groove, m.Spline.Cover+1, name)
		require.GreaterOrEqual(t, hole, m.Pin.Cover-0.01, name)
		require.LessOrEqual(t, hole, m.Pin.Cover+2, name) // the whole diameter counts across the section, though the pin leans
		require.Greater(t, m.Spline.Cover, 1.5, name)
		require.Greater(t, m.Pin.Cover, 3.0, name)
	}
}

// TestJointsLeftOut: where a return is too small for a spline the others have theirs, its own ends have none, and a note says so; where it is the only miter
// it is refused.
func TestJointsLeftOut(t *testing.T) {
	m := miter.Molding{Profile: "tall", EndLeft: miter.EndReturn, Spline: &miter.SplineSpec{Thickness: 3, Depth: 13, Stopped: true}}
	r := fit(t, box(m), tall()).Moldings[0]
	require.Len(t, r.Notes, 1)
	require.Contains(t, r.Notes[0], "no spline at the returned corners")
	ret, left := pieceOf(t, r, "left-return"), pieceOf(t, r, "left")
	require.False(t, ret.Ends[1].Spline || left.Ends[0].Spline)
	require.True(t, left.Ends[1].Spline)
	m.Runs = []string{"front"}
	m.Spline.Depth = 25
	require.Contains(t, faults(t, box(m), tall()), "joint.spline: a spline 3.0 mm thick")
}
