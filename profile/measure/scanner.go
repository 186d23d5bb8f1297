package measure

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	maxRunes  = 40 // no sensible length is written longer
	maxDigits = 24 // digits in a row; more than any float64 prints
)

// A scanner walks over a text whose spaces, dashes, quotes and slashes have been made plain by newScanner.
type scanner struct {
	in  []rune
	pos int
}

// plain maps the many forms of one sign to the one the scanner knows.
var plain = map[rune]rune{
	'\u2212': '-', '\u2010': '-', '\u2011': '-', '\u2012': '-', '\u2013': '-', // minus sign, hyphens, dashes
	'\u2044': '/', '\u2215': '/', // fraction slash, division slash
	'\u2032': '\'', '\u2018': '\'', '\u2019': '\'', '\u02b9': '\'', // prime, single quotes
	'\u2033': '"', '\u201c': '"', '\u201d': '"', '\u02ba': '"', // double prime, double quotes
	'\u00ba': '°', '\u02da': '°', // the ordinal and the ring that stand in for a degree sign
}

// newScanner returns a scanner over text in lower case, or the reason why text cannot be read at all.
func newScanner(text string) (*scanner, string) {
	text = strings.TrimSpace(text)
	switch {
	case text == "":
		return nil, "it is empty"
	case !utf8.ValidString(text):
		return nil, "it is not valid UTF-8 text"
	case utf8.RuneCountInString(text) > maxRunes:
		return nil, "it is longer than " + strconv.Itoa(maxRunes) + " characters"
	}
	in := []rune(text)
	for i, r := range in {
		if p, ok := plain[r]; ok {
			in[i] = p
		} else if unicode.IsSpace(r) {
			in[i] = ' '
		} else {
			in[i] = unicode.ToLower(r)
		}
	}
	return &scanner{in: in}, ""
}

// peek returns the rune at the position plus ahead, 0 past the end.
func (s *scanner) peek(ahead int) rune {
	if s.pos+ahead < len(s.in) {
		return s.in[s.pos+ahead]
	}
	return 0
}

// take moves past r and reports whether it was there.
func (s *scanner) take(r rune) bool {
	if s.peek(0) != r {
		return false
	}
	s.pos++
	return true
}

// spaces moves past blanks and reports whether there were any.
func (s *scanner) spaces() bool {
	from := s.pos
	for s.take(' ') {
	}
	return s.pos > from
}

// done moves past blanks and reports whether the text is used up.
func (s *scanner) done() bool {
	s.spaces()
	return s.pos == len(s.in)
}

// rest returns what has not been read.
func (s *scanner) rest() string { return strings.TrimSpace(string(s.in[s.pos:])) }

// sign moves past a leading sign and reports whether it negates.
func (s *scanner) sign() bool {
	s.spaces()
	if s.take('-') {
		s.spaces()
		return true
	}
	if s.take('+') {
		s.spaces()
	}
	return false
}

// digits returns the run of digits at the position, which may be empty.
func (s *scanner) digits() string {
	from := s.pos
	for r := s.peek(0); r >= '0' && r <= '9'; r = s.peek(0) {
		s.pos++
	}
	return string(s.in[from:s.pos])
}

// word returns the unit at the position, blanks before it skipped: letters, without the hyphen of 3/4-in or the
// period of an abbreviation, or one of the signs for inches, feet, degrees and per cent. It is empty when there
// is none.
func (s *scanner) word() string {
	s.spaces()
	switch r := s.peek(0); r {
	case '\'':
		s.pos++
		if s.take('\'') { // two single quotes are an inch mark
			return `"`
		}
		return "'"
	case '"', '°', '%':
		s.pos++
		return string(r)
	}
	if s.peek(0) == '-' && unicode.IsLetter(s.peek(1)) {
		s.pos++
	}
	from := s.pos
	for unicode.IsLetter(s.peek(0)) {
		s.pos++
	}
	w := string(s.in[from:s.pos])
	if r := s.peek(1); w != "" && (r < '0' || r > '9') { // 2ft.5 is left for an error
		s.take('.')
	}
	return w
}
