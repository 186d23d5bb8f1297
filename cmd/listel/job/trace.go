package job

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"listel/library"
	"listel/profile/measure"
	"listel/profile/trace"
	"listel/template"
	"listel/template/sheet"
)

// A Tracing is a picture with what is known and wanted of it: a trace file, or what was said of a picture on the command line.
type Tracing struct {
	library.TracePlate
	File    string          // the trace file, "" without one
	Source  *library.Source // where its keys stand, nil without one
	Picture *image.Gray     // once it is read
	unread  trace.Faults    // the sections that were found and could not be read, once they were traced
}

// ReadTracing reads the trace file at path and looks at the size of its picture, which is not read. What is wrong, in the file or with
// what it says of the picture, is library.Mistakes.
func ReadTracing(path string) (Tracing, error) {
	t := Tracing{File: path}
	var err error
	if t.TracePlate, t.Source, err = library.ReadTrace(path); err == nil {
		return t, t.Check()
	}
	var own, others library.Mistakes
	if errors.As(err, &own) && t.Source != nil && errors.As(t.Check(), &others) {
		return t, own.Beside(others, t.Source)
	}
	return t, err
}

// Only leaves the sections of the given names in t. The error names one that t does not have, and those that it has.
func (t *Tracing) Only(names []string) error {
	var all []string
	for _, w := range t.Sections {
		all = append(all, w.Name)
	}
	for _, name := range names {
		if !slices.Contains(all, name) {
			return fmt.Errorf("%s has no section %q; it has %s", t.File, name, strings.Join(all, ", "))
		}
	}
	t.Sections = slices.DeleteFunc(slices.Clone(t.Sections), func(w trace.Wanted) bool { return !slices.Contains(names, w.Name) })
	return nil
}

// anySize stands for the bounds of a picture that cannot be read.
var anySize = image.Rect(0, 0, 1_000_000, 1_000_000)

// Check returns what is wrong with t so far as the size of its picture tells: library.Mistakes when t has a file, else trace.Faults or
// why the picture cannot be read.
func (t Tracing) Check() error {
	size, err := library.PictureSize(t.Image)
	if err != nil {
		fault := t.imageFault(err)
		var first, others library.Mistakes
		if errors.As(fault, &first) && errors.As(t.placed(t.Validate(anySize)), &others) { // the file's other mistakes do not wait for the picture
			return slices.Concat(first, others)
		}
		return fault
	}
	return t.placed(t.Validate(image.Rectangle{Max: size}))
}

// imageFault gives what is wrong with the picture its place in the file.
func (t Tracing) imageFault(err error) error {
	if t.Source == nil {
		return err
	}
	at := t.Source.Place("image")
	return library.Mistakes{{File: t.File, Line: at.Line, Column: at.Column, Key: "image", Found: err.Error()}}
}

// placed gives faults their places in the file.
func (t Tracing) placed(err error) error {
	if t.Source == nil {
		return err
	}
	return t.Source.Mistakes(err)
}

// Read returns t with its picture.
func (t Tracing) Read() (Tracing, error) {
	var err error
	if t.Picture, err = library.ReadPicture(t.Image); err != nil {
		return t, t.imageFault(err)
	}
	return t, nil
}

// Run traces the sections and returns those that could be, and what is wrong with the others; progress, unless nil, is told how far it has
// come. It reads the picture if that is not done yet. When ctx ends, its error is returned alone.
func (t *Tracing) Run(ctx context.Context, progress func(stage string, done, of int)) ([]TracedProfile, error) {
	if t.Picture == nil {
		var err error
		if *t, err = t.Read(); err != nil {
			return nil, err
		}
	}
	found, err := trace.Trace(ctx, t.Picture, t.Plate, trace.Options{Progress: progress})
	if cause := ctx.Err(); cause != nil && errors.Is(err, cause) {
		return nil, err
	}
	var faults trace.Faults
	errors.As(err, &faults)
	t.unread = slices.DeleteFunc(slices.Clone(faults), func(f *trace.Fault) bool {
		var u *trace.UnreadError
		return !errors.As(f.Err, &u)
	})
	var out []TracedProfile
	for _, f := range found {
		p := TracedProfile{Traced: f, tracing: t}
		for _, w := range t.Sections {
			if w.Name == f.Name {
				p.Wanted = w
			}
		}
		if p.Profile.Source == "" {
			p.Profile.Source = p.origin()
		}
		out = append(out, p)
	}
	return out, t.placed(err)
}

// A TracedProfile is a section that was traced, and what was asked for.
type TracedProfile struct {
	trace.Traced
	Wanted  trace.Wanted
	tracing *Tracing
}

// origin returns what the profile's file gives as its source.
func (p TracedProfile) origin() string {
	s := "traced from " + filepath.Base(p.tracing.Image)
	if p.tracing.From != "" {
		s = p.tracing.From + "; " + s
	}
	return s
}

// ScaleName returns the name of the scale that the section is drawn at, "" when the plate has a single one.
func (p TracedProfile) ScaleName() string {
	if len(p.tracing.Scales) < 2 {
		return ""
	}
	return p.Wanted.Scale
}

