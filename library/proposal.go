package library

import (
	"fmt"
	"strings"

	"listel/profile/measure"
)

// A Proposal asks for a case whose moldings' heights follow a rule. Width and Depth may be 0.
type Proposal struct {
	Name   string
	Rule   Rule
	Height float64 // mm, floor to the top of the cornice
	Width  float64 // mm; 0 is two thirds of the height
	Depth  float64 // mm; 0 is a quarter of the height
	Units  measure.Units
}

// The profiles that a proposed case starts from.
const (
	proposedBase    = "torus-base"
	proposedWaist   = "surbase-astragal"
	proposedCornice = "ovolo-and-cyma-cornice"
)

// Propose returns the text of a case file and the profiles that go beside it, copies of embedded ones in the heights that the rule gives, to
// the nearest 1/16 in or mm. The head of the case file says which rule that is, what it gives, and what is ours. The error
// says that the case is too small or too large.
func Propose(p Proposal) ([]byte, []Copied, error) {
	if p.Width == 0 {
		p.Width = p.Height * 2 / 3
	}
	if p.Depth == 0 {
		p.Depth = p.Height / 4
	}
	if err := validSize(p.Height, p.Width, p.Depth); err != nil {
		return nil, nil, err
	}
	step := 1.0
	if p.Units == measure.Inches {
		step = measure.MMPerInch / 16
	}
	d := p.Rule.Divide(p.Height)
	total := rounded(p.Height, step)
	w := proposalWriter{p: p, f: measure.Format{Units: p.Units}}
	w.head(d)
	lower := total
	if d.Pedestal > 0 {
		lower = rounded(d.Pedestal, step)
		w.stages(step, stageOf{"lower", lower}, stageOf{"upper", total - lower})
	} else {
		w.stages(step, stageOf{"case", total})
	}
	fmt.Fprintf(&w, "\nwood: black cherry\n\nmoldings:\n")
	base, waist, cornice := rounded(d.Base, step), rounded(d.Waist, step), rounded(d.Cornice, step)
	if err := w.molding("base", proposedBase, w.first, 0, base); err != nil {
		return nil, nil, err
	}
	if waist > 0 {
		if err := w.molding("waist", proposedWaist, w.first, lower-waist, waist); err != nil {
			return nil, nil, err
		}
	}
	if err := w.molding("cornice", proposedCornice, w.last, total-cornice, cornice); err != nil {
		return nil, nil, err
	}
	fmt.Fprintf(&w, "\nshop: {kerf: %s, rough: %s, safe: %s}\n", w.entry(defaultKerf), w.entry(defaultRough), w.entry(defaultSafe))
	return []byte(w.String()), w.profiles, nil
}

// A stageOf is a stage with its height, mm.
type stageOf struct {
	name   string
	height float64
}

// A proposalWriter writes a proposed case.
type proposalWriter struct {
	strings.Builder
	p           Proposal
	f           measure.Format
	first, last string // stages
	profiles    []Copied
}

func (w *proposalWriter) entry(mm float64) string {
	if w.p.Units == measure.Millimeters {
		mm = rounded(mm, 1)
	}
	return w.f.Entry(mm)
}

// head writes what the case is and where its heights come from.
func (w *proposalWriter) head(d Division) {
	for _, text := range w.p.Rule.words(d, w.f.Length) {
		for _, line := range Folded(text, 100) {
			fmt.Fprintf(w, "# %s\n", line)
		}
	}
	fmt.Fprintf(w, "kind: case\nname: %s\ntitle: A case after the rule %s\nunits: %s\n\n", scalarText(w.p.Name), w.p.Rule.Name, w.p.Units)
}

// stages writes the stages, all in one plan.
func (w *proposalWriter) stages(step float64, all ...stageOf) {
	w.first, w.last = all[0].name, all[len(all)-1].name
	fmt.Fprintf(w, "stages: # from the floor up; width and depth are yours to change\n")
	for _, s := range all {
		fmt.Fprintf(w, "  - {name: %s, plan: {width: %s, depth: %s}, height: %s}\n", s.name,
			w.entry(rounded(w.p.Width, step)), w.entry(rounded(w.p.Depth, step)), w.entry(s.height))
	}
}

// molding writes a molding with a profile of its own, a copy of the named one in another height.
func (w *proposalWriter) molding(name, from, stage string, at, height float64) error {
	l := Open("", "")
	c, err := l.Copy(from, w.p.Name+"-"+name)
	if err != nil {
		return err
	}
	if w.p.Units == measure.Millimeters {
		if c.Text, err = SetKey(c.Text, "units", "mm"); err != nil {
			return err
		}
	}
	if c, err = l.WithHeight(c, height); err != nil {
		return err
	}
	w.profiles = append(w.profiles, c)
	fmt.Fprintf(w, "  - {name: %s, on: %s, profile: %s, at: %s, runs: [left, front, right], ends: wall} # %s high, from %s\n",
		name, stage, Scalar(c.Name), w.entry(at), w.f.Length(height), from)
	return nil
}
