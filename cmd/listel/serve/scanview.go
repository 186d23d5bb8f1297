package serve

import (
	"fmt"
	"strings"

	"listel/cmd/listel/job"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
	"listel/template"
)

// A tracedView is a section that was traced, as the page shows it.
type tracedView struct {
	Name    string         `json:"name"`
	Title   string         `json:"title"`
	Text    string         `json:"text"`    // of the profile's file
	Section string         `json:"section"` // outline of the profile, in pixels of the picture, y down
	Traced  string         `json:"traced"`  // outline that was found in the picture, likewise
	Worst   [2]float64     `json:"worst"`   // px: where the two are farthest apart
	Pixels  [9]float64     `json:"pixels"`  // from mm of the section to pixels: rows of a 3 x 3 matrix
	Box     [4]float64     `json:"box"`     // of the section, mm: x, y, width, height
	Within  bool           `json:"within"`
	Truth   []string       `json:"truth"` // in words
	Members []tracedMember `json:"members"`
	Whole   string         `json:"whole"` // sizes of the profile as a whole, and what they may be off by
	Notes   []string       `json:"notes"`
}

// A tracedMember is an element with its sizes and what they may be off by.
type tracedMember struct {
	Title string `json:"title"`
	Sizes string `json:"sizes"`
}

// newTracedView returns a traced section as the page shows it.
func newTracedView(p job.TracedProfile, f measure.Format) (*tracedView, error) {
	text, err := p.Text()
	if err != nil {
		return nil, err
	}
	u := p.Truth
	worst := p.Pixels.Apply(u.Worst)
	out := &tracedView{
		Name: p.Profile.Name, Title: p.Profile.Title, Text: string(text), Section: inPixels(p.Section.Outline, p.Pixels), Traced: inPixels(p.Outline, p.Pixels),
		Worst: xy(worst), Pixels: p.Pixels.M, Box: boxOf(p.Section.Outline.Bounds()), Within: u.Within, Truth: truthWords(p, f),
		Members: []tracedMember{}, Whole: p.SizeWords(0, f), Notes: append([]string{}, p.Notes...),
	}
	for i, n := range out.Notes {
		out.Notes[i] = inPageWords(n)
	}
	for i, e := range p.Profile.Elements {
		out.Members = append(out.Members, tracedMember{fmt.Sprintf("%d %s", i+1, strings.ReplaceAll(string(e.Kind), "-", " ")), p.SizeWords(i+1, f)})
	}
	return out, nil
}

// truthWords says how true the section is to the drawing.
func truthWords(p job.TracedProfile, f measure.Format) []string {
	u := p.Truth
	verdict := fmt.Sprintf("It is within the %s that were allowed.", template.Fine(u.Tolerance, f))
	if !u.Within {
		verdict = fmt.Sprintf("That is MORE than the %s that were allowed: look at the marked place.", template.Fine(u.Tolerance, f))
	}
	if len(p.Wanted.Points) > 0 {
		if u.Within {
			verdict = ""
		}
		verdict = strings.TrimSpace(verdict + " How true the points are to the ink was not looked at.")
	}
	return []string{
		fmt.Sprintf("At most %s (%.1f px) off %s, at %s from the back and %s up; %s (%.2f px) in the mean. %s",
			template.Fine(u.Greatest, f), u.GreatestPx, p.Measured(), f.Length(u.Worst.X), f.Length(u.Worst.Y), template.Fine(u.Mean, f), u.MeanPx, verdict),
		fmt.Sprintf("A pixel is %s, known within %.2f %%.", template.Fine(p.Pixel(), f), 100*u.ScaleError),
	}
}

// inPixels returns the d of an SVG path of an outline taken into the picture, its curves as lines too short to be told.
func inPixels(outline geom.Path, m trace.Mapping) string {
	var d []byte
	for i, q := range outline.Flatten(0.1 / m.Size(outline.Bounds().Center())) {
		d = appendPoint(append(d, map[bool]byte{true: 'M', false: 'L'}[i == 0]), m.Apply(q))
	}
	return string(append(d, 'Z'))
}
