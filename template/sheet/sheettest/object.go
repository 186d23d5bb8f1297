package sheettest

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
)

// The kinds of PDF object: nil, bool, float64, Name, []byte (a string), []any, Dict, Ref, Stream, and Operator in
// page content.
type (
	Name     string
	Operator string
	Dict     map[Name]any
	Ref      int
)

// A Stream is a dictionary with data, still packed.
type Stream struct {
	Dict Dict
	Data []byte
}

// A scanner reads objects from bytes.
type scanner struct {
	b  []byte
	at int
}

var errEnd = errors.New("end of data")

func isSpace(c byte) bool { return c == 0 || c == 9 || c == 10 || c == 12 || c == 13 || c == 32 }
func isDelimiter(c byte) bool {
	return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0
}

func (s *scanner) skip() {
	for s.at < len(s.b) {
		switch c := s.b[s.at]; {
		case isSpace(c):
			s.at++
		case c == '%':
			for s.at < len(s.b) && s.b[s.at] != '\n' && s.b[s.at] != '\r' {
				s.at++
			}
		default:
			return
		}
	}
}

// word reads to the next space or delimiter.
func (s *scanner) word() string {
	from := s.at
	for s.at < len(s.b) && !isSpace(s.b[s.at]) && !isDelimiter(s.b[s.at]) {
		s.at++
	}
	return string(s.b[from:s.at])
}

// next reads one object, or an Operator. At the end it returns errEnd.
func (s *scanner) next() (any, error) {
	s.skip()
	if s.at >= len(s.b) {
		return nil, errEnd
	}
	switch c := s.b[s.at]; {
	case c == '/':
		s.at++
		return Name(s.word()), nil
	case c == '(':
		return s.text()
	case c == '[':
		s.at++
		return s.array()
	case c == '<' && s.at+1 < len(s.b) && s.b[s.at+1] == '<':
		s.at += 2
		return s.dict()
	case c == '<':
		return s.hex()
	case isDelimiter(c):
		return nil, fmt.Errorf("unexpected %q at byte %d", c, s.at)
	}
	w := s.word()
	switch w {
	case "true", "false":
		return w == "true", nil
	case "null":
		return nil, nil
	}
	if v, err := strconv.ParseFloat(w, 64); err == nil {
		return s.reference(v), nil
	}
	return Operator(w), nil
}

// reference turns "n 0 R" into a Ref, when that follows a number.
func (s *scanner) reference(v float64) any {
	back := s.at
	s.skip()
	if s.word() == "0" {
		s.skip()
		if s.word() == "R" {
			return Ref(int(v))
		}
	}
	s.at = back
	return v
}

func (s *scanner) array() (any, error) {
	out := []any{}
	for {
		s.skip()
		if s.at < len(s.b) && s.b[s.at] == ']' {
			s.at++
			return out, nil
		}
		v, err := s.next()
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
}

func (s *scanner) dict() (any, error) {
	out := Dict{}
	for {
		s.skip()
		if bytes.HasPrefix(s.b[s.at:], []byte(">>")) {
			s.at += 2
			return out, nil
		}
		k, err := s.next()
		if err != nil {
			return nil, err
		}
		key, ok := k.(Name)
		if !ok {
			return nil, fmt.Errorf("dictionary key %v is no name", k)
		}
		if out[key], err = s.next(); err != nil {
			return nil, err
		}
	}
}

func (s *scanner) hex() (any, error) {
	end := bytes.IndexByte(s.b[s.at:], '>')
	if end < 0 {
		return nil, errEnd
	}
	digits := append([]byte(nil), s.b[s.at+1:s.at+end]...)
	s.at += end + 1
	if len(digits)%2 == 1 {
		digits = append(digits, '0')
	}
	out := make([]byte, len(digits)/2)
	for i := range out {
		v, err := strconv.ParseUint(string(digits[2*i:2*i+2]), 16, 8)
		if err != nil {
			return nil, err
		}
		out[i] = byte(v)
	}
	return out, nil
}

func (s *scanner) text() (any, error) {
	var out []byte
	depth := 0
	for ; s.at < len(s.b); s.at++ {
		switch c := s.b[s.at]; c {
		case '(':
			if depth++; depth == 1 {
				continue
			}
		case ')':
			if depth--; depth == 0 {
				s.at++
				return append([]byte{}, out...), nil
			}
		case '\\':
			s.at++
			if s.at >= len(s.b) {
				return nil, errEnd
			}
			e := s.b[s.at]
			if i := bytes.IndexByte([]byte("nrtbf"), e); i >= 0 {
				e = "\n\r\t\b\f"[i]
			}
			out = append(out, e)
			continue
		}
		out = append(out, s.b[s.at])
	}
	return nil, errEnd
}
