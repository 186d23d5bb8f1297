package template

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/scraper"
)

// A Remaining is wood that the set-ups leave on a section for the scraper.
type Remaining struct {
	Y0, Y1 float64 // mm, between which it lies
	Depth  float64 // mm
	AtMost bool    // Depth is a bound
}

// plungeWords says how a blade is pressed in.
func (st Style) plungeWords(plunge geom.Angle) string {
	switch d := plunge.Degrees(); {
	case math.Abs(d) < 0.05:
		return "straight in, level"
	case d > 89.95:
		return "straight down"
	case d < -89.95:
		return "straight up"
	case d > 0:
		return st.Lengths.Angle(plunge) + " from above"
	}
	return st.Lengths.Angle(plunge.Abs()) + " from below"
}

// leanWords says how a blade stands along the travel.
func (st Style) leanWords(lean geom.Angle) string {
	if lean == 0 {
		return "held square"
	}
	return "leaning " + st.Lengths.Angle(lean)
}

// guideWords says what a blade runs on.
func guideWords(g scraper.Guide) string {
	switch g.Kind {
	case scraper.GuideFoot:
		return "lip along the foot"
	case scraper.GuideTop:
		return "lip along the top"
	case scraper.GuideHold:
		return "the holder's fence"
	case scraper.GuideFlat:
		return fmt.Sprintf("shoulder on the finished %s %d", g.Member.Words(), g.Element)
	case scraper.GuideOwn:
		return fmt.Sprintf("its own flat, %s %d", g.Member.Words(), g.Element)
	}
	return "the curve itself; a steady hand"
}

// scrapedWords names the members that each blade of a plan scrapes: "1 fillet, 2 cove".
func scrapedWords(p scraper.Plan) []string {
	boxes := make([]geom.Rect, len(p.Section.Members))
	for i, m := range p.Section.Members {
		boxes[i] = m.Path.Bounds()
	}
	out := make([]string, len(p.Blades))
	for k, b := range p.Blades {
		var words []string
		for i, m := range p.Section.Members {
			if math.Min(boxes[i].Max.Y, b.Covers[1])-math.Max(boxes[i].Min.Y, b.Covers[0]) > 0.05 {
				words = append(words, fmt.Sprintf("%d %s", m.Index, m.Kind.Words()))
			}
		}
		out[k] = cmp.Or(strings.Join(words, ", "), "a level step")
	}
	return out
}

// fileWords lists the files for a blade, and what they cannot take out.
func (st Style) fileWords(files []scraper.File) string {
	if len(files) == 0 {
		return "a flat file; nothing in it is hollow"
	}
	var words []string
	counts := map[string]int{}
	for _, f := range files {
		w := string(f.Shape)
		if f.Shape == scraper.RoundFile {
			w = st.fileSize(f.Diameter) + " round"
		}
		if f.Leaves >= 0.005 {
			w += fmt.Sprintf(" (its edge leaves %s)", st.fine(f.Leaves))
		}
		if counts[w]++; counts[w] == 1 {
			words = append(words, w)
		}
	}
	for i, w := range words {
		if n := counts[w]; n > 1 {
			words[i] = fmt.Sprintf("%s, %d times", w, n)
		}
	}
	return strings.Join(words, "; ")
}

// fileSize names a round file by its diameter: files go by inches, in a metric shop too, where the millimeters follow.
func (st Style) fileSize(mm float64) string {
	in := measure.Format{Units: measure.Inches}.Drawing(mm)
	if st.inches() {
		return in
	}
	return fmt.Sprintf("%s (%s)", in, st.Lengths.Drawing(mm))
}

// placeWords names places of the face.
func (st Style) placeWords(p scraper.Place) string {
	where := fmt.Sprintf("%d %s", p.Element, p.Member.Words())
	if p.Y1-p.Y0 < 0.05 {
		return fmt.Sprintf("%s, a step %s up", where, st.Lengths.Drawing(p.Y0))
	}
	if p.Length < 2 {
		return fmt.Sprintf("%s, %s of it %s up", where, st.fine(p.Length), st.Lengths.Drawing(p.Y0))
	}
	return fmt.Sprintf("%s, from %s to %s up", where, st.Lengths.Drawing(p.Y0), st.Lengths.Drawing(p.Y1))
}

