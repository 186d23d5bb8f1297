package template

import (
	"fmt"

	"listel/profile/geom"
)

// ratios are the reductions that a drawing to scale may have, the largest drawing first: those of a rule in inches to the foot, or of a
// metric one after ISO 5455, and what lies between them (from memory).
func (st Style) ratios() []float64 {
	if st.inches() {
		return []float64{1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 256}
	}
	return []float64{1, 2, 2.5, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500}
}

// scaleFor returns the largest usual scale, full size at most, at which w by h mm fit the room; the smallest where they fit at none.
func (st Style) scaleFor(w, h, roomW, roomH float64) float64 {
	ratios := st.ratios()
	for _, n := range ratios {
		if w <= n*roomW+1e-9 && h <= n*roomH+1e-9 {
			return 1 / n
		}
	}
	return 1 / ratios[len(ratios)-1]
}

// scaleWords says the scale of a view.
func scaleWords(k float64) string {
	switch {
	case k == 1:
		return "Full size"
	case k > 1:
		return fmt.Sprintf("Enlarged %g:1", k)
	}
	return "Scale " + scaleRatio(k)
}

// scaleRatio returns a scale as a ratio, "1:4".
func scaleRatio(k float64) string {
	if k >= 1 {
		return fmt.Sprintf("%g:1", k)
	}
	return fmt.Sprintf("1:%g", 1/k)
}

// jointScale says a scale in words, "full size" or "1:2".
func jointScale(k float64) string {
	if k == 1 {
		return "full size"
	}
	return scaleRatio(k)
}

// scaled returns the map that draws at k times the size.
func scaled(k float64) geom.Affine { return geom.Scaling(k, k) }
