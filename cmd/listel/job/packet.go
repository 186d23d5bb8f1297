package job

import (
	"context"
	"path/filepath"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/template"
	"listel/template/sheet"
)

// A Packet says how the packet of a case is made.
type Packet struct {
	Style  template.Style
	Setups bool // with the set-ups of every molding
	Planning
}

// PacketSource returns what the sheets of a case's packet name as their file.
func (c Case) PacketSource() string { return filepath.Base(c.From()) }

// Notes returns what in the case is odd but possible, in the words of check, stock left out.
func (c Case) Notes() []string {
	var out []string
	for _, name := range c.Names() {
		for _, n := range c.Profiles[name].Notes() {
			out = append(out, c.Profiles[name].From()+": "+n)
		}
	}
	return append(out, miter.Odd(c.Case, c.Result)...)
}

// Notes returns what in the profile is odd but possible, in the words of check.
func (p Profile) Notes() []string {
	var out []string
	for _, w := range p.Profile.Warnings(p.Section) {
		out = append(out, w.Error())
	}
	return out
}

// Packet returns the sheets of a case in the order of the work, numbered, and what a person should be told of them: stock that will not do,
// a plan that did not pass its check.
func (c Case) Packet(ctx context.Context, p Packet) (sheet.Document, []Note, error) {
	c = c.chosen(p.Shop)
	var plans []template.SetupPlan
	notes := c.blankNotes()
	if p.Setups {
		err := Fits(p.Style)
		if err == nil {
			sections := c.molded()
			plans, notes, err = c.plans(ctx, sections, p.Planning)
			c = c.made(sections, plans)
			plans = distinct(plans)
		}
		if err != nil {
			return sheet.Document{}, nil, err
		}
	}
	j := template.Job{Case: c.Case, Result: c.Result, Profiles: map[string]profile.Profile{}, Setups: plans}
	for name, l := range c.Profiles {
		j.Profiles[name] = l.Profile
	}
	cutting, mistakes, err := c.buyable(ctx)
	if err != nil {
		return sheet.Document{}, nil, err
	}
	j.Stock = cutting
	key := ""
	if len(c.Case.Stock) == 0 {
		key = "stock"
	}
	for _, m := range mistakes {
		notes = append(notes, Note{Key: key, Found: "no sheets of what to buy: " + m.Error()})
	}
	return template.Packet(j, p.Style).Numbered(), notes, nil
}

// plans returns the set-ups of a case's sections. A plan that does not pass its check is told of, and its sheets say so.
func (c Case) plans(ctx context.Context, sections []profile.Section, p Planning) ([]template.SetupPlan, []Note, error) {
	all := make([]ToPlan, len(sections))
	for i, s := range sections {
		var err error
		if all[i], err = p.Shop.ToPlan(s, p.Tools, c.Case.Units); err != nil {
			return nil, nil, err
		}
	}
	var at func(int, string)
	if p.Start != nil {
		at = p.Start(len(all))
	}
	plans, err := PlanAll(ctx, all, p.Cache, at)
	if err != nil {
		return nil, nil, err
	}
	out := make([]template.SetupPlan, len(plans))
	var notes []Note
	for i, plan := range plans {
		out[i] = all[i].Sheets(plan)
		if len(plan.Verified.Faults) > 0 {
			notes = append(notes, Note{Found: "the set-ups of " + plan.Profile + " did not pass their check: " + strings.Join(plan.Verified.Faults, "; ")})
		}
	}
	return out, notes, nil
}
