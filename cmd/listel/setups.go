package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

type setupsOptions struct {
	profileOptions
	toolOptions
}

// toolOptions are those of the commands that plan set-ups.
type toolOptions struct {
	shopOptions
	effort    string
	allowance string
}

func (o *toolOptions) flags(cmd *cobra.Command) {
	o.shopOptions.flags(cmd)
	f := cmd.Flags()
	f.StringVar(&o.effort, "effort", "usual", "how long to search: `quick, usual or long`")
	f.StringVar(&o.allowance, "allowance", "", "`LENGTH` that may stay for scraper and paper (default 0.5 mm)")
}

// shop returns the choices of a plan.
func (o toolOptions) shop() job.Shop {
	s := o.shopOptions.shop()
	s.Effort, s.Allowance = o.effort, o.allowance
	return s
}

// shopOptions are those of the commands that a plan of set-ups has to do with: what is bought follows the blank that it takes.
type shopOptions struct {
	tools   string
	work    string
	blank   string
	noCache bool
}

func (o *shopOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.tools, "tools", "", "`NAME or FILE` of the tools at hand (default: the generic set in the profile's units)")
	f.StringVar(&o.work, "work", "machine", "plan for `machine or plane`: router table and saw, or hand planes")
	f.StringVar(&o.blank, "blank", "", "mold what is sprung from the `flat or upright` blank: upright takes more wood, and the sloping back is sawn off it (default: as the case says, else flat, "+
		"unless only upright is safe and no longer)")
	f.BoolVar(&o.noCache, "no-cache", false, "search anew, and keep nothing")
}

// shop returns the choices of a plan, at the usual effort.
func (o shopOptions) shop() job.Shop {
	return job.Shop{Work: o.work, Effort: "usual", Blank: profile.BlankWay(o.blank)}
}

// toolSet returns the tools that the options name: a file, else an entry of the library, else the generic set in units.
func (o shopOptions) toolSet(lib *library.Library, units measure.Units) (library.ToolSet, error) {
	if isPath(o.tools) {
		return lib.ReadTools(o.tools)
	}
	set, err := job.Tools(lib, o.tools, units)
	return set, asUse(err)
}

// cache returns where finished plans are kept, nil for nowhere.
func (o shopOptions) cache(app App) job.Cache {
	if o.noCache {
		return nil
	}
	return app.Plans
}

func newSetupsCmd(app App, run func(App, setupsOptions) error) *cobra.Command {
	var o setupsOptions
	cmd := &cobra.Command{
		Use:   "setups PROFILE",
		Short: "Plan which cutter, which face, which fence, in which order",
		Long: `Setups finds the set-ups that cut a profile out of its smallest blank with the tools at hand: as few as can be, in an order in
which the work always bears on table and fence, and never into the section. The plan is then replayed by code of its own, which says how
deep any cut gouges and how much is left. A finished plan is kept in your cache folder.

With --work plane it is a plan for rabbet planes, hollows and rounds. With --out or --format it draws one picture a set-up, six to a page.

Try each set-up on a test piece. The machine's manual, local rules and a qualified person's guidance come first.`,
		Example: "  listel setups press-cornice\n  listel setups press-cornice --out setups.pdf\n  listel setups my-cornice.yaml --tools my-tools.yaml --effort long",
	}
	o.on(app, cmd, func() error { return run(app, o) })
	o.toolOptions.flags(cmd)
	return cmd
}

func runSetups(app App, o setupsOptions) error {
	l, lengths, err := o.load(app)
	if err != nil {
		return err
	}
	tools, err := o.toolSet(l.Lib, l.Profile.Units)
	if err != nil {
		return err
	}
	plan, err := o.shop().ToPlan(l.Section, tools, l.Profile.Units)
	if err != nil {
		return asUse(err)
	}
	style, err := o.style(app, lengths, l.From())
	if err != nil {
		return err
	}
	if err := o.drawable(style); err != nil {
		return err
	}
	app.warn(l)
	all, err := app.planAll([]job.ToPlan{plan}, o.cache(app))
	if err != nil {
		return err
	}
	p := all[0]
	if o.json {
		err = app.printJSON(p)
	} else {
		err = printSetups(app.Out, l, plan.Tools, p, lengths)
	}
	if err != nil {
		return err
	}
	if o.asked() {
		if err := app.writeDocument(l.SetupSheets(plan.Sheets(p), style), o.drawOptions, l.Section.Name+"-setups"); err != nil {
			return err
		}
	}
	if len(p.Verified.Faults) > 0 {
		return errors.New("the plan did not pass its check; do not work from it:\n" + strings.Join(p.Verified.Faults, "\n"))
	}
	return nil
}

