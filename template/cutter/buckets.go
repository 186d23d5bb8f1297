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

// groups returns the points in groups that hang together: those of buckets that touch, side by side or corner to corner. They come in the order of
// their first points in pts.
func (b buckets) groups(pts []geom.Point) [][]geom.Point {
	var out [][]geom.Point
	seen := map[[2]int]bool{}
	for _, p := range pts {
		if seen[b.key(p)] {
			continue
		}
		var group []geom.Point
		seen[b.key(p)] = true
		for open := [][2]int{b.key(p)}; len(open) > 0; {
			k := open[len(open)-1]
			open = open[:len(open)-1]
			group = append(group, b.at[k]...)
			for n := range 9 {
				if c := [2]int{k[0] + n%3 - 1, k[1] + n/3 - 1}; len(b.at[c]) > 0 && !seen[c] {
					seen[c] = true
					open = append(open, c)
				}
			}
		}
		out = append(out, group)
	}
	return out
}
