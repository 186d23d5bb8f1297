package job

import (
	"context"
	"fmt"

	"listel/library"
	"listel/profile"
	"listel/template"
)

// A Planning is what the set-ups of a case are planned with, and who is told of it.
type Planning struct {
	Shop  Shop
	Tools library.ToolSet
	Cache Cache                                      // of finished plans, nil for none
	Start func(n int) (at func(i int, stage string)) // told how many plans begin; nil is told nothing
}

// Blanks returns the case with the blank of every sprung molding decided: as the shop chooses, else as the case says, else as its set-ups come out
// better, which are planned for that.
func (c Case) Blanks(ctx context.Context, p Planning) (Case, error) {
	c = c.chosen(p.Shop)
	var open []profile.Section
	for _, s := range c.molded() {
		if undecided(s) {
			open = append(open, s)
		}
	}
	if len(open) == 0 {
		return c, nil
	}
	plans, _, err := c.plans(ctx, open, p)
	return c.made(plans), err
}

// molded returns the sections that the case's pieces are molded to.
func (c Case) molded() []profile.Section { return template.Job{Result: c.Result}.Molded() }

// undecided reports whether nobody has said from which blank a section is made, and it matters.
func undecided(s profile.Section) bool { return s.Spring != nil && s.BlankWay == profile.BlankEither }

// chosen returns the case with the blanks that a shop chooses.
func (c Case) chosen(s Shop) Case {
	c.Result = c.Result.FromBlanks(func(profile.Section) profile.BlankWay { return s.Blank })
	return c
}

// made returns the case with the blanks that plans take where nobody has said it before.
func (c Case) made(plans []template.SetupPlan) Case {
	ways := map[string]profile.BlankWay{}
	for _, p := range plans {
		ways[p.Section.Name] = p.Section.BlankWay
	}
	c.Result = c.Result.FromBlanks(func(s profile.Section) profile.BlankWay {
		if undecided(s) {
			return ways[s.Name]
		}
		return s.BlankWay
	})
	return c
}

// blankNotes tells of the moldings whose blank is not decided when no set-ups are planned.
func (c Case) blankNotes() []string {
	var out []string
	for _, s := range c.molded() {
		if undecided(s) {
			out = append(out, fmt.Sprintf("%s is sprung, and the case does not say from which blank it is made: the flat one is counted. Its set-ups may take an upright one; "+
				"blank: flat or blank: upright under the molding decides it", s.Name))
		}
	}
	return out
}
