package sheettest

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"listel/profile/geom"
)

// A state is what q saves and Q brings back.
type state struct {
	matrix       geom.Affine // user space to mm on the page
	pen          float64     // in user space
	dashes       []float64
	stroke, fill float64 // gray
}

// A machine runs the operators of a page.
type machine struct {
	file      *File
	resources Dict
	page      Page
	stack     []any
	now       state
	saved     []state
	runs      []Run
	text      geom.Affine // text space to user space
	font      map[int]string
	size      float64
	inText    bool
}

// numbers returns the operands as n numbers.
func (m *machine) numbers(n int) ([]float64, error) {
	if len(m.stack) != n {
		return nil, fmt.Errorf("%d operands where %d belong", len(m.stack), n)
	}
	out := make([]float64, n)
	for i, v := range m.stack {
		f, ok := v.(float64)
		if !ok {
			return nil, fmt.Errorf("operand %v is no number", v)
		}
		out[i] = f
	}
	return out, nil
}

// operands are how many numbers each operator takes.
var operands = map[string]int{
	"m": 2, "l": 2, "c": 6, "re": 4, "h": 0, "cm": 6, "w": 1, "g": 1, "G": 1, "J": 1, "j": 1, "M": 1,
	"Td": 2, "Tm": 6, "Tr": 1, "Tc": 1, "q": 0, "Q": 0, "BT": 0, "ET": 0, "n": 0, "W": 0,
	"S": 0, "s": 0, "f": 0, "f*": 0, "B": 0, "B*": 0, "b": 0, "b*": 0,
}

func (m *machine) run(op string) error {
	switch op {
	case "d":
		return m.dash()
	case "Tf":
		return m.setFont()
	case "TJ":
		return m.show()
	case "Do":
		m.page.Pictures++
		return nil
	case "gs":
		return nil
	}
	n, known := operands[op]
	if !known {
		return errors.New("not known")
	}
	v, err := m.numbers(n)
	if err != nil {
		return err
	}
	switch op {
	case "m", "l", "c", "re", "h":
		return m.build(op, v)
	case "S", "s", "f", "f*", "B", "B*", "b", "b*", "n":
		return m.paint(op)
	case "Td", "Tm", "BT", "ET":
		return m.moveText(op, v)
	}
	switch op {
	case "cm":
		m.now.matrix = geom.Affine{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}.Then(m.now.matrix)
	case "w":
		m.now.pen = v[0]
	case "g":
		m.now.fill = v[0]
	case "G":
		m.now.stroke = v[0]
	case "q":
		m.saved = append(m.saved, m.now)
	case "Q":
		if len(m.saved) == 0 {
			return errors.New("nothing to restore")
		}
		m.now, m.saved = m.saved[len(m.saved)-1], m.saved[:len(m.saved)-1]
	}
	return nil
}

func (m *machine) dash() error {
	if len(m.stack) != 2 {
		return errors.New("two operands belong")
	}
	list, ok := m.stack[0].([]any)
	if !ok || m.stack[1] != 0.0 {
		return errors.New("no dash array with phase 0")
	}
	m.now.dashes = nil
	for _, v := range list {
		f, ok := v.(float64)
		if !ok {
			return errors.New("a dash is no number")
		}
		m.now.dashes = append(m.now.dashes, f*m.scale())
	}
	return nil
}

// scale returns mm to the unit of user space.
func (m *machine) scale() float64 { return math.Sqrt(math.Abs(m.now.matrix.Det())) }

func (m *machine) build(op string, v []float64) error {
	at := func(i int) geom.Point { return m.now.matrix.Apply(geom.Pt(v[i], v[i+1])) }
	if op == "m" {
		m.runs = append(m.runs, Run{Start: at(0)})
		return nil
	}
	if op == "re" {
		x, y, w, h := v[0], v[1], v[2], v[3]
		p := func(x, y float64) geom.Point { return m.now.matrix.Apply(geom.Pt(x, y)) }
		m.runs = append(m.runs, Run{p(x, y), []Curve{{End: p(x+w, y)}, {End: p(x+w, y+h)}, {End: p(x, y+h)}}, true})
		return nil
	}
	if len(m.runs) == 0 {
		return errors.New("no current point")
	}
	r := &m.runs[len(m.runs)-1]
	switch op {
	case "l":
		r.Curves = append(r.Curves, Curve{End: at(0)})
	case "c":
		r.Curves = append(r.Curves, Curve{at(0), at(2), at(4), true})
	case "h":
		r.Closed = true
	}
	return nil
}

