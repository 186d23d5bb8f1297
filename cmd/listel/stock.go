package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/miter"
	"listel/miter/stock"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

type stockOptions struct {
	caseOptions
	shopOptions
	pieces string
	effort string
	time   time.Duration
}

func newStockCmd(app App, run func(App, stockOptions) error) *cobra.Command {
	var o stockOptions
	cmd := &cobra.Command{
		Use:   "stock [CASE]",
		Short: "Tell what wood to buy and how to rip and cut it, at least cost",
		Long: `Stock finds the cheapest boards and sticks that yield every piece of a case, and how to rip and cut them: with kerfs, trimmed ends, a
length for tests and set-up of each section, spare wood, and the grain of each molding running round the corners. It is the least cost among
plans that rip boards along their whole length and then cut the strips: it says when no such plan costs less, and otherwise how much it
may be off. Without a CASE it takes the example.

With --pieces it does the same for a plain list of lengths. With --out or --format it draws the buying list and the cutting diagrams.

Boards differ: take defects out first, and plan anew with what is left. Follow the saw's manual and its guards.`,
		Example: "  listel stock\n  listel stock press.yaml --out stock.pdf\n  listel stock --pieces doors.yaml --json",
	}
	o.on(app, cmd, func() error {
		if o.pieces != "" && o.file != "" {
			return wrongUse("give a CASE or --pieces, not both")
		}
		return run(app, o)
	})
	o.shopOptions.flags(cmd)
	f := cmd.Flags()
	f.StringVar(&o.pieces, "pieces", "", "plan the plain list of lengths in `FILE` (kind: pieces)")
	f.StringVar(&o.effort, "effort", "usual", "how long to search: `quick, usual or long`")
	f.DurationVar(&o.time, "time", 0, "stop the search after this `TIME`, as in 30s (default 5s, with --effort long 60s)")
	return cmd
}

// limits returns how many search nodes and how much time the options allow.
func (o stockOptions) limits() (nodes int64, limit time.Duration, err error) {
	nodes, limit = 0, stock.DefaultTime
	switch o.effort {
	case "quick":
		nodes = stock.DefaultEffort / 10
	case "usual":
	case "long":
		nodes, limit = stock.DefaultEffort*12, stock.DefaultTime*12
	default:
		return 0, 0, wrongUse("--effort %q; it must be quick, usual or long", o.effort)
	}
	switch {
	case o.time < 0 || o.time > time.Hour:
		return 0, 0, wrongUse("--time %s; it must be from 1ms to 1h", o.time)
	case o.time > 0:
		limit = o.time
	}
	return nodes, limit, nil
}

// A stockJob is what a stock command works on.
type stockJob struct {
	name, title, from string
	units             measure.Units
	source            *library.Source
	purchase          miter.Purchase
}

// stockJob reads and prepares the file that the options name.
func (o stockOptions) stockJob(app App) (stockJob, error) {
	if _, err := o.shop().Options(measure.Inches); err != nil {
		return stockJob{}, asUse(err)
	}
	if o.pieces != "" {
		list, source, err := library.ReadPieces(o.pieces)
		if err != nil {
			return stockJob{}, err
		}
		title := list.Title
		if title == "" {
			title = list.Name
		}
		return stockJob{list.Name, title, o.pieces, list.Units, source, list.Buy()}, nil
	}
	l, err := app.loadCase(o.file)
	if err != nil {
		return stockJob{}, err
	}
	if l, err = o.blanks(app, l); err != nil {
		return stockJob{}, err
	}
	p, err := miter.Buy(l.Case, l.Result)
	return stockJob{l.Case.Name, l.Title(), l.From(), l.Case.Units, l.Source, p}, l.Source.Mistakes(err)
}

// blanks returns the case with the blanks that its set-ups take: their plans are looked for where neither the options nor the case say it.
func (o stockOptions) blanks(app App, l job.Case) (job.Case, error) {
	if len(l.Case.Stock) == 0 {
		return l, nil // which is told first
	}
	tools, err := o.toolSet(l.Lib, l.Case.Units)
	if err != nil {
		return l, err
	}
	bar := app.newProgress("planning set-ups", 0)
	defer bar.end()
	return l.Blanks(app.context(), job.Planning{Shop: o.shop(), Tools: tools, Cache: o.cache(app), Start: bar.begin})
}

