package template

import (
	"fmt"

	"listel/profile"
	"listel/profile/measure"
)

// blankNotes says from which blank the sprung moldings are made, where that is not the flat one that anybody would expect.
func (c Cutting) blankNotes(f measure.Format) []string {
	var out []string
	for _, b := range c.Purchase.Blanks {
		s := b.Section
		switch up := s.From(profile.BlankUpright).Blank(); {
		case s.Spring == nil || b.Plain():
		case s.BlankWay == profile.BlankUpright:
			out = append(out, fmt.Sprintf("From an upright blank, its leaning back sawn off: %s. Keep the wood that falls off for the backing.", b.For()))
		case s.BlankWay == profile.BlankEither:
			out = append(out, fmt.Sprintf("Sprung, and nothing says from which blank it is made: %s. The flat one is counted; see the set-ups first: they may take an upright one, %s by %s.",
				b.For(), f.Length(up.Width), f.Length(up.Thickness)))
		}
	}
	return out
}
