package miter

import (
	"math"

	"listel/profile/geom"
)

// A Vec3 is a place or a direction in the room, in mm: X along the front to the right, Y toward the wall, Z up from the floor.
type Vec3 struct{ X, Y, Z float64 }

// Add returns v + w.
func (v Vec3) Add(w Vec3) Vec3 { return Vec3{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns v - w.
func (v Vec3) Sub(w Vec3) Vec3 { return Vec3{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Mul returns v with its coordinates multiplied by k.
func (v Vec3) Mul(k float64) Vec3 { return Vec3{v.X * k, v.Y * k, v.Z * k} }

// Dot returns the scalar product of v and w.
func (v Vec3) Dot(w Vec3) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Cross returns the vector product of v and w.
func (v Vec3) Cross(w Vec3) Vec3 {
	return Vec3{v.Y*w.Z - v.Z*w.Y, v.Z*w.X - v.X*w.Z, v.X*w.Y - v.Y*w.X}
}

// Norm returns the length of v.
func (v Vec3) Norm() float64 { return math.Sqrt(v.Dot(v)) }

func level(p geom.Point, z float64) Vec3 { return Vec3{p.X, p.Y, z} }

// A Placement is where a piece stands in the room: the point s = x = y = 0 and the directions of its length, of its
// projection and of its height, each of length 1 and square to one another.
type Placement struct{ Origin, Along, Out, Up Vec3 }

// At returns the point of the room that lies s along the piece at the section point p.
func (p Placement) At(s float64, q geom.Point) Vec3 {
	return p.Origin.Add(p.Along.Mul(s)).Add(p.Out.Mul(q.X)).Add(p.Up.Mul(q.Y))
}