func runStock(app App, o stockOptions) error {
	nodes, limit, err := o.limits()
	if err != nil {
		return err
	}
	j, err := o.stockJob(app)
	if err != nil {
		return err
	}
	lengths, err := o.lengths(j.units)
	if err != nil {
		return err
	}
	c, err := job.Cutting(app.context(), j.purchase, j.source, nodes, limit)
	if err != nil {
		return err
	}
	if o.json {
		err = app.printJSON(newStockJSON(c))
	} else {
		err = printStock(app.Out, j, c, lengths)
	}
	if err != nil || !o.asked() {
		return err
	}
	style, err := o.style(app, lengths, j.from)
	if err != nil {
		return err
	}
	doc := sheet.Document{Title: j.title + ": what to buy", Pages: template.StockSheets(c, style)}
	return app.writeDocument(doc.Numbered(), o.drawOptions, j.name+"-stock")
}

// stockJSON is what stock --json prints: the plan, and the blanks that its strips are for.
type stockJSON struct {
	stock.Plan
	Blanks []blankJSONOf `json:"blanks"`
}

type blankJSONOf struct {
	Profile   string   `json:"profile"`
	Moldings  []string `json:"moldings"`
	Width     float64  `json:"width_mm"`
	Thickness float64  `json:"thickness_mm"`
	Bevel     float64  `json:"bevel_deg"` // of rips on the slant, 0 for square ones
}

func newStockJSON(c template.Cutting) stockJSON {
	out := stockJSON{Plan: c.Plan, Blanks: []blankJSONOf{}}
	out.Sticks = c.Sticks()
	for _, b := range c.Purchase.Blanks {
		j := blankJSONOf{Profile: b.Key, Moldings: b.Moldings, Width: b.Width, Thickness: b.Thickness}
		if b.Slant != nil {
			j.Bevel = b.Slant.Bevel.Degrees()
		}
		out.Blanks = append(out.Blanks, j)
	}
	return out
}

// printStock prints what to buy, the rips of each board and the cuts of each stick.
func printStock(out io.Writer, j stockJob, c template.Cutting, f measure.Format) error {
	fmt.Fprintf(out, "%s (%s)\n%s\n\nto buy\n", j.title, j.name, j.from)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, b := range c.Plan.Buy {
		feet := ""
		if b.BoardFeet > 0 {
			feet = template.BoardFeet(b.BoardFeet)
			if f.Units == measure.Millimeters {
				feet = fmt.Sprintf("%.1f liters", template.Liters(b))
			}
		}
		cost := c.Amount(b.Cost, f)
		if b.Offcut {
			cost = "at hand"
		}
		fmt.Fprintf(t, "%d\t%s\t%s\t%s\n", b.Count, b.Item, feet, cost)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(out, "in all %s", c.Amount(c.Plan.Cost, f))
	if c.Plan.CostIn != stock.InBoardFeet {
		if bought := c.Volume(false, f); bought != "" {
			fmt.Fprintf(out, ", %s", bought)
		}
		if rack := c.Volume(true, f); rack != "" {
			fmt.Fprintf(out, ", and %s from the rack", rack)
		}
	}
	fmt.Fprintf(out, "\n%s\n", c.Proof(f))
	for _, b := range c.Plan.Boards {
		if len(c.Purchase.Blanks) == 0 {
			break // a plain list rips nothing
		}
		fmt.Fprintf(out, "\nboard %d: %s\n", b.N, b.Item)
		for _, r := range c.Rips(b) {
			fmt.Fprintf(out, "  rip %d at %s for %s, jointed to %s\n", r.Strips, f.Length(r.Rough), c.Strip(r.Profile), f.Length(r.Width))
		}
		fmt.Fprintf(out, "  %s of the width left\n", f.Length(c.Left(b)))
	}
	fmt.Fprint(out, "\ncuts\n")
	if err := printCuts(out, c, f); err != nil {
		return err
	}
	for _, n := range c.Notes(f) {
		fmt.Fprintln(out, "note: "+n)
	}
	return nil
}

// printCuts prints how each stick is cut, one a line.
func printCuts(out io.Writer, c template.Cutting, f measure.Format) error {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "from\tfor\tcuts\tleft")
	for i, s := range c.Sticks() {
		from := fmt.Sprintf("stick %d, %s", i+1, s.Item)
		if s.Board > 0 {
			from = fmt.Sprintf("board %d, strip %d", s.Board, s.Strip)
		}
		var cuts []string
		for k, cut := range s.Cuts {
			text := cut.Mark + " " + f.Bare(f.NoLess(cut.Length))
			if k > 0 && cut.Run > 0 && s.Cuts[k-1].Run == cut.Run && s.Cuts[k-1].Wrap == cut.Wrap {
				cuts[len(cuts)-1] += " > " + text // the grain runs on
				continue
			}
			cuts = append(cuts, text)
		}
		left := f.Bare(s.Left)
		if s.Keep {
			left += " keep"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", from, c.Strip(s.Profile), strings.Join(cuts, ", "), left)
	}
	return t.Flush()
}
