package template

import (
	"fmt"
	"math"

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

// onEdge says on what boards the strips of a thin blank are molded: on those of the plan that leave enough beside them, for the others on one that the plan does
// not count.
func (c Cutting) onEdge(b miter.Blank, f measure.Format) string {
	var enough []string
	n, each, long := 0, 0.0, 0.0
	for _, board := range c.Plan.Boards {
		for _, r := range c.Rips(board) {
			if r.Profile != b.Key {
				continue
			}
			if r.Each+c.Left(board) >= leastBoard(f) {
				enough = append(enough, fmt.Sprint(board.N))
				continue
			}
			n, each = n+r.Strips, max(each, r.Each)
			for _, s := range c.Plan.Sticks {
				if s.Board == board.N && s.Profile == b.Key {
					long = max(long, s.Length-s.Left)
				}
			}
		}
	}
	text := fmt.Sprintf("Do not rip its strips off first: mold each on the edge of a board planed to %s and at least %s wide, then rip it off.", f.Length(min(b.Width, b.Thickness)), boardFor(f))
	switch len(enough) {
	case 0:
	case 1:
		text += fmt.Sprintf(" Board %s leaves that beside them: rip the other strips from it, and keep the rest in one.", enough[0])
	default:
		text += fmt.Sprintf(" Boards %s leave that beside them: rip the other strips from them, and keep the rest of each in one.", ListWords(enough))
	}
	if n == 0 {
		return text
	}
	return text + fmt.Sprintf(" The plan counts no more than the strips take, %s with their kerfs for %d. NOT COUNTED is the rest of the board that the last of them still needs: keep one %s wide "+
		"and %s long, or screw a narrow one, lengthwise, to the edge of another.", f.Length(float64(n)*each), n, f.Length(leastBoard(f)+float64(n-1)*each), f.Length(long))
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
			for _, it := range c.Purchase.Job.Stock {
				if it.Name == board.Item {
					have = math.Min(have, stock.Surfaced(it.Thickness))
				}
			}
		}
	}
	return have, need > 0 && !math.IsInf(have, 1) && 2*need+c.Purchase.Job.Shop.Kerf <= have+1e-6
}
