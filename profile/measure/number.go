package measure

import (
	"math/big"
	"strings"
)

// vulgar holds the fraction characters of Unicode.
var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6}, '⅐': {1, 7},
	'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10}, '↉': {0, 3},
}

// overOne is the character 1/ that a denominator follows.
const overOne = '\u215f'

// maxPart is the most digits in a numerator or denominator.
const maxPart = 9

// number reads a number without a sign: whole, decimal, fraction or whole number with fraction; or returns the reason why there is none.
func (s *scanner) number() (*big.Rat, string) {
	s.spaces()
	if r, why := s.fraction(); r != nil || why != "" {
		return r, why
	}
	whole := s.digits()
	if len(whole) > maxDigits {
		return nil, "it has too many digits"
	}
	if s.peek(0) == '.' {
		return s.decimal(whole)
	}
	if whole == "" {
		return nil, s.noNumber()
	}
	n, _ := new(big.Rat).SetString(whole)
	before := s.pos
	joined := s.spaces() || s.joint() || vulgarAt(s.peek(0))
	if !joined {
		return n, ""
	}
	f, why := s.fraction()
	switch {
	case why != "":
		return nil, why
	case f == nil:
		s.pos = before
		return n, ""
	case f.Num().Cmp(f.Denom()) >= 0:
		return nil, "the fraction after a whole number must be less than 1"
	}
	return n.Add(n, f), ""
}

// joint moves past the hyphen between a whole number and its fraction, as in 1-1/8.
func (s *scanner) joint() bool {
	r := s.peek(1)
	if s.peek(0) == '-' && (r >= '0' && r <= '9' || vulgarAt(r)) {
		s.pos++
		return true
	}
	return false
}

func vulgarAt(r rune) bool {
	_, ok := vulgar[r]
	return ok || r == overOne
}

// fraction reads a fraction; it returns nil and stays where it is when there is none, and the reason when there
// is one that will not do.
func (s *scanner) fraction() (*big.Rat, string) {
	if v, ok := vulgar[s.peek(0)]; ok {
		s.pos++
		return big.NewRat(v[0], v[1]), ""
	}
	before := s.pos
	num := "1"
	if !s.take(overOne) {
		num = s.digits()
		s.spaces()
		if num == "" || !s.take('/') {
			s.pos = before
			return nil, ""
		}
	}
	s.spaces()
	den := s.digits()
	switch {
	case den == "":
		return nil, "the fraction has no denominator"
	case len(num) > maxPart || len(den) > maxPart:
		return nil, "it has too many digits"
	case strings.Trim(den, "0") == "":
		return nil, "the denominator is 0"
	case s.peek(0) == '.':
		return nil, "a fraction is made of whole numbers"
	}
	r, _ := new(big.Rat).SetString(num + "/" + den)
	return r, ""
}

// decimal reads the point and what follows it.
func (s *scanner) decimal(whole string) (*big.Rat, string) {
	s.pos++
	places := s.digits()
	switch {
	case whole == "" && places == "":
		return nil, "a decimal point needs digits"
	case len(places) > maxDigits:
		return nil, "it has too many digits"
	case s.peek(0) == '/':
		return nil, "a fraction is made of whole numbers"
	}
	r, _ := new(big.Rat).SetString("0" + whole + "." + places + "0")
	return r, ""
}

// noNumber says what stands where a number should.
func (s *scanner) noNumber() string {
	switch rest := s.rest(); {
	case rest == "":
		return "the number is missing"
	case strings.HasPrefix(rest, "nan"), strings.HasPrefix(rest, "inf"), strings.HasPrefix(rest, "∞"):
		return "it is not a finite number"
	case rest[0] == '-' || rest[0] == '+':
		return "it has two signs"
	default:
		return "a number should stand where " + quote(rest) + " stands"
	}
}

// leftover says why what stands behind a number and its unit cannot be read.
func (s *scanner) leftover() string {
	s.spaces()
	r, next := s.peek(0), s.peek(1)
	switch {
	case r == ',':
		return "it has a comma; decimals take a point, thousands nothing"
	case r == '+' || r == '-' && (next == 0 || next == ' ' || next == '"'):
		return "the " + string(r) + " behind the number marks a rounded length; leave it out or give the length exactly"
	}
	return quote(s.rest()) + " is left over"
}