// Pixel returns the width of a pixel of the picture at the middle of the section, mm.
func (p TracedProfile) Pixel() float64 {
	return 1 / p.Pixels.Size(p.Section.Outline.Bounds().Center())
}

// Measured returns what the section was measured against: the drawing, or the points that were clicked in place of its ink.
func (p TracedProfile) Measured() string {
	if len(p.Wanted.Points) > 0 {
		return "the clicked points"
	}
	return "the drawing"
}

// PixelWords returns that width in the units of f, with a figure more than small lengths have: 0.0033 in or 0.0847 mm.
func (p TracedProfile) PixelWords(f measure.Format) string {
	if f.Units == measure.Inches {
		return fmt.Sprintf("%.4f in", p.Pixel()/measure.MMPerInch)
	}
	return fmt.Sprintf("%.4f mm", p.Pixel())
}

// Text returns the profile's file: the profile, over it how true it is, and beside each element what its sizes may be off by.
func (p TracedProfile) Text() ([]byte, error) {
	data, err := library.MarshalProfile(library.Tidy(p.Profile))
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	for _, line := range p.remarks() {
		fmt.Fprintln(&b, "# "+strings.NewReplacer("\n", " ", "\r", " ").Replace(line))
	}
	element := 0
	for _, line := range strings.SplitAfter(string(data), "\n") {
		if strings.HasPrefix(line, "  - ") {
			element++
			if off := p.offBy(element); off != "" {
				line = strings.TrimSuffix(line, "\n") + " # " + off + "\n"
			}
		} else if off := p.offBy(0); off != "" && strings.HasPrefix(line, "ground:") {
			line = strings.TrimSuffix(line, "\n") + " # " + off + "\n"
		}
		b.WriteString(line)
	}
	return []byte(b.String()), nil
}

// remarks returns what stands over the profile in its file.
func (p TracedProfile) remarks() []string {
	t, f := p.Truth, measure.Format{Units: p.Profile.Units}
	from := "Traced from " + filepath.ToSlash(p.tracing.Image)
	if name := p.ScaleName(); name != "" {
		from += " by its scale " + name
	}
	out := []string{
		fmt.Sprintf("%s: a pixel is %s, itself known within %.2f %%.", from, p.PixelWords(f), 100*t.ScaleError),
		fmt.Sprintf("The section is %s (%.1f px) off %s at most, %s (%.2f px) in the mean; %s were allowed.",
			template.Fine(t.Greatest, f), t.GreatestPx, p.Measured(), template.Fine(t.Mean, f), t.MeanPx, template.Fine(t.Tolerance, f)),
	}
	for _, n := range p.Notes {
		out = append(out, "Note: "+n+".")
	}
	return out
}

// leastOff is the least that a size is said to be off by, mm: the last figure that is printed.
const leastOff = measure.MMPerInch / 1000

// offBy returns what the sizes of an element may be off by, in the words of a comment; "" when none is known.
func (p TracedProfile) offBy(element int) string {
	var out []string
	for _, s := range p.Truth.Sizes {
		if s.Element == element {
			out = append(out, s.Words()+" within "+template.Fine(max(leastOff, s.Error), measure.Format{Units: p.Profile.Units}))
		}
	}
	return strings.Join(out, ", ")
}

// SizeWords returns the sizes of an element, from 1, 0 for those of the profile as a whole, and what they may be off by: height 1/4 ± 0.006 in,
// ...; "" when none is known.
func (p TracedProfile) SizeWords(element int, f measure.Format) string {
	var out []string
	for _, s := range p.Truth.Sizes {
		if s.Element != element {
			continue
		}
		off := fmt.Sprintf("%.2f mm", max(0.01, s.Error)) // what is less than the last figure counts as that
		if f.Units == measure.Inches {
			off = fmt.Sprintf("%.3f in", max(0.001, s.Error/measure.MMPerInch))
		}
		if s.Error > math.Abs(s.MM) {
			out = append(out, fmt.Sprintf("%s %s, which the drawing does not tell", s.Words(), f.Bare(s.MM)))
			continue
		}
		out = append(out, fmt.Sprintf("%s %s ± %s", s.Words(), f.Bare(s.MM), off))
	}
	return strings.Join(out, ", ")
}

// Shows reports whether an overlay has anything to show: sections that were traced, or such as were found and not read.
func (t Tracing) Shows(found []TracedProfile) bool { return len(found)+len(t.unread) > 0 }

// Overlay returns the sheets on which the sections lie over the picture, those after them that were found and not read, numbered.
func (t Tracing) Overlay(found []TracedProfile, style template.Style) sheet.Document {
	title := t.Title
	if title == "" {
		title = t.Name
	}
	doc := sheet.Document{Title: title + ": traced"}
	for _, p := range found {
		doc.Pages = append(doc.Pages, template.OverlaySheets(template.Overlaid{
			Traced: p.Traced, Picture: t.Picture, Scale: p.ScaleName(),
		}, style)...)
	}
	for _, f := range t.unread {
		var u *trace.UnreadError
		errors.As(f.Err, &u)
		doc.Pages = append(doc.Pages, template.UnreadSheet(template.Unread{Title: f.Section, Picture: t.Picture, Outline: u.Outline, Why: u.Error()}, style))
	}
	return doc.Numbered()
}
