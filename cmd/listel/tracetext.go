package main

import (
	"fmt"
	"io"
	"path/filepath"
	"text/tabwriter"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
	"listel/template"
)

// tracedJSON is what trace --json prints, in millimeters.
type tracedJSON struct {
	Image    string              `json:"image"`
	Size     [2]int              `json:"size_px"`
	Sections []tracedSectionJSON `json:"sections"`
}

type tracedSectionJSON struct {
	sectionJSON
	File   string       `json:"file"`
	Scale  string       `json:"scale"`
	Pixel  float64      `json:"pixel_mm"`
	Traced [][2]float64 `json:"traced"` // the outline in the picture, closed
	Pixels [9]float64   `json:"pixels"` // from mm to px: rows of a 3 x 3 matrix
	Truth  truthJSON    `json:"truth"`
	Notes  []string     `json:"notes"`
}

type truthJSON struct {
	Greatest   float64       `json:"greatest_mm"`
	Mean       float64       `json:"mean_mm"`
	GreatestPx float64       `json:"greatest_px"`
	MeanPx     float64       `json:"mean_px"`
	Worst      [2]float64    `json:"worst"`
	ScaleError float64       `json:"scale_error"` // relative, one standard deviation
	Tolerance  float64       `json:"tolerance_mm"`
	Within     bool          `json:"within"`
	Sizes      []offSizeJSON `json:"sizes"`
}

// offSizeJSON is a size and what it may be off by.
type offSizeJSON struct {
	Element int     `json:"element"` // from 1, 0 for the profile as a whole
	Kind    string  `json:"kind"`
	Key     string  `json:"key"`
	MM      float64 `json:"mm"`
	Off     float64 `json:"off_mm"` // either way, 95 of 100 lie within
}

func newTraceJSON(t job.Tracing, found []job.TracedProfile, files []library.File) tracedJSON {
	b := t.Picture.Bounds()
	out := tracedJSON{Image: t.Image, Size: [2]int{b.Dx(), b.Dy()}, Sections: []tracedSectionJSON{}}
	for i, p := range found {
		u := p.Truth
		j := job.Profile{Job: job.Job{Origin: library.Origin{Where: library.Project, File: files[i].Path}}, Profile: p.Profile, Section: p.Section}
		s := tracedSectionJSON{
			sectionJSON: newSectionJSON(j), File: files[i].Path, Scale: p.Wanted.Scale, Pixel: p.Pixel(), Traced: pairs(p.Outline), Pixels: p.Pixels.M, Notes: p.Notes,
			Truth: truthJSON{u.Greatest, u.Mean, u.GreatestPx, u.MeanPx, pair(u.Worst), u.ScaleError, u.Tolerance, u.Within, []offSizeJSON{}},
		}
		for _, z := range u.Sizes {
			s.Truth.Sizes = append(s.Truth.Sizes, offSizeJSON{z.Element, string(z.Kind), z.Key, z.MM, z.Error})
		}
		if s.Notes == nil {
			s.Notes = []string{}
		}
		out.Sections = append(out.Sections, s)
	}
	return out
}

// printTraced prints each section: its members with their sizes and what those may be off by, and how true it is.
func printTraced(out io.Writer, t job.Tracing, found []job.TracedProfile, f measure.Format) error {
	for i, p := range found {
		if i > 0 {
			fmt.Fprintln(out)
		}
		if err := printTracedSection(out, t, p, f); err != nil {
			return err
		}
	}
	return nil
}

func printTracedSection(out io.Writer, t job.Tracing, p job.TracedProfile, f measure.Format) error {
	u := p.Truth
	title := p.Name
	if p.Profile.Title != "" {
		title = fmt.Sprintf("%s (%s)", p.Profile.Title, p.Name)
	}
	scale := ""
	if s := p.ScaleName(); s != "" {
		scale = ", scale " + s
	}
	fmt.Fprintf(out, "%s\n%s%s: a pixel is %s, known within %.2f %%\n\n", title, filepath.Base(t.Image), scale, p.PixelWords(f), 100*u.ScaleError)
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "no.\tmember\tsizes, and what they may be off by")
	for i, e := range p.Profile.Elements {
		fmt.Fprintf(w, "%d\t%s\t%s\n", i+1, e.Kind, p.SizeWords(i+1, f))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if whole := p.SizeWords(0, f); whole != "" {
		fmt.Fprintln(out, "\n"+whole)
	} else {
		fmt.Fprintln(out)
	}
	verdict := "within"
	if !u.Within {
		verdict = "MORE THAN"
	}
	_, err := fmt.Fprintf(out, "off the drawing: %s (%.1f px) at most, at x %s, y %s; %s (%.2f px) in the mean; %s the %s allowed\n",
		template.Fine(u.Greatest, f), u.GreatestPx, f.Length(u.Worst.X), f.Length(u.Worst.Y), template.Fine(u.Mean, f), u.MeanPx, verdict, template.Fine(u.Tolerance, f))
	return err
}
