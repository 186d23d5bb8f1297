package template

import (
	"fmt"
	"math"

	"listel/miter"
	"listel/profile/geom"
)

// overall says how much room the case takes with its moldings, in all and on the floor.
func (v coverViews) overall() string {
	fig := v.st.Lengths.Drawing
	wide, deep := extent(v.r, math.Inf(1))
	words := fmt.Sprintf("With its moldings %s wide and %s deep", fig(wide), fig(deep))
	const onFloor = 0.5 // mm
	if w, d := extent(v.r, onFloor); w < wide-onFloor || d < deep-onFloor {
		words += fmt.Sprintf(", on the floor %s by %s", fig(w), fig(d))
	}
	return words
}

// extent returns the width and the depth in mm of all parts of the case that reach down to a height over the floor.
func extent(r miter.Result, low float64) (wide, deep float64) {
	along := func(see viewpoint) float64 {
		all := geom.EmptyRect()
		for _, f := range facets(r, see) {
			box := geom.EmptyRect()
			for _, p := range f.Outline {
				box = box.Include(p)
			}
			if box.Min.Y <= low {
				all = all.Include(box.Min).Include(box.Max)
			}
		}
		return all.Width()
	}
	return along(fromFront), along(fromRight)
}