// remainsWords says what the set-ups left on the members of a section, from the foot upward: "0.30 mm at the cove (2)".
func (st Style) remainsWords(p scraper.Plan, remains []Remaining) string {
	var words []string
	for _, m := range p.Section.Members {
		box := m.Path.Bounds()
		var most Remaining
		for _, r := range remains {
			if math.Min(r.Y1, box.Max.Y)-math.Max(r.Y0, box.Min.Y) > 1e-6 && r.Depth > most.Depth {
				most = r
			}
		}
		if most.Depth < 0.01 {
			continue
		}
		about := ""
		if most.AtMost {
			about = "up to "
		}
		words = append(words, fmt.Sprintf("%s%s at the %s (%d)", about, st.leftOver(most.Depth), m.Kind.Words(), m.Index))
	}
	return strings.Join(words, ", ")
}

// remainsOf returns what a plan of set-ups leaves for the scraper: the depth where it says so, and where a face only does not come clean, the most
// that it leaves anywhere.
func remainsOf(p SetupPlan) []Remaining {
	out := []Remaining{}
	for _, u := range p.Plan.Unreached {
		out = append(out, Remaining{Y0: u.Y0, Y1: u.Y1, Depth: u.Deep})
	}
	const clean = 0.999 // of a face: the rest is rounding
	for _, f := range p.Plan.Faces {
		if f.Element == 0 || f.Clean >= clean || len(f.Points) == 0 {
			continue
		}
		r := Remaining{Y0: math.Inf(1), Y1: math.Inf(-1), Depth: p.Left, AtMost: true}
		for _, q := range f.Points {
			r.Y0, r.Y1 = math.Min(r.Y0, q[1]), math.Max(r.Y1, q[1])
		}
		out = append(out, r)
	}
	return out
}

// scraperNotes returns what is to be said of the blades of a plan, a paragraph each.
func (st Style) scraperNotes(p scraper.Plan, remains []Remaining) []string {
	var notes []string
	if remains != nil {
		words := st.remainsWords(p, remains)
		if words == "" {
			words = "next to nothing: the scraper only cleans"
		}
		notes = append(notes, "The set-ups leave for the scraper: "+words+".")
	}
	knives := p.Options.Head != nil
	if p.Section.Gap != nil {
		notes = append(notes, "Work the face before the dentils are cut: a blade drawn along them would catch in the gaps.")
	}
	for _, b := range p.Blades {
		for _, r := range b.Rubs {
			line := fmt.Sprintf("%s forms but only rubs on %s: a wall along the way that it is pressed in", b.Mark, st.placeWords(r))
			if len(r.Given) > 0 {
				line += "; blade " + strings.Join(r.Given, ", ") + " scrapes it"
			}
			notes = append(notes, line+".")
		}
	}
	for _, m := range p.Missed {
		why := "lies along the plunge asked for"
		if m.Why == scraper.Hidden {
			why = "is hidden from the plunge asked for"
		}
		if len(m.Given) > 0 {
			why += ", blade " + strings.Join(m.Given, ", ") + " scrapes it"
		}
		notes = append(notes, sentenceStart(st.placeWords(m))+" "+why+".")
	}
	for _, l := range p.Left {
		if l.Why == scraper.Small {
			notes = append(notes, "No blade gets into "+st.placeWords(l)+": clean it with a knife or a chisel's corner.")
		}
	}
	if knives {
		return append(notes, knifeCautions...)
	}
	if p.Options.Lean == 0 {
		notes = append(notes, "These blades are held square. One that leans is filed deeper, to another pattern: do not lean these.")
	}
	return append(notes, steelNotes...)
}

// What is said of every blade: common practice, no source.
var steelNotes = []string{
	"Glue the pattern to the steel, saw outside the line, file to its middle. File the edge square and turn a burr toward the face that is up; or file a bevel of 45 degrees " +
		"on the far side and use it as it is. Try it against the gauge, by eye against the light.",
	"Fresh edges and corners cut fingers: ease every edge but the lower one. Clamp the steel, wear eye protection, and keep your hands behind the edge.",
}

// What is said of every knife. The tooling's and the machine's own papers come first.
var knifeCautions = []string{
	"Knives go in pairs of the same weight and shape, balanced and set alike; a head out of balance shakes itself and the machine loose. Stay inside the limits that the head's " +
		"maker gives for knife projection, thickness, seat and speed; the blank here is a proposal, not a rule of any head.",
	"Feed by hand only with tooling that is made and marked for it, with limited projection; guard the head, keep hands away from it, use push blocks and hold-downs, take shallow passes, " +
		"and stop the spindle before you touch anything. Follow the manuals of machine and head and your local rules, and have a qualified person look at the first set.",
}
