package cutter

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/profile/measure"
)

// warning says what to watch in a set-up.
func warning(n note, t Tool) string {
	loose := "a strip of waste comes loose: stop feeding 1 in (25 mm) before the end of the stick, switch off, and when the cutter stands still saw the strip off by hand"
	if t.Works() == Plane {
		loose = "a strip of waste comes loose with the last passes: hold it, and lift it off before you plane on"
	}
	texts := []struct {
		bit  note
		text string
	}{
		{noTable, "nothing bears on the table any more: fix the work to a carrier board"},
		{noFence, "nothing bears on the fence any more: fix the work to a carrier board"},
		{trapped, "the work lies between tool and fence: fix it to a carrier board, or cut this by hand"},
		{bodyHits, "the shank runs in waste: clear that by hand first"},
		{noPilot, "the pilot has nothing to run on: guide the work by the fence alone"},
		{tableGoes, "this cut takes what bears on the table: support the work behind the cutter, or leave the ends of the stick uncut"},
		{fenceGoes, "this cut takes what bears on the fence: set the outfeed fence forward by the cut"},
		{narrowTable, "little bears on the table: hold the work down with a featherboard"},
		{narrowFence, "little bears on the fence: keep it against it with a featherboard"},
		{tips, "the work would tip away from the fence: hold it down on the fence side"},
		{hogs, "much to take: light passes"},
		{comesLoose, loose},
	}
	var out []string
	if both := narrowTable | narrowFence; n&both == both && t.Works() != Plane {
		n &^= both
		out = append(out, "little bears on table and fence: featherboards on both")
	}
	for _, w := range texts {
		if n&w.bit != 0 && (t.Works() != Plane || w.bit != narrowTable) {
			out = append(out, w.text)
		}
	}
	words := joined(out...)
	if t.Works() == Plane {
		words = atBench.Replace(words)
	}
	return words
}

// atBench puts the words of the bench in place of those of machines.
var atBench = strings.NewReplacer("on the table", "on the bench", "on the fence", "on the stop", "behind the cutter", "behind the plane", "away from the fence", "away from the stop",
	"on the fence side", "on the side of the stop", "set the outfeed fence forward by the cut", "hold the stick on the bench by its ends")

// joined joins what is not empty with semicolons.
func joined(texts ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return s == "" }), "; ")
}

// stripWords says where what bears is a strip that may break, "" where none is. A plane's stop holds little against its side: of that nothing is said.
func stripWords(u Setup) string {
	table, fence := u.TableStrip, u.FenceStrip
	where, on := "the table", table
	switch {
	case u.Work == Plane:
		where = "the bench"
	case table > 0 && fence > 0:
		where, on = "the table and on the fence", math.Min(table, fence)
	case fence > 0:
		where, on = "the fence", fence
	}
	if on == 0 {
		return ""
	}
	return fmt.Sprintf("a strip only %s thick lies on %s and may break: back it with a slip of wood, or leave the blank thicker there until last", inBoth(on), where)
}

// shortWords says that a bit is set to take more at once than the length of it that cuts, "" where it is not, but for a
// hair of 1/32 in.
func shortWords(u Setup, t Tool) string {
	if t.Length == 0 || u.Engages <= t.Length+measure.MMPerInch/32 {
		return ""
	}
	return fmt.Sprintf("this takes %s where only %s of the bit cuts: raise it pass by pass, its shank must never rub, or take a longer one", inBoth(u.Engages), inBoth(t.Length))
}

// inBoth writes a length as one speaks of it, whatever the units of the reader: 1/16 in (1.6 mm), the fraction to 1/32.
func inBoth(mm float64) string {
	const unit = measure.MMPerInch / 32
	f := measure.Format{Units: measure.Inches, Fraction: 32}
	return fmt.Sprintf("%s (%s)", f.Length(math.Max(1, math.Round(mm/unit))*unit), inMM(math.Round(mm*10)/10))
}
