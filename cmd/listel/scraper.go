package main

import (
	"errors"
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/scraper"
	"listel/template/sheet"
)

type scraperOptions struct {
	profileOptions
	lean, plunge, hand string
	width, head, hook  string
	gauges             bool
}

// options returns what the blades are to be; bare lengths are in units.
func (o scraperOptions) options(units measure.Units) (scraper.Options, error) {
	var out scraper.Options
	fault := func(flag string, err error) error { return wrongUse("--%s: %w", flag, err) }
	var err error
	if out.Lean, err = measure.ParseAngle(o.lean); err != nil {
		return out, fault("lean", err)
	}
	if o.plunge != "" {
		a, err := measure.ParseAngle(o.plunge)
		if err != nil {
			return out, fault("plunge", err)
		}
		out.Plunge = &a
	}
	if o.width != "" {
		if out.MaxWidth, err = measure.ParsePositive(o.width, units); err != nil {
			return out, fault("width", err)
		}
	}
	if o.head == "" {
		if o.hook != "" {
			return out, wrongUse("--hook is the angle of a rotating knife; give its cutting circle with --head")
		}
	} else {
		h := scraper.Head{Hook: scraper.StandardHook}
		if h.Radius, err = measure.ParsePositive(o.head, units); err != nil {
			return out, fault("head", err)
		}
		if o.hook != "" {
			if h.Hook, err = measure.ParseAngle(o.hook); err != nil {
				return out, fault("hook", err)
			}
		}
		out.Head = &h
	}
	if o.hand != string(scraper.LeftHand) && o.hand != string(scraper.RightHand) {
		return out, wrongUse("--hand %q; it must be left or right", o.hand)
	}
	return out, nil
}

func newScraperCmd(app App, run func(App, scraperOptions) error) *cobra.Command {
	var o scraperOptions
	cmd := &cobra.Command{
		Use:   "scraper PROFILE",
		Short: "Turn a profile into scraper blades, gauges or rotating knives, full size",
		Long: `Scraper turns the face of a profile into blades to file: right in size for the way they are held. A blade that leans along the
travel is filed deeper than it cuts. With --head it makes knives for a shaper's or molder's head in place of scrapers.

With --out or --format pdf or png it draws the blades full size, which blade scrapes what, the gauges to try the work with and, for a small
molding, the scratch stock. With --format svg it writes one file for a cutting machine: one closed path a blade in true millimeters, nothing else
(with --gauges, the gauges).

A plunge is an angle in the section: 0 is straight in toward the case, 90 straight down from above, -90 straight up from below.
Follow the manuals of machine and head, local rules and a qualified person's guidance.`,
		Example: "  listel scraper press-waist --lean 20\n  listel scraper press-cornice --out blades.pdf\n  listel scraper press-base --format svg\n  listel scraper base-cap --head '2 1/2in' --hook 20",
	}
	o.on(app, cmd, func() error { return run(app, o) })
	f := cmd.Flags()
	f.StringVar(&o.lean, "lean", "0", "`ANGLE` that the blade leans along the travel, less than 60")
	f.StringVar(&o.plunge, "plunge", "", "`ANGLE` that the main blades are pressed in at (default: found for each)")
	f.StringVar(&o.width, "width", "", "greatest `LENGTH` of a blade across (default 2 in)")
	f.StringVar(&o.hand, "hand", "left", "end that blades are drawn toward: `left or right`")
	f.StringVar(&o.head, "head", "", "make rotating knives: `RADIUS` of the cutting circle at the deepest point")
	f.StringVar(&o.hook, "hook", "", "hook `ANGLE` of rotating knives at that point (default 15)")
	f.BoolVar(&o.gauges, "gauges", false, "with --format svg, write the gauges in place of the blades")
	return cmd
}

func runScraper(app App, o scraperOptions) error {
	l, lengths, err := o.load(app)
	if err != nil {
		return err
	}
	opts, err := o.options(l.Profile.Units)
	if err != nil {
		return err
	}
	if kind, err := o.kind(); err != nil {
		return err
	} else if o.gauges && kind != "svg" {
		return wrongUse("--gauges is for --format svg; the sheets hold the gauges as they are")
	}
	p, err := scraper.Make(l.Section, opts)
	if err != nil {
		return scraperFault(l, err, opts)
	}
	if o.hand == string(scraper.RightHand) {
		for i, b := range p.Blades {
			p.Blades[i] = b.Mirrored()
		}
	}
	app.warn(l)
	if o.json {
		err = app.printJSON(newScraperJSON(p))
	} else {
		err = printScraper(app.Out, l, p, lengths)
	}
	if err != nil || !o.asked() {
		return err
	}
	return app.drawScraper(l, p, o, lengths)
}

// scraperFault says whose fault it is that there are no blades: the options', or the file's.
func scraperFault(l job.Profile, err error, o scraper.Options) error {
	var bad *scraper.OptionError
	switch {
	case errors.As(err, &bad):
		return wrongUse("--%w", err)
	case errors.Is(err, scraper.ErrHidden) && o.Plunge != nil:
		return wrongUse("--plunge %.4g: %w", o.Plunge.Degrees(), err)
	}
	return l.Source.Mistakes(profile.Errors{{Reason: err.Error()}})
}

