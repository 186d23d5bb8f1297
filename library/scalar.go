package library

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A sign says which lengths a key takes.
type sign int

const (
	anySign sign = iota
	positive
	notNegative
)

// check notes a length on the wrong side of 0.
func (s sign) check(v value, is int) bool {
	switch {
	case s == positive && is <= 0:
		v.fault(v.name+" is "+v.node.Value, "it must be more than 0")
		return false
	case s == notNegative && is < 0:
		v.fault(v.name+" is "+v.node.Value, "it must not be negative")
		return false
	}
	return true
}

// scalar returns v as text; want says what would do where it is a list or a group of keys.
func (v value) scalar(want string) (string, bool) {
	if v.node.Kind != yaml.ScalarNode {
		v.wrong(want)
		return "", false
	}
	return v.node.Value, true
}

// unreadable notes an error of package measure about v.
func (v value) unreadable(err error) {
	found, want, _ := strings.Cut(err.Error(), "; ")
	v.fault(v.name+": "+found, want)
}

// text reads a text that is not blank.
func text(dst *string) func(value) {
	return func(v value) {
		s, ok := v.scalar("a text is needed")
		if ok && strings.TrimSpace(s) == "" {
			v.fault(v.name+" is blank", "give it a text, or drop the key")
		}
		*dst = s
	}
}

// name reads a name that is looked up in the library: no path.
func name(dst *string) func(value) {
	return func(v value) {
		s, ok := v.scalar("a name is needed")
		if !ok {
			return
		}
		if why := nameFault(s); why != "" {
			v.fault(v.name+" is "+quoted(s), why)
			return
		}
		*dst = s
	}
}

// listOf reads a list of names or texts, each by read.
func listOf(dst *[]string, read func(*string) func(value)) func(value) {
	return func(v value) {
		v.list(maxEntries, func(i int) string { return ordinal("entry", i) + " of " + v.name }, func(_ int, item value) {
			var s string
			read(&s)(item)
			*dst = append(*dst, s)
		})
	}
}

// quantity reads a size, exact; parts says whether it may be in parts.
func (v value) quantity(sgn sign, parts bool) (measure.Quantity, bool) {
	want := "a length is needed, like 3/4 in or 19mm"
	if parts {
		want = "a length is needed, like 3/4 in or 2p"
	}
	s, ok := v.scalar(want)
	if !ok {
		return measure.Quantity{}, false
	}
	q, err := measure.ParseSize(s, v.d.units)
	if !parts {
		_, err = measure.ParseLength(s, v.d.units)
	}
	if err != nil {
		v.unreadable(err)
		return q, false
	}
	if v.d.unitless && isBare(s) && q.Sign() != 0 {
		v.d.unitless = false // said once
		v.fault(v.name+" is "+s+" without a unit, and the file names none", "write units: in or units: mm near the top")
	}
	return q, sgn.check(v, q.Sign())
}

// isBare reports whether a length that could be read has no unit.
func isBare(s string) bool {
	return !strings.ContainsAny(strings.ToLower(s), "abcdefghijklmnopqrstuvwxyz'\"′″”’")
}

// length reads a length in mm.
func length(dst *float64, sgn sign) func(value) {
	return func(v value) {
		if q, ok := v.quantity(sgn, false); ok {
			*dst = q.MM()
		}
	}
}

// size reads a length or a number of parts.
func size(dst *profile.Size, sgn sign) func(value) {
	return func(v value) {
		if v.node.Kind == yaml.ScalarNode && v.node.Value == "rest" {
			v.fault(v.name+" is rest", "only height and projection of an element can be the rest")
			return
		}
		sizeOf(v, dst, sgn)
	}
}

// sizeOrRest reads a length, a number of parts or the word rest.
func sizeOrRest(dst *profile.Size, sgn sign) func(value) {
	return func(v value) {
		if v.node.Kind == yaml.ScalarNode && v.node.Value == "rest" {
			*dst = profile.Rest()
			return
		}
		sizeOf(v, dst, sgn)
	}
}

func sizeOf(v value, dst *profile.Size, sgn sign) {
	q, ok := v.quantity(sgn, true)
	switch {
	case !ok:
	case q.IsParts():
		*dst = profile.Parts(q.Parts())
	default:
		*dst = profile.MM(q.MM())
	}
}

// xy reads a point [x, y] in mm.
func xy(set func(geom.Point)) func(value) {
	return pair(length, func(x, y float64) { set(geom.Pt(x, y)) })
}

