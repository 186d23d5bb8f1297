package replay

import "math"

// mostProud is how far, in mm, a saw blade may stand out of the wood that it goes through: 1/8 in, common practice, no source, and a raster's error.
const mostProud = 25.4/8 + 0.5

// depth returns how far along the way the tool enters a section point lies.
func (s Setup) depth(p Point) float64 {
	d := s.entry()
	return p[0]*d[0] + p[1]*d[1]
}

// brushed is how near, in mm, a blade's side passes a face that it is there to clean.
const brushed = 0.06

// proud checks that no more of a saw blade stands out of the wood than must; deep is the depth of the deepest place that it takes. A face that its side
// brushes counts: a whisker on it is less than the raster shows.
func (b *bench) proud(n int, s Setup, deep float64) {
	if s.Work != "saw" || math.IsInf(deep, -1) {
		return
	}
	along(b.plan.Outline, 0.5, func(p Point) {
		if boundaryDistance(s.Silhouette, p) < brushed {
			deep = math.Max(deep, s.depth(p))
		}
	})
	tip := math.Inf(-1)
	for _, p := range s.Silhouette {
		tip = math.Max(tip, s.depth(p))
	}
	if tip-deep > mostProud {
		b.fault(n, "proud", tip-deep, "the blade stands %.1f mm out of the wood", tip-deep)
	}
}
