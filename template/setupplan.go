package template

import (
	"listel/profile"
	"listel/profile/measure"
	"listel/template/cutter"
)

// A SetupPlan is the set-ups of one section, as its sheets are drawn from.
type SetupPlan struct {
	Section profile.Section
	Plan    cutter.Result
	Tools   []cutter.Tool // the set that was at hand
	Set     string        // its title
	Gouge   float64       // mm, the deepest that a replay of the plan found any cut go into the section
	Left    float64       // mm, the most that it found left, places that no tool reaches not counted
	Stays   float64       // mm, the most wood that it found in those
	Safe    float64       // mm, the shortest stick that the shop holds at a machine by hand, 0 where it has said nothing
	Faults  []string      // what the replay holds against the plan, none when it is good
}

// cautions returns the usual ones for the plan's machines, lengths in f.
func (p SetupPlan) cautions(f measure.Format) []string { return p.Plan.CautionWords(f, p.Safe) }

// tool returns the tool of that name; the zero Tool when the set has none.
func (p SetupPlan) tool(name string) cutter.Tool {
	for _, t := range p.Tools {
		if t.Name == name {
			return t
		}
	}
	return cutter.Tool{Name: name}
}
