package geom

import "math"

// A Rect is an upright rectangle, in mm. Start from EmptyRect to collect bounds.
type Rect struct{ Min, Max Point }

// EmptyRect returns the rectangle that holds nothing: any point included in it becomes all of it.
func EmptyRect() Rect {
	inf := math.Inf(1)
	return Rect{Point{inf, inf}, Point{-inf, -inf}}
}

// Empty reports whether r holds no point.
func (r Rect) Empty() bool { return !(r.Min.X <= r.Max.X && r.Min.Y <= r.Max.Y) }

// Width returns the extent along x, in mm; 0 for an empty rectangle.
func (r Rect) Width() float64 { return math.Max(0, r.Max.X-r.Min.X) }

// Height returns the extent along y, in mm; 0 for an empty rectangle.
func (r Rect) Height() float64 { return math.Max(0, r.Max.Y-r.Min.Y) }

// Center returns the middle of r.
func (r Rect) Center() Point { return r.Min.Lerp(r.Max, 0.5) }

// Include returns the smallest rectangle that holds r and p.
func (r Rect) Include(p Point) Rect {
	return Rect{
		Point{math.Min(r.Min.X, p.X), math.Min(r.Min.Y, p.Y)},
		Point{math.Max(r.Max.X, p.X), math.Max(r.Max.Y, p.Y)},
	}
}

// Union returns the smallest rectangle that holds r and s.
func (r Rect) Union(s Rect) Rect {
	if s.Empty() {
		return r
	}
	return r.Include(s.Min).Include(s.Max)
}

// Expand returns r grown by d mm on every side; d may be negative.
func (r Rect) Expand(d float64) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Contains reports whether p lies in r or on its edge.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Overlaps reports whether r and s share a point.
func (r Rect) Overlaps(s Rect) bool {
	return r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}
