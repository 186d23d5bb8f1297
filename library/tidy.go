package library

import (
	"math"
	"math/big"
	"reflect"
	"strconv"

	"listel/profile"
	"listel/profile/measure"
)

// Tidy returns p with its sizes as a person would write them in p's units: those within a hair of a fraction of an inch, to 1/64, or of a part, to
// 1/8, are that, and the others are rounded to 0.001 in, 0.001 mm or 0.001 of a part. What arithmetic leaves behind the last figure is gone, so that
// MarshalProfile writes each size short. p itself is not changed.
func Tidy(p profile.Profile) profile.Profile {
	tidy(reflect.ValueOf(&p).Elem(), p.Units)
	return p
}

// tidy changes the sizes in v, which is copied where it is pointed to.
func tidy(v reflect.Value, units measure.Units) {
	if s, ok := reflect.TypeAssert[profile.Size](v); ok {
		v.Set(reflect.ValueOf(tidySize(s, units)))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				tidy(f, units)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			tidy(v.Index(i), units)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			c := reflect.New(v.Type().Elem())
			c.Elem().Set(v.Elem())
			tidy(c.Elem(), units)
			v.Set(c)
		}
	case reflect.Slice:
		if !v.IsNil() {
			c := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(c, v)
			for i := range c.Len() {
				tidy(c.Index(i), units)
			}
			v.Set(c)
		}
	}
}

// hair is how far a number of 1/64 in, or of eighths of a part, may be from a whole one to be it: dust of arithmetic, never a size.
const hair = 1e-5

func tidySize(s profile.Size, units measure.Units) profile.Size {
	switch {
	case !s.Given() || s.IsRest():
		return s
	case s.IsParts():
		return profile.Parts(tidyNumber(s.In(1), 8))
	case units == measure.Millimeters:
		return profile.MM(tidyLength(s.In(0), s.In(0), 0, ""))
	}
	return profile.MM(tidyLength(s.In(0), s.In(0)/measure.MMPerInch, 64, "in"))
}

// tidyLength returns a length, mm, as it is read from its tidy text: x in a unit, with fractions of den unless that is 0.
func tidyLength(mm, x float64, den int64, unit string) float64 {
	if unit == "" {
		unit = "mm"
	}
	text := strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
	if k := math.Round(x * float64(den)); den > 0 && math.Abs(k-x*float64(den)) < hair {
		text = measure.Mixed(big.NewRat(int64(k), den))
	}
	if got, err := measure.ParseLength(text+unit, measure.Inches); err == nil {
		return got
	}
	return mm
}

// tidyNumber returns x as a multiple of 1/den where it is one within a hair, else rounded to 0.001.
func tidyNumber(x, den float64) float64 {
	if k := math.Round(x * den); math.Abs(k-x*den) < hair {
		return k / den
	}
	return math.Round(x*1000) / 1000
}
