package job

import (
	"context"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
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
	return c.made(open, plans), err
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

// made returns the case with the blanks that the plans of sections take where nobody has said it before.
func (c Case) made(sections []profile.Section, plans []template.SetupPlan) Case {
	ways := map[string]profile.BlankWay{}
	for i, p := range plans {
		if undecided(sections[i]) {
			ways[p.Section.Name] = p.Section.BlankWay
		}
	}
	c.Result = c.Result.FromBlanks(func(s profile.Section) profile.BlankWay {
		if undecided(s) {
			return ways[s.Name]
		}
		return s.BlankWay
	})
	return c
}

// distinct returns the plans without those of a section from a blank that another is for, and tells by their titles those of one section from both blanks.
func distinct(plans []template.SetupPlan) []template.SetupPlan {
	blanks := map[string]map[profile.BlankWay]bool{}
	var out []template.SetupPlan
	for _, p := range plans {
		s := p.Section
		if blanks[s.Name] == nil {
			blanks[s.Name] = map[profile.BlankWay]bool{}
		}
		if !blanks[s.Name][s.BlankWay] {
			blanks[s.Name][s.BlankWay] = true
			out = append(out, p)
		}
	}
	for i := range out {
		if s := &out[i].Section; len(blanks[s.Name]) > 1 {
			*s = template.WithBlank(*s)
		}
	}
	return out
}

// blankNotes tells of the moldings whose blank is not decided when no set-ups are planned.
func (c Case) blankNotes() []Note {
	var out []Note
	for _, s := range c.molded() {
		if undecided(s) {
			found, do := template.OpenBlank(s.Name, s, measure.Format{Units: c.Case.Units})
			out = append(out, Note{Key: "blank", Found: found, Do: do})
		}
	}
	return out
}
