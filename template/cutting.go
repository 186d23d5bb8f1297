package template

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"listel/miter"
	"listel/miter/stock"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A Cutting is what to buy for a job and how to cut it.
type Cutting struct {
	Purchase miter.Purchase
	Plan     stock.Plan
}

// Money returns an amount in the currency of the prices.
func Money(amount float64) string { return fmt.Sprintf("%.2f", amount) }

// BoardFeet returns an amount of board feet to a tenth, with its unit.
func BoardFeet(bf float64) string { return fmt.Sprintf("%.1f board feet", bf) }

// Liters returns the volume of boards as they are sold, in liters: a thousand of them are a cubic meter. It is 0 for sticks of unknown size.
func Liters(b stock.Buy) float64 {
	const liter = 1e6 // mm3
	return float64(b.Count) * b.Length * b.Width * b.Thickness / liter
}

// Volume returns how much wood is bought, the rack left out or alone, in board feet, and in liters where lengths are in millimeters; "" where it is not known.
func (c Cutting) Volume(rack bool, f measure.Format) string {
	feet, liters := 0.0, 0.0
	for _, b := range c.Plan.Buy {
		if b.Offcut == rack {
			feet, liters = feet+b.BoardFeet, liters+Liters(b)
		}
	}
	switch {
	case feet < 1e-9:
		return ""
	case f.Units == measure.Inches:
		return BoardFeet(feet)
	}
	return fmt.Sprintf("%.1f liters (%s)", liters, BoardFeet(feet))
}

// Amount returns the plan's cost, or its lower bound, in words: in the currency of the prices, or in wood where there are none.
func (c Cutting) Amount(v float64, f measure.Format) string {
	switch c.Plan.CostIn {
	case stock.InBoardFeet:
		return BoardFeet(v)
	case stock.InLength:
		f.Feet = true
		return f.Length(v)
	}
	return Money(v)
}

// Proof says how good the plan is known to be, in a sentence.
func (c Cutting) Proof(f measure.Format) string {
	p := c.Plan
	what, more := "costs less", "costs"
	if p.CostIn != stock.InPrice {
		what, more = "takes less wood", "takes"
	}
	way := "cut these sticks"
	if len(c.Purchase.Blanks) > 0 {
		way = "rip these boards full length, each strip for one section alone, and cut the strips"
	}
	if p.Proven {
		return fmt.Sprintf("Proven: no way to %s %s.", way, what)
	}
	ended := map[string]string{"time": "the time ran out", "effort": "the search reached its limit"}[p.Stopped]
	if ended == "" {
		ended = "the search ended early"
	}
	return fmt.Sprintf("Not proven: this plan %s %s, no way to %s comes to less than %s (a gap of %s); %s.", more, c.Amount(p.Cost, f),
		way, c.Amount(p.LowerBound, f), c.Amount(p.Gap, f), ended)
}

// Notes says in sentences what a maker should know beside the numbers: blanks glued up, strips that lie another way, rips on the slant, and where the
// grain is broken.
func (c Cutting) Notes(f measure.Format) []string {
	var out, edge []string
	for _, b := range c.Purchase.Blanks {
		if i := slices.IndexFunc(c.Plan.Sticks, func(s stock.Stick) bool { return s.Profile == b.Key && s.Layers > 1 }); i >= 0 {
			out = append(out, fmt.Sprintf("No stock is thick enough for %s: each of its blanks is glued up of %d layers%s.", b.For(), c.Plan.Sticks[i].Layers, c.glueLine(b, c.Plan.Sticks[i], f)))
		}
	}
	out = append(out, c.thinNotes(f)...)
	out = append(out, c.fullNotes(f)...)
	for _, b := range c.Plan.Boards {
		for _, r := range c.Rips(b) {
			if r.OnEdge && !slices.Contains(edge, c.Strip(r.Profile)) {
				edge = append(edge, c.Strip(r.Profile))
			}
			if r.Slant != nil {
				out = append(out, fmt.Sprintf("On board %d rip between the strips for %s with the blade tilted %s, so that the cut leans toward the %s of the molding, the molding's back on the table; the outer edges stay square.",
					b.N, c.Strip(r.Profile), f.Angle(r.Slant.Bevel), leansTo(r.Slant)))
			}
		}
	}
	if len(edge) > 0 {
		out = append(out, "The face of the board becomes the foot or the top, not the back, of "+ListWords(edge)+".")
	}
	for _, s := range c.Plan.Splits {
		var ends []string
		for i := 1; i < len(s.Runs); i++ {
			before := s.Runs[i-1]
			ends = append(ends, fmt.Sprintf("between %s and %s", before[len(before)-1], s.Runs[i][0]))
		}
		out = append(out, fmt.Sprintf("%s: its runs are longer together than any one stick, and the grain is broken %s.", sentenceStart(s.Wrap), ListWords(ends)))
	}
	return append(append(out, c.blankNotes(f)...), c.backingNotes(f)...)
}

// glueLine says where the last glue line of a blank lies when all layers but the last are as thick as their board gives: those toward the face, or toward
// the foot where the layers lie level.
func (c Cutting) glueLine(b miter.Blank, s stock.Stick, f measure.Format) string {
	thick := 0.0
	if it, ok := c.item(s.Item); ok {
		thick = stock.Surfaced(it.Thickness)
	}
	full := float64(s.Layers-1) * thick
	level := slices.ContainsFunc(c.Plan.Boards, func(board stock.Board) bool {
		return board.N == s.Board && slices.ContainsFunc(c.Rips(board), func(r RipPlan) bool { return r.Profile == b.Key && r.OnEdge })
	})
	if level {
		return fmt.Sprintf("; with full layers from the foot up the last glue line lies %s under the top", f.Length(b.Width-full))
	}
	return fmt.Sprintf("; with full layers toward the face the last glue line lies %s from the back", f.Length(b.Thickness-full))
}

