package trace

import (
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
)

// Validate returns all that is wrong with p as Faults, so far as it can be told without looking at the picture, whose bounds are in
// px: the empty rectangle when there is none.
func (p Plate) Validate(bounds image.Rectangle) error {
	var faults Faults
	if len(p.Scales) == 0 {
		faults = append(faults, &Fault{Key: "scales", Err: fmt.Errorf("%w: the plate has none; give the true length between two points, a scale bar, or points whose places are known", ErrNoScale)})
	}
	for i, s := range p.Scales {
		if key, err := s.check(bounds); err != nil {
			faults = append(faults, &Fault{Scale: s.called(i), Index: i, Key: key, Err: err})
		}
	}
	if len(p.Sections) == 0 {
		faults = append(faults, &Fault{Key: "sections", Err: fmt.Errorf("%w: the plate asks for no section", ErrNothing)})
	}
	for i, w := range p.Sections {
		for _, f := range w.check(p, bounds) {
			f.Section, f.Index = w.called(i), i
			faults = append(faults, f)
		}
	}
	return faults.orNil()
}

// called returns the scale's name, or its place among the scales when it has none.
func (s Scale) called(i int) string {
	if s.Name != "" {
		return s.Name
	}
	return fmt.Sprint(i + 1)
}

// called returns the section's name, or its place among the sections when it has none.
func (w Wanted) called(i int) string {
	if w.Name != "" {
		return w.Name
	}
	return fmt.Sprint(i + 1)
}

// check returns the first fault of s and its key.
func (s Scale) check(bounds image.Rectangle) (key string, err error) {
	if s.Bar != nil {
		return "bar", s.Bar.check(bounds)
	}
	if _, err := s.solve(nil); err != nil {
		switch {
		case len(s.Points) > 0:
			key = "points"
		case len(s.Lengths) > 0:
			key = "lengths"
		}
		return key, err
	}
	return "", nil
}

// check returns the faults of w.
func (w Wanted) check(p Plate, bounds image.Rectangle) Faults {
	var faults Faults
	add := func(key string, err error) { faults = append(faults, &Fault{Key: key, Err: err}) }
	switch names := p.scaleNames(); {
	case w.Scale == "" && len(names) > 1:
		add("scale", fmt.Errorf("%w: the plate has %d, and it is not said at which it is drawn; scale: %s, for one", ErrNoScale, len(names), names[0]))
	case w.Scale != "" && len(names) > 0 && !slices.Contains(names, w.Scale):
		faults = append(faults, &Fault{Key: "scale", Name: w.Scale, Names: names,
			Err: fmt.Errorf("%w is named %q; the plate has %s", ErrNoScale, w.Scale, strings.Join(names, ", "))})
	}
	if !(w.Tolerance >= 0) || math.IsInf(w.Tolerance, 0) {
		add("tolerance", fmt.Errorf("%w: it must be 0 or more", ErrSize))
	}
	switch {
	case len(w.Points) > 0:
		if err := checkClicks(w.Points); err != nil {
			add("points", err)
		}
	case bounds.Empty():
		add("crop", fmt.Errorf("%w: there is no image", ErrCrop))
	case w.Crop == image.Rectangle{}:
	case w.Crop.Dx() <= 0 || w.Crop.Dy() <= 0:
		add("crop", fmt.Errorf("%w: its right must be more than its left, and its bottom more than its top", ErrCrop))
	case !w.Crop.In(bounds):
		add("crop", fmt.Errorf("%w: [%d, %d, %d, %d] in an image of %d x %d px", ErrCrop, w.Crop.Min.X, w.Crop.Min.Y, w.Crop.Max.X, w.Crop.Max.Y, bounds.Dx(), bounds.Dy()))
	}
	return faults
}

// scaleNames returns the names of the plate's scales.
func (p Plate) scaleNames() []string {
	names := make([]string, len(p.Scales))
	for i, s := range p.Scales {
		names[i] = s.Name
	}
	return names
}
