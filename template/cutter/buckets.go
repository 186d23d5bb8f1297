package cutter

import (
	"math"

	"listel/profile/geom"
)

// buckets hold points by the square they lie in, to find what is near a place without looking at all of them.
type buckets struct {
	size float64
	at   map[[2]int][]geom.Point
}

func newBuckets(pts []geom.Point, size float64) buckets {
	b := buckets{size: size, at: map[[2]int][]geom.Point{}}
	for _, p := range pts {
		k := b.key(p)
		b.at[k] = append(b.at[k], p)
	}
	return b
}

func (b buckets) key(p geom.Point) [2]int {
	return [2]int{int(math.Floor(p.X / b.size)), int(math.Floor(p.Y / b.size))}
}

// near reports whether a point lies no further than a bucket's size from q.
func (b buckets) near(q geom.Point) bool {
	k := b.key(q)
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			if nearAny(b.at[[2]int{k[0] + i, k[1] + j}], q, b.size) {
				return true
			}
		}
	}
	return false
}

// take removes the points within a bucket's size of q and returns them.
func (b buckets) take(q geom.Point) []geom.Point {
	var out []geom.Point
	k := b.key(q)
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			c := [2]int{k[0] + i, k[1] + j}
			var kept []geom.Point
			for _, p := range b.at[c] {
				if p.Near(q, b.size) {
					out = append(out, p)
				} else {
					kept = append(kept, p)
				}
			}
			b.at[c] = kept
		}
	}
	return out
}
