package cutter

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/profile/measure"
)

// A Note names something to watch in a set-up, as its JSON does.
type Note string

// noteNames are the notes by their bits.
var noteNames = [...]Note{
	"no-table", "no-fence", "trapped", "body-hits", "no-pilot", "table-goes", "fence-goes", "narrow-table", "narrow-fence", "tips", "hogs", "comes-loose", "idle",
}

// names returns the notes by their names.
func (n note) names() []Note {
	out := []Note{}
	for i, name := range noteNames {
		if n&(1<<i) != 0 {
			out = append(out, name)
		}
	}
	return out
}

// notesOf returns the notes of those names.
func notesOf(names []Note) note {
	n := note(0)
	for _, name := range names {
		if i := slices.Index(noteNames[:], name); i >= 0 {
			n |= 1 << i
		}
	}
	return n
}

// Words says what to watch in a set-up, its lengths in f: "" where there is nothing.
func (u Setup) Words(f measure.Format) string {
	if u.Rips {
		return "feed the board, never the strip: push stick, guard and riving knife, an insert without a gap; stand out of the strip's line"
	}
	return joined(noteWords(notesOf(u.Watch), u.Work, f), facingWords(u, f), stripWords(u, f), shortWords(u, f))
}

// noteWords says what notes tell.
func noteWords(n note, w Work, f measure.Format) string {
	loose := fmt.Sprintf("a strip of waste comes loose: stop feeding %s before the end of the stick, switch off, and when the cutter stands still saw the strip off by hand", round2(1, 25, f))
	if w == Plane {
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
	if both := narrowTable | narrowFence; n&both == both && w != Plane {
		n &^= both
		out = append(out, "little bears on table and fence: featherboards on both")
	}
	for _, t := range texts {
		if n&t.bit != 0 && (w != Plane || t.bit != narrowTable) {
			out = append(out, t.text)
		}
	}
	words := joined(out...)
	if w == Plane {
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
func stripWords(u Setup, f measure.Format) string {
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
	return fmt.Sprintf("a strip only %s thick lies on %s and may break: back it with a slip of wood, or leave the blank thicker there until last", spoken(on, f), where)
}

// shortOf returns the length of a bit that cuts, in mm, where it is set to take more at once than that, but for a hair of 1/32 in; else 0.
func shortOf(engages float64, t Tool) float64 {
	if t.Length == 0 || engages <= t.Length+measure.MMPerInch/32 {
		return 0
	}
	return t.Length
}

// shortWords says that a bit is set to take more at once than the length of it that cuts, "" where it is not.
func shortWords(u Setup, f measure.Format) string {
	if u.Short == 0 {
		return ""
	}
	return fmt.Sprintf("this takes %s where only %s of the bit cuts: raise it pass by pass, its shank must never rub, or take a longer one", spoken(u.Engages, f), spoken(u.Short, f))
}

// spoken writes a length as one speaks of it: to 1/32 in, or a tenth of a millimeter.
func spoken(mm float64, f measure.Format) string {
	if f.Units != measure.Inches {
		return f.Length(mm)
	}
	const unit = measure.MMPerInch / 32
	return measure.Format{Units: measure.Inches, Fraction: 32}.Length(math.Max(1, math.Round(mm/unit)) * unit)
}

// round2 writes a length that is a round number in either unit, in inches or millimeters.
func round2(in, mm float64, f measure.Format) string {
	if f.Units == measure.Inches {
		return plain(in*measure.MMPerInch, f)
	}
	return plain(mm, f)
}

// plain writes a length with its unit and no zeros that nobody needs: 12 in, 300 mm.
func plain(mm float64, f measure.Format) string { return f.Entry(mm) + " " + f.Units.String() }