// pair reads [x, y], each by read.
func pair[T any](read func(*T, sign) func(value), set func(x, y T)) func(value) {
	return func(v value) {
		if v.node.Kind != yaml.SequenceNode || len(v.node.Content) != 2 {
			v.wrong("two lengths are needed, as in [2, 1/4]")
			return
		}
		var xy [2]T
		v.list(2, func(i int) string { return []string{"x of ", "y of "}[i] + v.name }, func(i int, item value) {
			read(&xy[i], anySign)(item)
		})
		set(xy[0], xy[1])
	}
}

// number reads a plain number from low to high.
func number(dst *float64, low, high float64) func(value) {
	return func(v value) {
		s, ok := v.scalar("a number is needed")
		if !ok {
			return
		}
		r, err := measure.ParseNumber(s)
		if err != nil {
			v.unreadable(err)
			return
		}
		f, _ := r.Float64()
		if !(f >= low && f <= high) {
			v.fault(v.name+" is "+s, "it must be from "+plain(low)+" to "+plain(high))
			return
		}
		*dst = f
	}
}

// plain returns a number without an exponent.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// whole reads a whole number from low to high.
func whole(dst *int, low, high int) func(value) {
	return func(v value) {
		s, ok := v.scalar("a whole number is needed")
		if !ok {
			return
		}
		r, err := measure.ParseNumber(s)
		if err == nil && r.IsInt() && r.Cmp(big.NewRat(int64(low), 1)) >= 0 && r.Cmp(big.NewRat(int64(high), 1)) <= 0 {
			*dst = int(r.Num().Int64())
			return
		}
		v.wrong(fmt.Sprintf("it must be a whole number from %d to %d", low, high))
	}
}

// yesNo reads true or false.
func yesNo(dst *bool) func(value) {
	return func(v value) {
		switch s, _ := v.scalar("true or false"); strings.ToLower(s) {
		case "true":
			*dst = true
		case "false":
			*dst = false
		case "":
		default:
			v.wrong("true or false")
		}
	}
}

// A choice is a word of a file and what it stands for.
type choice[T any] struct {
	word string
	is   T
}

// words returns choices of a type whose values are the words themselves.
func words[T ~string](of ...T) []choice[T] {
	out := make([]choice[T], len(of))
	for i, w := range of {
		out[i] = choice[T]{string(w), w}
	}
	return out
}

// oneOf reads one of a few words.
func oneOf[T any](dst *T, of []choice[T]) func(value) {
	return func(v value) {
		names := make([]string, len(of))
		for i, c := range of {
			names[i] = c.word
		}
		s, ok := v.scalar("one of " + strings.Join(names, ", "))
		if !ok {
			return
		}
		for _, c := range of {
			if c.word == s {
				*dst = c.is
				return
			}
		}
		want := "one of " + strings.Join(names, ", ")
		if n := Near(s, names); n != "" {
			want = n + "? " + want
		}
		v.wrong(want)
	}
}

// angle reads an angle between low and high degrees, the ends not included.
func angle(dst *geom.Angle, low, high float64) func(value) {
	return func(v value) {
		s, ok := v.scalar("an angle is needed, like 38deg")
		if !ok {
			return
		}
		a, err := measure.ParseAngle(s)
		switch {
		case err != nil:
			v.unreadable(err)
		case !(a.Degrees() > low && a.Degrees() < high):
			v.fault(v.name+" is "+s, fmt.Sprintf("it must be more than %g and less than %g degrees", low, high))
		default:
			*dst = a
		}
	}
}

// percent reads a per cent from low to high.
func percent(dst *float64, low, high float64) func(value) {
	return func(v value) {
		s, ok := v.scalar("a per cent is needed, like 15%")
		if !ok {
			return
		}
		p, err := measure.ParsePercent(s)
		switch {
		case err != nil:
			v.unreadable(err)
		case !(p >= low && p <= high):
			v.fault(v.name+" is "+s, fmt.Sprintf("it must be from %g to %g per cent", low, high))
		default:
			*dst = p
		}
	}
}

// temperature reads a temperature into degrees Celsius.
func temperature(dst *float64) func(value) {
	return func(v value) {
		s, ok := v.scalar("a temperature is needed, like 70F or 21C")
		if !ok {
			return
		}
		c, err := measure.ParseTemperature(s)
		if err != nil {
			v.unreadable(err)
			return
		}
		*dst = c
	}
}
