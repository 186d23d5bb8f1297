package template

import (
	"fmt"
	"math"

	"listel/profile"
	"listel/profile/measure"
)

// BetweenDentils says how the gaps of a section's dentils are cut across the stick once its set-ups are done: how deep, with what, where it stops,
// and from what they are spaced. It is nil for a section without dentils. Common practice, no source.
func BetweenDentils(s profile.Section, f measure.Format) []string { return betweenDentils(s, f.Length) }

func betweenDentils(s profile.Section, length func(mm float64) string) []string {
	var out []string
	for _, m := range innermost(s.Members) {
		if m.Dentils == nil {
			continue
		}
		d, foot := *m.Dentils, m.Foot
		ground, top := m.Start-d.Depth, foot+m.Height
		below, above := reachesOut(s, math.Inf(-1), foot), reachesOut(s, top, math.Inf(1))
		text := fmt.Sprintf("Then the gaps of member %d, dentils: across the finished stick, %s deep, which leaves the ground %s from the back, between %s and %s from the foot. ",
			m.Index, length(d.Depth), length(ground), length(foot), length(top))
		const touch = 0.01
		switch {
		case below <= ground+touch && above <= ground+touch:
			text += fmt.Sprintf("Nothing stands out beyond the ground above or below: crosscut them on the saw, front on the table, blade or dado set %s high, "+
				"the stick square to the miter gauge against a stop.", length(d.Depth))
		case below <= ground+touch:
			text += fmt.Sprintf("They are open from below and end at the member above: rout each from the foot up with a straight bit no wider than the gap, set %s deep from the face of the blocks, "+
				"against a square guide with a stop at %s from the foot; the bit leaves round corners at the top, which a chisel squares.", length(d.Depth), length(top))
		case above <= ground+touch:
			text += fmt.Sprintf("They are open from above and end at the member below: rout each from the top down with a straight bit no wider than the gap, set %s deep from the face of the blocks, "+
				"against a square guide with a stop at %s from the foot; the bit leaves round corners at the bottom, which a chisel squares.", length(d.Depth), length(foot))
		default:
			text += "Members above and below stand in the way of a saw: saw down both sides of each gap with a backsaw and pare to the ground with a chisel, or make the blocks on a strip of their own and glue it on."
		}
		out = append(out, text,
			fmt.Sprintf("Blocks are %s wide, gaps about %s: the exact gap and the pitch of each face stand on the sheet of the case's dentils, with tapes to mark from. Make the first cut on a mark; "+
				"let the pitch of the others be kept by a pin in the guide, or the miter gauge's fence, that stands one pitch from the cutter and drops into the gap before. "+
				"Try pin and cutter on waste: an error of a hair adds up.", length(d.Block), length(d.Gap)))
	}
	return out
}

// innermost returns the members, those of stacks in place of the stacks.
func innermost(members []profile.Member) []profile.Member {
	var out []profile.Member
	for _, m := range members {
		if len(m.Inner) > 0 {
			out = append(out, innermost(m.Inner)...)
		} else {
			out = append(out, m)
		}
	}
	return out
}

// reachesOut returns the greatest x of the section strictly between two heights, minus infinity when there is nothing.
func reachesOut(s profile.Section, from, to float64) float64 {
	out := math.Inf(-1)
	for _, seg := range s.Outline {
		for _, p := range seg.Flatten(0.01) {
			if p.Y > from+0.01 && p.Y < to-0.01 {
				out = math.Max(out, p.X)
			}
		}
		if a, b := seg.Start(), seg.End(); a.Y < from && b.Y > to || b.Y < from && a.Y > to {
			out = math.Max(out, math.Max(a.X, b.X))
		}
	}
	return out
}
