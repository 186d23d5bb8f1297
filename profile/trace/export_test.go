package trace

import (
	"context"
	"image"

	"listel/profile/geom"
)

// Drawing returns the outline of the plate's first section before members are made of it, for tests of the way there.
func Drawing(img image.Image, p Plate) (geom.Path, Mapping, []string, error) {
	scales, faults := p.solve(img, Options{Progress: func(string, int, int) {}})
	if len(faults) > 0 {
		return nil, Mapping{}, nil, faults
	}
	w := p.Sections[0]
	found, err := outlineOf(context.Background(), img, w, func() {})
	if err != nil {
		return nil, Mapping{}, nil, err
	}
	at := place(found.points, scales[p.Scales[0].Name], w.Face)
	return geom.Polygon(at.points...), at.pixels, found.notes, nil
}
