package library

import (
	"errors"
	"fmt"
	"math"
)

// A Rule divides the height of a case as a published order divides its own. All its numbers are parts of a whole.
type Rule struct {
	Name, Title string
	Source      string
	Ours        string // what the source does not say and we have taken, for base, waist and cornice together

	pedestal    float64 // of the whole height; 0 for none
	entablature float64 // of what stands on the pedestal
	diameters   float64 // of the column in its own height
	base        float64 // of the diameter
	cornice     float64 // of the entablature
	projection  float64 // of the base's height by which it stands out; 0 when not given
}

// A Division is a height divided by a rule, in mm.
type Division struct {
	Pedestal, Column, Entablature, Diameter float64 // Pedestal is 0 where the rule has none
	Base, Cornice                           float64 // heights of the moldings
	BaseProjection                          float64 // 0 when the rule does not give it
	Waist                                   float64 // height of the molding at the pedestal's top; 0 where there is none
}

const (
	director = "T. Chippendale, The Gentleman and Cabinet-Maker's Director (1754), pp. 1-3, "
	baseOurs = "the column's base gives the height of the case's base; the waist, at the pedestal's top, is half as high as that"
)

// Rules returns the rules there are: those of Chippendale, Ware and Vignola that divide a whole height. It is a new list each time.
func Rules() []Rule {
	return []Rule{
		{Name: "chippendale-tuscan", Title: "Tuscan order with its pedestal", Source: director + "pl. I, and pl. VI for the base's projection; the cornice within the entablature: W. R. Ware, The American Vignola (1920), p. 9",
			Ours: baseOurs, pedestal: 1.0 / 5, entablature: 1.0 / 5, diameters: 7, base: 1.0 / 2, cornice: 3.0 / 7, projection: 1.0 / 3},
		{Name: "chippendale-doric", Title: "Doric order with its pedestal", Source: director + "pl. II, and pl. VI for the base's projection; the cornice within the entablature: W. R. Ware, The American Vignola (1920), p. 14",
			Ours: baseOurs, pedestal: 1.0 / 5, entablature: 1.0 / 5, diameters: 8, base: 1.0 / 2, cornice: 3.0 / 8, projection: 1.0 / 3},
		{Name: "chippendale-ionic", Title: "Ionic order with its pedestal", Source: director + "pl. III, and pl. VI for the base's projection",
			Ours: baseOurs + "; the cornice is two fifths of the entablature", pedestal: 1.0 / 5, entablature: 1.0 / 6, diameters: 9, base: 1.0 / 2, cornice: 2.0 / 5, projection: 1.0 / 3},
		{Name: "chippendale-corinthian", Title: "Corinthian order with its pedestal", Source: director + "pl. IV, and pl. VI for the base's projection",
			Ours: baseOurs + "; the cornice is two fifths of the entablature", pedestal: 1.0 / 5, entablature: 1.0 / 5, diameters: 10, base: 1.0 / 2, cornice: 2.0 / 5, projection: 1.0 / 3},
		{Name: "ware-tuscan", Title: "Tuscan column and entablature", Source: "W. R. Ware, The American Vignola (1920 printing), p. 9",
			Ours: "the column's base gives the height of the case's base; the rule has no pedestal, so there is no waist", entablature: 7.0 / 35, diameters: 7, base: 1.0 / 2, cornice: 3.0 / 7},
		{Name: "vignola-doric", Title: "Doric column and entablature, in 20 modules", Source: "Vignola, Canon of the Five Orders (1572), an extract at vitruvius.be",
			Ours: "the column's base gives the height of the case's base; the rule has no pedestal, so there is no waist", entablature: 4.0 / 20, diameters: 8, base: 1.0 / 2, cornice: 1.5 / 4},
	}
}

// RuleNamed returns the rule of that name; the error is a *NotFoundError.
func RuleNamed(name string) (Rule, error) {
	var names []string
	for _, r := range Rules() {
		if r.Name == name {
			return r, nil
		}
		names = append(names, r.Name)
	}
	return Rule{}, &NotFoundError{"rule", name, Near(name, names)}
}

// Divide divides a height in mm, more than 0.
func (r Rule) Divide(height float64) Division {
	d := Division{Pedestal: height * r.pedestal}
	rest := height - d.Pedestal
	d.Entablature = rest * r.entablature
	d.Column = rest - d.Entablature
	d.Diameter = d.Column / r.diameters
	d.Base, d.Cornice = d.Diameter*r.base, d.Entablature*r.cornice
	d.BaseProjection = d.Base * r.projection
	if d.Pedestal > 0 {
		d.Waist = d.Base / 2
	}
	return d
}

// ErrCaseTooSmall says that a case is too small for moldings after a rule.
var ErrCaseTooSmall = errors.New("the case is too small for moldings after this rule; a height of 400 mm or more would do")

// leastProposed is the least height of a case that a rule is used on, mm: below it the members of a base are thinner than can be cut.
const leastProposed = 400.0

// validSize returns an error for a case too small or too large to be proposed.
func validSize(height, width, depth float64) error {
	const most = 20000.0
	switch {
	case !(height >= leastProposed):
		return ErrCaseTooSmall
	case !(width >= 100 && depth >= 100):
		return errors.New("the case must be 100 mm wide and deep at the least")
	case !(max(height, width, depth) <= most):
		return errors.New("the case is too large; the limit is 20 m")
	}
	return nil
}

// rounded returns mm to the nearest step.
func rounded(mm, step float64) float64 { return math.Round(mm/step) * step }

// words is what the division is, in words, for the head of a case file.
func (r Rule) words(d Division, length func(float64) string) []string {
	out := []string{
		"A starting point for the heights, after: " + r.Source + ".",
		fmt.Sprintf("%s: column %s, of %g diameters of %s; entablature %s.", r.Title, length(d.Column), r.diameters, length(d.Diameter), length(d.Entablature)),
		fmt.Sprintf("Base %s, cornice %s.", length(d.Base), length(d.Cornice)),
	}
	if d.Pedestal > 0 {
		out = append(out, fmt.Sprintf("Pedestal %s, the height of the lower stage; waist %s.", length(d.Pedestal), length(d.Waist)))
	}
	if d.BaseProjection > 0 {
		out = append(out, fmt.Sprintf("The rule lets the base stand out by %s; the profile here keeps its own projection.", length(d.BaseProjection)))
	}
	return append(out, "Ours, not the source's: "+r.Ours+".", "Trust your eye before any of it.")
}
