package serve

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A dimView is a dimension: between which points, what it says, and on which side of the section it is drawn. Index is the member's,
// from 0, -1 for the whole.
type dimView struct {
	From  [2]float64 `json:"from"`
	To    [2]float64 `json:"to"`
	Text  string     `json:"text"`
	Side  string     `json:"side"` // left, right: upright beside it; foot, top: along below or above
	Index int        `json:"index"`
	Of    string     `json:"of"`             // height, projection, set, ground
	Fine  string     `json:"fine,omitempty"` // the text on paper, to 1/64 in as on the sheets, where it is another
}

// dims returns the dimensions of a section: the members' rises on the right, the whole height on the left, the whole reach above, runs and
// steps above or below after the half they lie in, and the ground below.
func dims(s profile.Section, f measure.Format) []dimView {
	var out []dimView
	add := func(from, to geom.Point, side, of string, index int) {
		size := math.Abs(to.X - from.X)
		if side == "left" || side == "right" {
			size = math.Abs(to.Y - from.Y)
		}
		if size > 1e-6 {
			out = append(out, dimView{xy(from), xy(to), f.Drawing(size), side, index, of, fine(measure.Format.Drawing, size, f)})
		}
	}
	for _, m := range s.Members {
		i := m.Index - 1
		foot, top := ends(m)
		add(foot, top, "right", "height", i)
		side := "top"
		if foot.Y+top.Y < s.Height {
			side = "foot"
		}
		add(foot.Sub(geom.Pt(m.Set, 0)), foot, side, "set", i)
		add(foot, top, side, "projection", i)
	}
	add(geom.Pt(0, 0), geom.Pt(0, s.Height), "left", "height", -1)
	add(geom.Pt(0, 0), geom.Pt(s.Ground, 0), "foot", "ground", -1)
	add(geom.Pt(0, s.Height), geom.Pt(s.Projection, s.Height), "top", "projection", -1)
	return out
}

// fine returns a length as print has it to 1/64 in, "" where that is what f says.
func fine(print func(measure.Format, float64) string, mm float64, f measure.Format) string {
	whole := print(f, mm)
	f.Fraction = 64
	if text := print(f, mm); text != whole {
		return text
	}
	return ""
}

// ends returns where a member starts, after its step, and where it ends.
func ends(m profile.Member) (foot, top geom.Point) {
	foot = geom.Pt(m.Start, m.Foot)
	if len(m.Path) > 0 { // a bead's height is without its quirks: the path has them
		return foot, m.Path.End()
	}
	return foot, foot.Add(geom.Pt(m.Projection, m.Height))
}
