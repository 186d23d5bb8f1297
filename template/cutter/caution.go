package cutter

import (
	"fmt"

	"listel/profile/measure"
)

// facingCaution is said once of a plan in which a blade comes to the fence.
const facingCaution = "A blade that comes to the fence must never touch metal: a sacrificial facing of wood, clamped to the saw's fence above and behind the cut; the blade lowered, the facing " +
	"set, the blade raised into it running. Not on a saw whose manual forbids it: make that cut in another way."

// CautionWords returns the usual cautions for the machines of a plan, their lengths in f. safe is the length, in mm, of the shortest stick that is held at a machine by
// hand, 0 where the shop has said nothing: then 12 in or 300 mm. Common practice, no source.
func (r Result) CautionWords(f measure.Format, safe float64) []string {
	works, faced := map[Work]bool{}, false
	for _, s := range r.Setups {
		works[s.Work] = true
		faced = faced || facingWords(s, f) != ""
	}
	foot := round2(12, 300, f)
	short := foot
	if safe > 0 {
		short = plain(safe, f)
	}
	out := []string{}
	if works[Saw] || works[Router] {
		out = append(out,
			"Follow the machine's manual, local rules and the guidance of a qualified person; they come before this sheet.",
			fmt.Sprintf("Mold a long stick and cut the pieces from it afterwards: nothing shorter than %s without a fixture, hands %s from the cutter.", short, foot),
			"Eyes, ears and breath protected; the machine disconnected while a tool or a setting is changed.",
			"Guards on, featherboards and push blocks; stand beside the line of the cut.",
			"Try each set-up on a test piece of the same size first.")
	}
	if works[Router] {
		out = append(out,
			"Router table or shaper: feed against the turning of the cutter, never between cutter and fence; fence opening as small as it can be; no sensible vibration at full speed.")
	}
	if works[Saw] {
		out = append(out,
			"Saw: a cut that does not go through needs its own guard or a riving knife under the blade's top; an offcut must fall free on the side away from the fence.")
	}
	if faced {
		out = append(out, facingCaution)
	}
	if works[Plane] {
		out = append(out, "Planes: keep irons sharp and fingers off the sole; the stick held against a stop over its whole length.")
	}
	return out
}
