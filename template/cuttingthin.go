package template

import (
	"fmt"
	"math"
	"slices"

	"listel/miter"
	"listel/miter/stock"
	"listel/profile/measure"
	"listel/template/cutter"
)

// thinNotes says of which blanks two and a kerf fit in the thickness of their boards, so that these are better resawn than planed away, and which are
// too thin to be machined loose.
func (c Cutting) thinNotes(f measure.Format) []string {
	var out []string
	for _, b := range c.Purchase.Blanks {
		switch {
		case b.Plain() || len(ThinSection(b.Width, b.Thickness, f)) == 0:
		case cutter.FromSection(b.Section).RunsOut():
			out = append(out, fmt.Sprintf("%s: too thin to be machined as a loose stick, and no board can stay behind it, since it runs out at foot and top. Have a carrier board at least %s wide "+
				"at hand to fix the strip to; it is not counted.", sentenceStart(b.For()), boardFor(f)))
		default:
			out = append(out, sentenceStart(b.For())+": too thin to be machined as a loose stick. "+c.onEdge(b, f))
		}
		if have, ok := c.resawn(b); ok {
			out = append(out, fmt.Sprintf("%s: two blanks and a kerf fit in the %s of the surfaced board. Resaw it where you can, in place of planing the rest away: wide, on a band saw, "+
				"guarded as its manual says. The plan counts one blank and so buys no less.", sentenceStart(b.For()), f.Length(have)))
		}
	}
	return out
}

// onEdge says on what boards the strips of a thin blank are molded.
func (c Cutting) onEdge(b miter.Blank, f measure.Format) string {
	var boards []string
	for _, board := range c.Plan.Boards {
		if slices.ContainsFunc(board.Rips, func(r stock.Rip) bool { return r.Profile == b.Key }) {
			boards = append(boards, fmt.Sprint(board.N))
		}
	}
	thick := f.Length(min(b.Width, b.Thickness))
	text := fmt.Sprintf("Do not rip its strips off first: mold each on the edge of a board planed to %s and at least %s wide, then rip it off.", thick, boardFor(f))
	switch len(boards) {
	case 0:
		return text
	case 1:
		return text + fmt.Sprintf(" Board %s is counted for it: rip its other strips off first, plane the rest in one piece.", boards[0])
	}
	return text + fmt.Sprintf(" Boards %s are counted for it: rip their other strips off first, plane the rest of each in one piece.", ListWords(boards))
}

// edgeBoard returns how wide the board must be that the strips of a blank are molded on the edge of, in mm; 0 for strips that are ripped first.
func (c Cutting) edgeBoard(key string) float64 {
	for _, p := range c.Purchase.Job.Profiles {
		if p.Key == key {
			return p.Board
		}
	}
	return 0
}

// resawn returns the least surfaced thickness of the boards that a blank's strips come from, and whether it holds two of them and a kerf.
func (c Cutting) resawn(b miter.Blank) (have float64, ok bool) {
	have = math.Inf(1)
	need := 0.0
	for _, board := range c.Plan.Boards {
		for _, r := range c.Rips(board) {
			if r.Profile != b.Key {
				continue
			}
			thick := b.Thickness
			if r.OnEdge {
				thick = b.Width
			}
			need = math.Max(need, thick)
			if it, known := c.item(board.Item); known {
				have = math.Min(have, stock.Surfaced(it.Thickness))
			}
		}
	}
	return have, need > 0 && !math.IsInf(have, 1) && 2*need+c.Purchase.Job.Shop.Kerf <= have+1e-6
}
