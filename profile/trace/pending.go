package trace

import "listel/profile/geom"

// compose makes a profile of an outline.
var compose = func(d Drawn, _ Wanted) (Composed, error) {
	var c Composed
	c.Section.Outline = geom.Polygon(d.Points...)
	return c, nil
}