func (m *machine) paint(op string) error {
	if op != "n" {
		p := Path{Runs: m.runs, Width: m.now.pen * m.scale(), Dashes: m.now.dashes, Gray: m.now.stroke}
		p.Stroked = strings.ContainsAny(op, "SsBb")
		p.Filled = strings.ContainsAny(op, "fBb")
		p.EvenOdd = strings.HasSuffix(op, "*")
		if strings.ContainsAny(op, "sb") && len(p.Runs) > 0 {
			p.Runs[len(p.Runs)-1].Closed = true
		}
		if !p.Stroked {
			p.Gray = m.now.fill
		}
		m.page.Paths = append(m.page.Paths, p)
	}
	m.runs = nil
	return nil
}

func (m *machine) moveText(op string, v []float64) error {
	switch op {
	case "BT":
		m.inText, m.text = true, geom.Identity()
	case "ET":
		m.inText = false
	case "Td":
		m.text = geom.Translation(geom.Pt(v[0], v[1])).Then(m.text)
	case "Tm":
		m.text = geom.Affine{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}
	}
	return nil
}

// setFont reads the font's table from codes to characters.
func (m *machine) setFont() error {
	if len(m.stack) != 2 {
		return errors.New("two operands belong")
	}
	name, _ := m.stack[0].(Name)
	m.size, _ = m.stack[1].(float64)
	fonts, _ := m.file.dict(m.resources["Font"])
	font, ok := m.file.dict(fonts[name])
	if !ok {
		return fmt.Errorf("font %s is no resource", name)
	}
	table, err := m.file.Unpack(font["ToUnicode"])
	if err != nil {
		return fmt.Errorf("font %s: %w", name, err)
	}
	m.font = map[int]string{}
	s := &scanner{b: table}
	var args []any
	for {
		v, err := s.next()
		if errors.Is(err, errEnd) {
			return nil
		}
		if err != nil {
			return err
		}
		switch v {
		case Operator("beginbfchar"), Operator("beginbfrange"):
			args = nil
		case Operator("endbfchar"):
			for i := 0; i+1 < len(args); i += 2 {
				m.font[code(args[i])] = string(rune(code(args[i+1])))
			}
		case Operator("endbfrange"):
			for i := 0; i+2 < len(args); i += 3 {
				for c := code(args[i]); c <= code(args[i+1]); c++ {
					m.font[c] = string(rune(code(args[i+2]) + c - code(args[i])))
				}
			}
		default:
			args = append(args, v)
		}
	}
}

// code returns the number that a string of bytes stands for.
func code(v any) int {
	b, _ := v.([]byte)
	n, err := strconv.ParseUint(fmt.Sprintf("%x", b), 16, 32)
	if err != nil {
		return -1
	}
	return int(n)
}

func (m *machine) show() error {
	if !m.inText || len(m.stack) != 1 {
		return errors.New("no text object, or not one operand")
	}
	parts, ok := m.stack[0].([]any)
	if !ok {
		return errors.New("no array")
	}
	words := ""
	for _, p := range parts {
		b, ok := p.([]byte)
		for i := 0; ok && i+1 < len(b); i += 2 {
			c, known := m.font[int(b[i])<<8|int(b[i+1])]
			if !known {
				return fmt.Errorf("code %x has no character", b[i:i+2])
			}
			words += c
		}
	}
	at := m.now.matrix.Apply(m.text.Apply(geom.Point{}))
	m.page.Texts = append(m.page.Texts, Text{words, at, m.size * m.scale() * PointsPerMM})
	return nil
}
