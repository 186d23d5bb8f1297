package measure

import (
	"math/big"
	"strings"
)

// ParseNumber reads a plain number exactly, with a sign or without: 3, 0.88, 7/8, 1 1/4, ⅔. Anything else gives
// a *ValueError.
func ParseNumber(text string) (*big.Rat, error) {
	s, why := newScanner(text)
	if why == "" {
		negative := s.sign()
		var n *big.Rat
		if n, why = s.number(); why == "" {
			if !s.done() {
				why = s.leftover()
			} else if negative {
				return n.Neg(n), nil
			} else {
				return n, nil
			}
		}
	}
	return nil, &ValueError{What: "number", Text: text, Reason: why, Want: "it like 3, 0.88, 7/8 or 1 1/4"}
}

// maxPercent bounds per cents.
const maxPercent = 1000

// ParsePercent reads a per cent from 0 to 1000, with or without its sign, and returns the number before the sign:
// 15 for 15%, 15 and 15 per cent. Anything else gives a *ValueError.
func ParsePercent(text string) (float64, error) {
	s, why := newScanner(text)
	if why == "" {
		var r *big.Rat
		if r, why = s.percent(); why == "" {
			f, _ := r.Float64()
			return f, nil
		}
	}
	return 0, &ValueError{What: "per cent", Text: text, Reason: why, Want: "it like 15% or 12 1/2%"}
}

func (s *scanner) percent() (*big.Rat, string) {
	if s.sign() {
		return nil, "it must not be negative"
	}
	n, why := s.number()
	if why != "" {
		return nil, why
	}
	w := s.word()
	if w == "per" {
		w += s.word()
	}
	switch {
	case w != "" && w != "%" && w != "percent":
		return nil, "the unit " + quote(w) + " is not known"
	case !s.done():
		return nil, s.leftover()
	case n.Cmp(big.NewRat(maxPercent, 1)) > 0:
		return nil, "it is over the limit of 1000%"
	}
	return n, ""
}

// The temperatures that are read, in degrees Celsius: wider than any shop or drying kiln.
const (
	minCelsius = -100
	maxCelsius = 200
)

// ParseTemperature reads a temperature in degrees Fahrenheit or Celsius, as in 70F, 70 °F, 21C or 21 deg C, and
// returns it in degrees Celsius, from -100 to 200. The scale must be named. Anything else gives a *ValueError.
func ParseTemperature(text string) (celsius float64, err error) {
	s, why := newScanner(text)
	if why == "" {
		var r *big.Rat
		if r, why = s.temperature(); why == "" {
			f, _ := r.Float64()
			return f, nil
		}
	}
	return 0, &ValueError{What: "temperature", Text: text, Reason: why, Want: "it like 70F or 21C"}
}

// scales maps what is written for a scale to its first letter.
var scales = map[string]string{
	"f": "F", "fahrenheit": "F", "℉": "F", "c": "C", "celsius": "C", "℃": "C", "": "",
	"degf": "F", "degc": "C",
}

func (s *scanner) temperature() (*big.Rat, string) {
	negative := s.sign()
	n, why := s.number()
	if why != "" {
		return nil, why
	}
	w := s.scale()
	scale, ok := scales[w]
	switch {
	case !ok:
		return nil, "the scale " + quote(w) + " is not known"
	case !s.done():
		return nil, s.leftover()
	case scale == "":
		return nil, "it does not say Fahrenheit or Celsius"
	}
	if negative {
		n.Neg(n)
	}
	if scale == "F" { // C = (F - 32) 5/9, exact by definition (NIST SP 811, from memory)
		n.Sub(n, big.NewRat(32, 1)).Mul(n, big.NewRat(5, 9))
	}
	if n.Cmp(big.NewRat(minCelsius, 1)) < 0 || n.Cmp(big.NewRat(maxCelsius, 1)) > 0 {
		return nil, "it is outside the limits of -100 C and 200 C"
	}
	return n, ""
}

// scale reads the name of a temperature scale, with or without the word or sign for degrees before it.
func (s *scanner) scale() string {
	s.spaces()
	if r := s.peek(0); r == '℉' || r == '℃' {
		s.pos++
		return string(r)
	}
	w := s.word()
	switch strings.TrimSuffix(w, "s") {
	case "°", "deg", "degree":
		w = s.word()
	}
	return w
}
