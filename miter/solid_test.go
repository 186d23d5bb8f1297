package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
)

// This file is the independent check of the cut list: each piece is a prism whose ends are made by a saw that knows only the
// words and numbers of the cut list, and the pieces are laid round the case.

// gapTol is the widest gap or overlap allowed at a miter, in mm.
const gapTol = 0.02

// A stick is a piece as the saw left it: for each point of its section where the left and the right end lie along it, in mm from
// the left end of its back at the foot.
type stick struct {
	outline     []geom.Point
	left, right []float64
}

// blade returns where along the piece a blade set as s says cuts each point of the outline, 0 at the section's origin. The piece
// is seen as a front run: along it is +X, out -Y, up +Z.
func blade(t *testing.T, s miter.Saw, outline []geom.Point, spring geom.Angle, end miter.Hand) []float64 {
	up, fence := facing(t, s.Table, spring).Mul(-1), facing(t, s.Fence, 0)
	if s.Table == miter.BackFace && spring > 0 {
		fence = miter.Vec3{Y: -spring.Sin(), Z: spring.Cos()} // the top, along the back
		if s.Fence == miter.FootFace {
			fence = fence.Mul(-1)
		}
	}
	require.InDelta(t, 0, up.Dot(fence), 1e-9, "table and fence are square")
	right := fence.Cross(up)
	leftward := right.Mul(-1)
	arm := fence.Mul(-1) // from the fence to the operator
	swing, tilt := s.Miter.Radians(), s.Bevel.Radians()
	if s.Swing == miter.RightHand {
		swing = -swing
	}
	if s.Tilt == miter.RightHand {
		tilt = -tilt
	}
	line := arm.Mul(math.Cos(swing)).Add(leftward.Mul(math.Sin(swing)))
	across := line.Cross(up) // level, square to the line
	if across.Dot(leftward) < 0 {
		across = across.Mul(-1)
	}
	rise := up.Mul(math.Cos(tilt)).Add(across.Mul(math.Sin(tilt)))
	normal := line.Cross(rise)
	if normal.Dot(right) < 0 {
		normal = normal.Mul(-1)
	}
	// The piece stays on the side named by keep, and that must be where its body is.
	body := miter.Vec3{X: -1}
	if end == miter.LeftHand {
		body = miter.Vec3{X: 1}
	}
	require.Equal(t, s.Keep == miter.RightHand, normal.Dot(body) > 0, "keep %s for the %s end", s.Keep, end)
	out := make([]float64, len(outline))
	for i, p := range outline {
		out[i] = -normal.Dot(miter.Vec3{Y: -p.X, Z: p.Y}) / normal.X
	}
	return out
}

// facing returns the direction that a face of a front run looks in; the back leans by spring from the wall.
func facing(t *testing.T, f miter.Face, spring geom.Angle) miter.Vec3 {
	switch f {
	case miter.BackFace:
		return miter.Vec3{Y: spring.Cos(), Z: spring.Sin()}
	case miter.FrontFace:
		return miter.Vec3{Y: -1}
	case miter.FootFace:
		return miter.Vec3{Z: -1}
	case miter.TopFace:
		return miter.Vec3{Z: 1}
	}
	require.Fail(t, "no such face", "%q", f)
	return miter.Vec3{}
}

// sawn cuts the piece with its standing settings, or with the flat ones.
func sawn(t *testing.T, p miter.Piece, flat bool) stick {
	s := stick{outline: p.Section.Outline.Flatten(0.002)}
	for i, e := range p.Ends {
		set, spring := e.Standing, geom.Angle(0)
		if flat {
			require.NotNil(t, e.Flat)
			set, spring = *e.Flat, p.Section.Spring.Angle
		}
		at := blade(t, set, s.outline, spring, e.End)
		if i == 0 {
			s.left = at
			continue
		}
		for k := range at {
			at[k] += p.Back
		}
		s.right = at
	}
	return s
}

// rim returns the rim of an end of the piece, as it stands at its k-th place.
func (s stick) rim(p miter.Piece, k int, end miter.Hand) []miter.Vec3 {
	at := s.left
	if end == miter.RightHand {
		at = s.right
	}
	out := make([]miter.Vec3, len(at))
	for i, q := range s.outline {
		out[i] = p.Places[k].At(p.Ends[0].Cut.S+at[i], q)
	}
	return out
}

// apart returns the greatest distance from points of a rim to another rim's line.
func apart(a, b []miter.Vec3) float64 {
	worst := 0.0
	for _, p := range a {
		best := math.Inf(1)
		for i := range b {
			u, v := b[i], b[(i+1)%len(b)]
			d := v.Sub(u)
			t := 0.0
			if l := d.Dot(d); l > 0 {
				t = math.Max(0, math.Min(1, p.Sub(u).Dot(d)/l))
			}
			best = math.Min(best, p.Sub(u.Add(d.Mul(t))).Norm())
		}
		worst = math.Max(worst, best)
	}
	return worst
}

// A placed end of a sawn piece.
type placedEnd struct {
	rim  []miter.Vec3
	body miter.Vec3 // from the end into the piece
}

// solid saws all pieces of a molding and lays them round the case; it fails on a gap or overlap, and returns the number of miters.
func solid(t *testing.T, m miter.MoldingResult, flat bool) int {
	t.Helper()
	ends := map[[2]string]placedEnd{} // run, and which end
	meets := map[[2]string]string{}
	for _, p := range m.Pieces {
		s := sawn(t, p, flat)
		for k, run := range p.Runs {
			body := p.Places[k].Along
			ends[[2]string{run, "left"}] = placedEnd{s.rim(p, k, miter.LeftHand), body}
			ends[[2]string{run, "right"}] = placedEnd{s.rim(p, k, miter.RightHand), body.Mul(-1)}
		}
	}
	for i, r := range m.Runs {
		for k := range m.Pieces {
			if m.Pieces[k].Mark != r.Mark {
				continue
			}
			right := m.Pieces[k].Ends[1]
			if right.Kind != miter.CutMiter && right.Kind != miter.CutPlumb || i+1 == len(m.Runs) && !m.Closed {
				continue
			}
			meets[[2]string{r.Run, "right"}] = m.Runs[(i+1)%len(m.Runs)].Run
		}
	}
	for a, name := range meets {
		e, g := ends[a], ends[[2]string{name, "left"}]
		require.Less(t, apart(e.rim, g.rim), gapTol, "%s to %s", a[0], name)
		require.Less(t, apart(g.rim, e.rim), gapTol, "%s to %s", name, a[0])
		n := plane(e.rim)
		require.Negative(t, n.Dot(e.body)*n.Dot(g.body), "%s and %s lie on two sides of their miter", a[0], name)
	}
	return len(meets)
}

// plane returns the normal of the plane that a rim lies in.
func plane(rim []miter.Vec3) miter.Vec3 {
	var n miter.Vec3
	for i := range rim {
		n = n.Add(rim[i].Cross(rim[(i+1)%len(rim)]))
	}
	return n.Mul(1 / n.Norm())
}
