package template

import (
	"fmt"

	"listel/profile"
	"listel/profile/measure"
)

// backingNotes says what the three-cornered strips behind sprung moldings take: they are not counted, since any wood will do. Of an upright blank they fall off.
func (c Cutting) backingNotes(f measure.Format) []string {
	var out []string
	for _, b := range c.Purchase.Blanks {
		s := b.Section
		if s.Spring == nil || b.Plain() || s.BlankWay == profile.BlankUpright {
			continue
		}
		long, count := 0.0, 0
		for _, p := range c.Purchase.Job.Pieces {
			if p.Profile == b.Key {
				long, count = long+float64(p.Count)*p.Length, count+p.Count
			}
		}
		strips := "one strip"
		if count > 1 {
			strips = fmt.Sprintf("%d strips", count)
		}
		up := s.Height - s.Spring.Wall
		out = append(out, fmt.Sprintf("Not counted: the backing behind %s, three-cornered, %s on the case by %s under the top, %s of it in %s cut as its pieces are. Secondary wood does.",
			b.For(), f.Length(up), f.Length(up*s.Spring.Angle.Tan()), f.Length(long), strips))
	}
	return out
}

// blankNotes says from which blank the sprung moldings are made, where that is not the flat one that anybody would expect.
func (c Cutting) blankNotes(f measure.Format) []string {
	var out []string
	for _, b := range c.Purchase.Blanks {
		s := b.Section
		switch {
		case s.Spring == nil || b.Plain():
		case s.BlankWay == profile.BlankUpright:
			out = append(out, fmt.Sprintf("From an upright blank, its sloping back sawn off: %s. Keep the wood that falls off for the backing.", b.For()))
		case s.BlankWay == profile.BlankEither:
			found, do := OpenBlank(sentenceStart(b.For()), s, f)
			out = append(out, found+do)
		}
	}
	return out
}

// OpenBlank says of what, the start of a sentence, that is made to a sprung section, that nobody has said from which blank: the flat one is then counted.
// do, the end of the sentence, is what to write in the file.
func OpenBlank(what string, s profile.Section, f measure.Format) (found, do string) {
	up := s.From(profile.BlankUpright).Blank()
	found = fmt.Sprintf("%s: sprung, and nothing says from which blank it is made. The flat one is counted; its set-ups may take an upright one, %s by %s. See them first",
		what, f.Length(up.Width), f.Length(up.Thickness))
	return found, ", or write blank: flat or blank: upright under the molding."
}