// item returns the stock of that name, and whether there is any.
func (c Cutting) item(name string) (stock.Item, bool) {
	for _, it := range c.Purchase.Job.Stock {
		if it.Name == name {
			return it, true
		}
	}
	return stock.Item{}, false
}

// ListWords joins words as a sentence does: a, b and c.
func ListWords(s []string) string {
	if len(s) < 2 {
		return strings.Join(s, "")
	}
	return strings.Join(s[:len(s)-1], ", ") + " and " + s[len(s)-1]
}

// Sticks returns the plan's sticks in the order in which boards are ripped and cut. The strips of a board are numbered from its edge on, as Rips
// lays them out.
func (c Cutting) Sticks() []stock.Stick {
	sticks := slices.SortedStableFunc(slices.Values(c.Plan.Sticks), func(a, b stock.Stick) int {
		return cmp.Or(cmp.Compare(a.Board, b.Board), cmp.Compare(a.Strip, b.Strip))
	})
	for _, b := range c.Plan.Boards {
		n := 1
		for _, r := range b.Rips {
			for i := range sticks {
				if s := &sticks[i]; s.Board == b.N && s.Profile == r.Profile {
					s.Strip = n
					n += max(s.Layers, 1)
				}
			}
		}
	}
	return slices.SortedStableFunc(slices.Values(sticks), func(a, b stock.Stick) int {
		return cmp.Or(cmp.Compare(a.Board, b.Board), cmp.Compare(a.Strip, b.Strip))
	})
}

func leansTo(s *miter.Slant) string {
	if s.Slope > 0 {
		return "top"
	}
	return "foot"
}

// Strip names what a strip is for: the moldings that are cut from it, or "the pieces".
func (c Cutting) Strip(key string) string {
	b, ok := c.Purchase.Blank(key)
	if !ok {
		return "the pieces"
	}
	return b.For()
}

// A RipPlan is a number of equal strips on a board, as they are drawn.
type RipPlan struct {
	stock.Rip
	OnEdge bool         // the blank's thickness lies across the board
	Slant  *miter.Slant // nil when they are ripped square
	Rough  float64      // mm, the width to rip to, before jointing; of strips on the slant the width of the first
	From   float64      // mm across the board, where the first begins
	Each   float64      // mm, from one strip to the next, kerf and jointing included
	Strips int          // with the layers of glued blanks
}

// Rips returns the rips of a board from its one edge to the other. Where square rips yield as many strips as the slant, they are square.
func (c Cutting) Rips(b stock.Board) []RipPlan {
	shop := c.Purchase.Job.Shop
	var out []RipPlan
	square := 0.0
	for _, r := range b.Rips {
		blank, ok := c.Purchase.Blank(r.Profile)
		p := RipPlan{Rip: r, Strips: r.Count * max(r.Glued, 1), Each: r.Width + shop.Joint + shop.Kerf}
		if ok && !blank.Plain() {
			p.OnEdge = within(r.Width, blank.Thickness) && !within(r.Width, blank.Width)
		}
		if ok && blank.Slant != nil {
			p.Slant, p.Width, p.Each = blank.Slant, blank.Width, blank.Width+shop.Joint+shop.Kerf
		}
		p.Rough = p.Width + shop.Joint
		square += float64(p.Strips) * p.Each
		out = append(out, p)
	}
	at := 0.0
	for i := range out {
		p := &out[i]
		if square <= b.Width+shop.Kerf+1e-6 || p.Strips < 2 {
			p.Slant = nil
		}
		p.From = at
		if p.Slant != nil {
			p.Each = p.Slant.Pitch
			at += p.Slant.Width(p.Strips) + shop.Kerf
		} else {
			at += float64(p.Strips) * p.Each
		}
	}
	return out
}

func within(a, b float64) bool { return geom.Pt(a, 0).Near(geom.Pt(b, 0), 0.01) }

// Left returns the width of a board that no strip takes, mm.
func (c Cutting) Left(b stock.Board) float64 {
	shop := c.Purchase.Job.Shop
	used := 0.0
	for _, r := range c.Rips(b) {
		if r.Slant != nil {
			used = r.From + r.Slant.Width(r.Strips) + shop.Kerf
		} else {
			used = r.From + float64(r.Strips)*r.Each
		}
	}
	return max(0, b.Width-used)
}

// leastSpare is the width, in mm, that a board should have beyond its strips: boards are not as true as a list. Common practice, no source.
func leastSpare(f measure.Format) float64 { return inUnits(f, 1.0/4, 6) }

// fullNotes names the boards that the strips fill to the edge.
func (c Cutting) fullNotes(f measure.Format) []string {
	var full []string
	for _, b := range c.Plan.Boards {
		if len(b.Rips) > 0 && c.Left(b) < leastSpare(f) {
			full = append(full, fmt.Sprint(b.N))
		}
	}
	switch len(full) {
	case 0:
		return nil
	case 1:
		return []string{fmt.Sprintf("Less than %s is left across board %s: measure before you buy that it is as wide and as straight as it is listed.", f.Length(leastSpare(f)), full[0])}
	}
	return []string{fmt.Sprintf("Less than %s is left across boards %s: measure before you buy that they are as wide and as straight as they are listed.", f.Length(leastSpare(f)), ListWords(full))}
}
