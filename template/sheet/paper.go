package sheet

import (
	"fmt"
	"strings"
)

// A Paper is a sheet of paper as it lies before the reader.
type Paper struct {
	Name          string  // "A4", "ANSI B", or the user's own
	Width, Height float64 // mm, across and up; from 20 mm to maxPaper
}

// maxPaper is the longest side that a PDF page may have, mm: 200 in.
const maxPaper = 5080

const inch = 25.4

// papers are the standard sheets, upright. ISO 216 A series in mm; ASME Y14.1 drawing sizes, and the architects'
// sizes, in inches.
var papers = [...]Paper{
	{"A0", 841, 1189}, {"A1", 594, 841}, {"A2", 420, 594}, {"A3", 297, 420}, {"A4", 210, 297}, {"A5", 148, 210},
	{"A6", 105, 148}, {"A7", 74, 105}, {"A8", 52, 74}, {"A9", 37, 52}, {"A10", 26, 37},
	{"Letter", 8.5 * inch, 11 * inch}, {"Legal", 8.5 * inch, 14 * inch}, {"Tabloid", 11 * inch, 17 * inch},
	{"ANSI A", 8.5 * inch, 11 * inch}, {"ANSI B", 11 * inch, 17 * inch}, {"ANSI C", 17 * inch, 22 * inch},
	{"ANSI D", 22 * inch, 34 * inch}, {"ANSI E", 34 * inch, 44 * inch}, {"ANSI F", 28 * inch, 40 * inch},
	{"Arch A", 9 * inch, 12 * inch}, {"Arch B", 12 * inch, 18 * inch}, {"Arch C", 18 * inch, 24 * inch},
	{"Arch D", 24 * inch, 36 * inch}, {"Arch E", 36 * inch, 48 * inch},
}

// A PaperError says that a paper's name is none of the standard ones.
type PaperError struct{ Name string }

// Error returns the name and all that are known.
func (e *PaperError) Error() string {
	return fmt.Sprintf("unknown paper %q; known are %s", e.Name, strings.Join(PaperNames(), ", "))
}

// PaperNamed returns the standard paper of that name, upright. Capitals, spaces and dashes do not matter, and a
// name may end in landscape or portrait: "A4", "ansi-b", "Letter landscape". The error is a *PaperError.
func PaperNamed(name string) (Paper, error) {
	key := paperKey(name)
	key, lying := strings.CutSuffix(key, "landscape")
	key = strings.TrimSuffix(key, "portrait")
	for _, p := range papers {
		if paperKey(p.Name) != key {
			continue
		}
		if lying {
			return p.Landscape(), nil
		}
		return p, nil
	}
	return Paper{}, &PaperError{name}
}

// PaperNames returns the names of the standard papers.
func PaperNames() []string {
	names := make([]string, len(papers))
	for i, p := range papers {
		names[i] = p.Name
	}
	return names
}

func paperKey(name string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(name))
}

// Landscape returns the paper lying on its long side.
func (p Paper) Landscape() Paper {
	if p.Width < p.Height {
		p.Width, p.Height = p.Height, p.Width
	}
	return p
}

// check returns an error for a paper too small or too large to print.
func (p Paper) check() error {
	ok := func(v float64) bool { return v >= 20 && v <= maxPaper }
	if !ok(p.Width) || !ok(p.Height) {
		return fmt.Errorf("paper %s is %s x %s mm; each side must be from 20 to %d mm", p.Name, num(p.Width, 1), num(p.Height, 1), maxPaper)
	}
	return nil
}