// drawScraper writes the sheets, or the outlines for a cutting machine.
func (app App) drawScraper(l job.Profile, p scraper.Plan, o scraperOptions, lengths measure.Format) error {
	kind, err := o.kind()
	if err != nil {
		return err
	}
	if kind == "svg" {
		doc, stem := sheet.Document{Pages: []sheet.Page{template.BladeCutting(p)}}, l.Section.Name+"-blades"
		if o.gauges {
			doc.Pages[0], stem = template.GaugeCutting(p), l.Section.Name+"-gauges"
		}
		return app.writeDocument(doc, o.drawOptions, stem)
	}
	style, err := o.style(app, lengths, l.From())
	if err != nil {
		return err
	}
	doc := sheet.Document{Title: l.Title() + ": scraper", Pages: template.ScraperSheets([]template.Scraping{{Plan: p}}, style)}
	if opts := p.Options; opts.Head == nil {
		doc.Pages = append(doc.Pages, template.ScratchSheets(l.Section, style)...)
	}
	doc.Pages = append(doc.Pages, template.GaugeSheets([]template.Templated{{Section: l.Section}}, false, style)...)
	return app.writeDocument(doc.Numbered(), o.drawOptions, l.Section.Name+"-scraper")
}

// printScraper prints the blades in a table, and what is to be known of them.
func printScraper(out io.Writer, l job.Profile, p scraper.Plan, f measure.Format) error {
	fmt.Fprintf(out, "%s (%s)\n%s\n\n", l.Title(), l.Section.Name, l.From())
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "blade\tfrom\tto\tplunge\tlean\tsteepest wall\tsteel\truns on")
	for _, b := range p.Blades {
		lean := f.Angle(b.Lean)
		if b.Knife != nil {
			lean = "hook " + f.Angle(b.Knife.Hook)
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s x %s\t%s\n", b.Mark, f.Bare(b.Covers[0]), f.Bare(b.Covers[1]), f.Angle(b.Plunge), lean, f.Angle(b.Steep),
			f.Bare(b.Steel.Width), f.Bare(b.Steel.Height), b.Guide.Kind)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(out)
	for _, words := range template.ScraperNotes(p, f) {
		fmt.Fprintln(out, words)
	}
	return nil
}

// scraperJSON is what scraper --json prints, in millimeters and degrees.
type scraperJSON struct {
	Name   string      `json:"name"`
	Blades []bladeJSON `json:"blades"`
	Missed []placeJSON `json:"missed"` // what a plunge that was asked for does not scrape
	Left   []placeJSON `json:"left"`   // what no blade scrapes
}

type bladeJSON struct {
	Mark      string       `json:"mark"`
	Hand      scraper.Hand `json:"hand"`
	Covers    [2]float64   `json:"covers"`
	Lean      float64      `json:"lean_deg"`
	Plunge    float64      `json:"plunge_deg"`
	Steepest  float64      `json:"steepest_wall_deg"` // from the plunge
	Outline   [][2]float64 `json:"outline"`
	Edge      [][2]float64 `json:"edge"`      // the lower side alone, from left to right
	Transform *[6]float64  `json:"transform"` // a b c d e f: section x = a u + c v + e, y = b u + d v + f; null for a rotating knife
	Steel     steelJSON    `json:"steel"`
	RunsOn    string       `json:"runs_on"`
	Rubs      []placeJSON  `json:"rubs"`
	Files     []fileJSON   `json:"files"`
	Knife     *knifeJSON   `json:"knife"`
}

type steelJSON struct {
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
	Center float64 `json:"center_u_mm"`
}

type placeJSON struct {
	Y0      float64      `json:"y0_mm"`
	Y1      float64      `json:"y1_mm"`
	Length  float64      `json:"length_mm"`
	Element int          `json:"element"`
	Kind    profile.Kind `json:"kind"`
	Why     scraper.Why  `json:"why"`
	Given   []string     `json:"given_to"`
}

type fileJSON struct {
	Shape    scraper.FileShape `json:"shape"`
	Diameter float64           `json:"diameter_mm"`
	Radius   float64           `json:"radius_mm"`
	Corner   float64           `json:"corner_deg"`
	At       [2]float64        `json:"at"`
	Leaves   float64           `json:"leaves_mm"`
}

type knifeJSON struct {
	Radius float64 `json:"radius_mm"`
	Hook   float64 `json:"hook_deg"`
	Depth  float64 `json:"depth_mm"`
	Filed  float64 `json:"filed_mm"`
	Body   float64 `json:"body_radius_mm"` // the head's body at most
}

func newScraperJSON(p scraper.Plan) scraperJSON {
	out := scraperJSON{Name: p.Section.Name, Blades: []bladeJSON{}, Missed: placesJSON(p.Missed), Left: placesJSON(p.Left)}
	for _, b := range p.Blades {
		j := bladeJSON{Mark: b.Mark, Hand: b.Hand, Covers: b.Covers, Lean: b.Lean.Degrees(), Plunge: b.Plunge.Degrees(), Steepest: b.Steep.Degrees(),
			Outline: pairs(b.Outline), Edge: pairs(b.Edge), Steel: steelJSON{b.Steel.Width, b.Steel.Height, b.Steel.Center}, RunsOn: string(b.Guide.Kind),
			Rubs: placesJSON(b.Rubs), Files: []fileJSON{}}
		for _, f := range b.Files {
			j.Files = append(j.Files, fileJSON{f.Shape, f.Diameter, f.Radius, f.Corner.Degrees(), pair(f.At), f.Leaves})
		}
		if k := b.Knife; k != nil {
			j.Knife = &knifeJSON{k.Radius, k.Hook.Degrees(), k.Depth, k.Filed, k.Body}
		} else {
			m := b.ToSection()
			j.Transform = &[6]float64{m.A, m.B, m.C, m.D, m.E, m.F}
		}
		out.Blades = append(out.Blades, j)
	}
	return out
}

func placesJSON(places []scraper.Place) []placeJSON {
	out := []placeJSON{}
	for _, p := range places {
		given := p.Given
		if given == nil {
			given = []string{}
		}
		out = append(out, placeJSON{p.Y0, p.Y1, p.Length, p.Element, p.Member, p.Why, given})
	}
	return out
}
