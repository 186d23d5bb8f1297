package miter

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"listel/profile"
	"listel/profile/measure"
)

// WoodLookup returns how the named species shrinks.
type WoodLookup func(name string) (Wood, error)

// Fit returns every piece of the case's moldings and beads: lengths, end cuts and what joins them. lookup gives the sections by
// the names of their profiles; woods gives the species, and may be nil, which leaves movement out and takes any name for a wood. The error is Errors:
// all that is wrong, each with the path of its file key.
//
// A molding must be at its stage: its foot lies from the stage's floor, less the molding's own height where the stage stands on another, up to
// the stage's top, and never below the floor. A molding that seats a stage is on the stage right below that; its foot is no higher than
// the top of its own stage and the floor of its rabbet no lower.
func Fit(c Case, lookup Lookup, woods WoodLookup) (Result, error) {
	f := &fitter{Case: c, lookup: lookup, woods: woods, found: map[string]*used{}, format: measure.Format{Units: c.Units}, usual: practiceIn(c.Units)}
	plans, corners := stages(c, &f.faults)
	f.plans = plans
	drawn := len(f.list) == 0
	c.unusedCorners(corners, &f.faults)
	if !drawn {
		f.namesOnly()
		return Result{}, f.err()
	}
	f.stand()
	f.air = f.room()
	r := Result{Name: c.Name, Title: c.Title, Moldings: []MoldingResult{}, Beads: []Piece{}, Drawers: []Drawer{}}
	for i := range c.Moldings {
		r.Moldings = append(r.Moldings, f.molding(i))
	}
	f.openings(&r)
	r.Notes = append(r.Notes, f.cornerNotes()...)
	f.limit(r)
	if err := f.err(); err != nil {
		return Result{}, err
	}
	r.Stages = f.plans
	return r, nil
}

// maxPieces is the most pieces that a case may have.
const maxPieces = 2000

func (f *fitter) limit(r Result) {
	n := 0
	for _, m := range r.Moldings {
		for _, p := range m.Pieces {
			n += p.Count
		}
	}
	for _, p := range r.Beads {
		n += p.Count
	}
	if n > maxPieces {
		f.add("", "the case has %d pieces; at most %d are fitted", n, maxPieces)
	}
}

// A fitter holds what the steps of one Fit share.
type fitter struct {
	Case
	faults
	lookup   Lookup
	woods    WoodLookup
	format   measure.Format
	usual    practice
	plans    []StagePlan
	air      *air // nil when nothing is known of it
	found    map[string]*used
	prefixes []string
}

// mm prints a length in the units of the case.
func (f *fitter) mm(v float64) string { return f.format.Length(v) }

// fine prints a small length so that one that is not 0 never reads 0.
func (f *fitter) fine(v float64) string {
	switch {
	case f.Units == measure.Inches && v < 25.4/16:
		return fmt.Sprintf("%.3f in", v/25.4)
	case f.Units != measure.Inches && v < 1:
		return fmt.Sprintf("%.2f mm", v)
	}
	return f.mm(v)
}

// measured prints a small length beside fractions: 1/32 in (0.031), or 0.80 mm.
func (f *fitter) measured(v float64) string {
	if f.Units == measure.Inches {
		return f.format.Set(v)
	}
	return f.fine(v)
}

// plan returns the stage of that name, nil without one; the empty name is the only stage or the lowest.
func (f *fitter) plan(name string) *StagePlan {
	if name == "" && len(f.plans) > 0 {
		return &f.plans[0]
	}
	for i := range f.plans {
		if f.plans[i].Name == name {
			return &f.plans[i]
		}
	}
	return nil
}

// namesOnly checks what can be checked of a case whose plans are wrong: the names that it gives.
func (f *fitter) namesOnly() {
	for i, m := range f.Moldings {
		f.unknownInMolding(i, &f.faults)
		f.section(m.Profile, fmt.Sprintf("moldings[%d].profile", i))
	}
	f.unknownInOpenings(&f.faults)
	f.room()
}

// section returns the section of a profile, looked up once; nil and a fault when there is none.
func (f *fitter) section(name, path string) *used {
	if u, ok := f.found[name]; ok {
		return u
	}
	s, err := f.lookup(name)
	if err != nil {
		f.cause(path, err)
		return nil
	}
	if s.Name == "" {
		s.Name = name
	}
	if len(s.Outline) == 0 || !(s.Projection > 0 && s.Height > 0) {
		f.add(path, "profile %q has no section", name)
		return nil
	}
	f.found[name] = newUsed(s, RoleProfile)
	return f.found[name]
}

// quietly returns a section without noting a fault: the molding that asks for it does.
func (f *fitter) quietly(name string) *used {
	told := f.faults
	s := f.section(name, "")
	f.faults = told
	return s
}

// stand sets the floors of the stages: each on the one below, or in the rabbet that seats it. A molding that cannot bear the stage lifts none:
// its own fault is told when it is fitted.
func (f *fitter) stand() {
	floor := 0.0
	for i := range f.plans {
		if i > 0 {
			floor = f.floor(f.plans[i].Name, f.plans[i-1])
		}
		f.plans[i].Floor, f.plans[i].Top = floor, floor+f.Stages[i].Height
	}
}

// floor returns the height at which the stage of that name stands on the one below it.
func (f *fitter) floor(name string, below StagePlan) float64 {
	floor, seated := below.Top, false
	for i, m := range f.Moldings {
		if m.Seats != name {
			continue
		}
		s := f.quietly(m.Profile)
		if s == nil || s.Rabbet == nil || s.Rabbet.At != profile.AtTop {
			continue // a fault when the molding is fitted
		}
		rise := s.Height - s.Rabbet.Depth
		if !below.carries(m.At, rise) {
			continue
		}
		if z := m.At + rise; seated && !near(z, floor, 0.01) {
			f.add(fmt.Sprintf("moldings[%d].seats", i), "stage %s is seated twice, at %s and at %s", name, f.mm(floor), f.mm(z))
		} else {
			floor, seated = z, true
		}
	}
	return floor
}

// prefix returns the letters that mark the pieces of a molding: the first of its name, or as many of them as tell it from the
// moldings before.
func (f *fitter) prefix(name string) string {
	letters := []rune(strings.ToUpper(strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return r
		}
		return -1
	}, name)))
	if len(letters) == 0 {
		letters = []rune("M")
	}
	p := ""
	for i := 0; p == "" || slices.Contains(f.prefixes, p); i++ {
		if i < len(letters) {
			p = string(letters[0]) + strings.ToLower(string(letters[1:i+1]))
		} else {
			p += "x"
		}
	}
	f.prefixes = append(f.prefixes, p)
	return p
}
