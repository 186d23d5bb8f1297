package template

import (
	"fmt"

	"listel/profile/measure"
	"listel/template/cutter"
)

// ThinSection says how a section is to be molded whose blank, width by thickness in mm, is too thin to be machined as a loose stick: on the edge
// of a board that is ripped off after, common practice, no source. It is nil for a blank that is at least 1/2 in either way.
func ThinSection(width, thickness float64, f measure.Format) []string {
	if min(width, thickness) >= cutter.ThinStick-0.01 {
		return nil
	}
	least := "13 mm"
	if f.Units == measure.Inches {
		least = "1/2 in"
	}
	return []string{
		fmt.Sprintf("DO NOT MACHINE THIS AS A LOOSE STICK: it is thinner than %s. Mold it on the edge of a board at least %s wide, then rip it off, so that the molding "+
			"falls free outside the blade and is not caught between blade and fence; joint the edge and mold the next.", least, boardFor(f)),
		"The pictures leave the board out and measure as if the strip lay there by itself. On the board keep each cut's shape and its place from the molded edge and from the board's faces; one that is set from " +
			"the back, which is still in the board, or that lays the strip in a way the board cannot lie, must be set anew on a test piece.",
		thinCaution,
	}
}

const thinCaution = "Use a featherboard and a push stick, the blade's guard and riving knife, and a zero-clearance insert where the strip comes free; stand out of the strip's line. " +
	"The manuals of the machines, local rules and a qualified person's guidance come first."

// stripOf returns what a molding takes of the width of the board whose edge it is, mm.
func stripOf(p cutter.Result) float64 { return p.Blank.Width - p.Blank.Board }

// ThinPlan says the same of the blank of a plan, by machine or by hand; nil when it is thick enough.
func ThinPlan(p cutter.Result, f measure.Format) []string {
	if p.Blank.Board > 0 {
		return []string{
			fmt.Sprintf("NOT AS A LOOSE STICK. Mold it on the edge of a board at least %s wide, then rip it off: the board planed to %s, each molding %s of its width and a kerf. "+
				"It falls free outside the blade, not between blade and fence; joint the edge and mold the next.", boardFor(f), f.Drawing(p.Blank.Thickness), f.Drawing(stripOf(p))),
			"No fence but the last bears on the board's other edge: the settings hold as it grows narrower. For the last, set the fence to the board as it is, the blade just outside " +
				"the scribed line. Screw a board that has grown too narrow to a wider one.",
			thinCaution,
		}
	}
	words := ThinSection(p.Blank.Width, p.Blank.Thickness, f)
	hand := len(p.Setups) > 0 && p.Setups[0].Work == cutter.Plane
	switch {
	case p.Blank.RunsOut && hand:
		return []string{"Too thin to plane as a loose stick, and it runs out at foot and top: plane it on a sticking board, its back held down by thin double-faced tape, or by tacks through " +
			"waste left at both ends. Pictures and settings leave the sticking board out."}
	case p.Blank.RunsOut:
		return []string{
			fmt.Sprintf("NOT AS A LOOSE STICK, and not on the edge of a board: it runs out at foot and top, so that no board can stay behind it. Fix the strip by its back to a carrier board at least "+
				"%s wide and as long, by double-faced tape over its whole length, or by screws through waste left at both ends, and leave it there to the last cut.", boardFor(f)),
			"The pictures leave the carrier out and measure as if the strip lay there by itself. On the carrier keep each cut's shape and its place on the strip; what is set from the back, or lays it on a face that the " +
				"carrier covers, must be set anew on a test piece.",
			thinCaution,
		}
	case len(words) == 0 || !hand:
		return words
	}
	return []string{fmt.Sprintf("Too thin to plane as a loose stick: mold it on the edge of a board at least %s wide, then rip it off. Pictures and settings leave the board out.",
		boardFor(f))}
}

// boardFor returns the least width of the board that a thin section is molded on, in round figures: common practice, no source.
func boardFor(f measure.Format) string {
	if f.Units == measure.Inches {
		return "4 in"
	}
	return "100 mm"
}

// thinWords returns what is to be said of the plan's blank when it is too thin to be worked alone.
func (c *setupComposer) thinWords() []string { return ThinPlan(c.plan.Plan, c.st.Lengths) }