// drawable returns what keeps sheets from being drawn as the options ask: it is told before a long search.
func (o drawOptions) drawable(style template.Style) error {
	if _, err := o.kind(); err != nil {
		return err
	}
	return job.Fits(style)
}

// printSetups prints a plan as a table, and what else is to be known of it.
func printSetups(out io.Writer, l job.Profile, set library.ToolSet, p job.Plan, f measure.Format) error {
	blank := "blank"
	if p.Blank.Way != profile.BlankEither {
		blank = string(p.Blank.Way) + " blank"
	}
	fmt.Fprintf(out, "%s (%s)\n%s\n%s %s x %s, tools: %s\n\n", l.Title(), l.Section.Name, l.From(), blank, f.Length(p.Blank.Width), f.Length(p.Blank.Thickness), set.Name)
	if err := printSetupTable(out, l, p, f); err != nil {
		return err
	}
	for _, words := range template.ThinPlan(p.Result, f) {
		fmt.Fprintln(out, "caution: "+words)
	}
	for _, words := range template.BetweenDentils(l.Section, f) {
		fmt.Fprintln(out, "then: "+words)
	}
	for _, s := range p.Setups {
		if words := s.Words(f); words != "" {
			fmt.Fprintf(out, "watch in %d: %s\n", s.N, words)
		}
	}
	for _, u := range p.Unreached {
		fmt.Fprintf(out, "not reached: %s\n", u.Words(func(mm float64) string { return template.LeftOver(mm, f) }))
	}
	for _, h := range p.Hints {
		if h.Kind == cutter.HintUnreached {
			continue
		}
		words := "advice: " + h.Words(f.Length)
		if way, ok := h.Other(); ok {
			words += fmt.Sprintf(" (--blank %s plans that)", way)
		}
		fmt.Fprintln(out, words)
	}
	fmt.Fprintf(out, "\n%s\n", boundWords(p))
	fmt.Fprintf(out, "verified: worst gouge %s, worst left %s", template.NoMore(p.Verified.Gouge, f), template.NoMore(p.Verified.Left, f))
	if p.Verified.Stays > 0 {
		fmt.Fprintf(out, "; where no tool reaches %s stays", template.LeftOver(p.Verified.Stays, f))
	}
	fmt.Fprintln(out)
	if byHand(p) {
		fmt.Fprintln(out, "The work lies on the bench against a stop along its length, or in the vise with a fence in the stop's place. Distances run from the stop to the nearest "+
			"cutting edge, or where it says so to the FAR one; heights from the bench to the lowest cut. Try each on a test piece, hands behind the edge.")
		return nil
	}
	fmt.Fprintln(out, "Fence distances are to the nearest cutting edge, or where it says so to the FAR one, the near edge running inside the fence; heights from the table to the highest "+
		"cutting point. Try each on a test piece; the machine's manual and local rules come first.")
	return nil
}

// byHand reports whether the plan is for planes.
func byHand(p job.Plan) bool { return len(p.Setups) > 0 && p.Setups[0].Work == cutter.Plane }

// printSetupTable prints the set-ups, one a line.
func printSetupTable(out io.Writer, l job.Profile, p job.Plan, f measure.Format) error {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	if byHand(p) {
		fmt.Fprintln(t, "no.\ttool\ton the bench\tagainst the stop\ttilt\tfrom the stop\tbench to lowest cut\tpasses\tfinished")
	} else {
		fmt.Fprintln(t, "no.\ttool\ton the table\tto the fence\tleads\ttilt\tfence\theight\tpasses\tfinished")
	}
	for _, s := range p.Setups {
		row := []string{strconv.Itoa(s.N), s.Tool, s.OnTable.Words(), s.AgainstFence.Words()}
		switch {
		case byHand(p):
		case s.EndForEnd:
			row = append(row, "left end")
		default:
			row = append(row, "right end")
		}
		passes := strconv.Itoa(s.Passes)
		if byHand(p) {
			passes = template.PassesByHand(s)
		}
		row = append(row, template.TiltSetting(s, f), template.FenceSetting(s, f), template.HeightSetting(s, f), passes, cleansWords(s, l.Section))
		fmt.Fprintln(t, strings.Join(row, "\t"))
	}
	return t.Flush()
}

// boundWords says how good the number of set-ups is known to be.
func boundWords(p job.Plan) string {
	s := p.BoundWords()
	if p.Stopped {
		s += "; the search ended before it was done (--effort long looks further)"
	}
	return s
}

// cleansWords names the elements that come clean: "3 cove, 4 fillet".
func cleansWords(s cutter.Setup, section profile.Section) string {
	var out []string
	for _, i := range s.Cleans {
		for _, m := range section.Members {
			if m.Index == i {
				out = append(out, fmt.Sprintf("%d %s", i, m.Kind))
			}
		}
	}
	return strings.Join(out, ", ")
}
