package template

import (
	"fmt"

	"listel/template/cutter"
	"listel/template/sheet"
)

// SetupSheets returns the sheets of a plan of set-ups: first the end of the blank full size with the lines to scribe on it, the tools with
// their speeds, and the cautions; then one picture a set-up, six to a sheet. A plan without set-ups
// has no sheets. The pages are not yet numbered.
func SetupSheets(plan SetupPlan, st Style) []sheet.Page {
	if len(plan.Plan.Setups) == 0 {
		return nil
	}
	st = st.roomy()
	c := &setupComposer{plan: plan, st: st, title: setupTitle(plan), stick: newCutStick(plan)}
	return append(c.first(), c.pictures()...)
}

func setupTitle(plan SetupPlan) string {
	if plan.Section.Title != "" {
		return plan.Section.Title
	}
	return plan.Section.Name
}

// A setupComposer lays the sheets of a plan out on the paper.
type setupComposer struct {
	plan  SetupPlan
	st    Style
	title string
	stick *cutStick
}

// byHand reports whether the plan is for planes.
func (c *setupComposer) byHand() bool { return c.plan.Plan.Setups[0].Work == cutter.Plane }

// pictures returns the sheets of pictures.
func (c *setupComposer) pictures() []sheet.Page {
	purpose := "The end of the stick, seen from where it is fed in, fence at the right: dark is what this set-up takes, hatched what stays, dashed the finished section"
	if c.byHand() {
		purpose = "The end of the stick on the bench against its stop: dark is what this plane takes, hatched what stays, dashed the finished section"
	}
	switch {
	case c.plan.Plan.Blank.RunsOut:
		purpose = "NOT AS A LOOSE STICK, on a carrier board. " + purpose
	case len(c.thinWords()) > 0:
		purpose = "NOT AS A LOOSE STICK, on the edge of a board. " + purpose
	}
	purpose += ". All the pictures of this plan are to one scale"
	g := c.grid(sheet.Frame{Title: c.title + ": set-ups", Purpose: purpose, Source: c.st.Source, Printer: c.st.Printer})
	var pages []sheet.Page
	all := len(c.plan.Plan.Setups)
	for _, rows := range g.pages {
		from, to := rows[0].from, rows[len(rows)-1].to
		f := g.frame
		f.Title = fmt.Sprintf("%s: set-ups %d to %d of %d", c.title, from+1, to, all)
		if to == from+1 {
			f.Title = fmt.Sprintf("%s: set-up %d of %d", c.title, to, all)
		}
		area := f.Area(c.st.Paper)
		pages = append(pages, sheet.Page{Paper: c.st.Paper, Frame: f, Content: g.drawing(rows, area)})
	}
	return pages
}
