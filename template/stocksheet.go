package template

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"listel/miter/stock"
	"listel/profile/geom"
	"listel/template/sheet"
)

// StockSheets returns the sheets of what to buy and how to cut it: a buying list to read out at the yard, then each board and stick with its rips
// and cuts. The pages are not yet numbered.
func StockSheets(c Cutting, st Style) []sheet.Page {
	s := &stockSheets{c: c, st: st.roomy()}
	return append(s.buyPages(), s.cutPages()...)
}

// stockSheetsOf returns the stock sheets of a job, none when it has no plan.
func stockSheetsOf(job Job, st Style) []sheet.Page {
	if job.Stock == nil {
		return nil
	}
	return StockSheets(*job.Stock, st)
}

// A stockSheets composes the sheets of one cutting.
type stockSheets struct {
	c  Cutting
	st Style
}

// buyPages returns the buying list.
func (s *stockSheets) buyPages() []sheet.Page {
	f := s.st.sheetFrame("What to buy", sentence("Read it out at the yard; sizes are the least that will do, rough as sold", s.st.unitNote()))
	area := f.Area(s.st.Paper)
	var strips []strip
	total := s.total(area.Width())
	tables := s.fitted(s.buyTable, area.Width()).Split(area.Height() - total.Bounds().Height() - 6)
	for i, t := range tables {
		laid := t.Set(geom.Point{})
		if d := laid.Drawing; i == len(tables)-1 {
			strips = append(strips, newStrip(d.Add(total.At(geom.Pt(0, -laid.Height-6))...)))
		} else {
			strips = append(strips, newStrip(d))
		}
	}
	if len(s.c.Purchase.Blanks) > 0 {
		for i, t := range s.fitted(s.yieldTable, area.Width()).Split(area.Height() - 12) {
			d := t.Set(geom.Point{}).Drawing
			if i == 0 {
				d = d.Add(sheet.Text{At: geom.Pt(0, 3), S: "What the boards must yield", Size: headingSize, Weight: sheet.Bold})
			}
			strips = append(strips, newStrip(d))
		}
	}
	strips = append(strips, newStrip(advice("At the yard", s.yardWords(), area.Width())))
	return stack(strips, f, s.st.Paper)
}

// fitted returns a table in the largest lettering at which it is not broken into lines, or the smallest.
func (s *stockSheets) fitted(table func() sheet.Table, width float64) sheet.Table {
	t := table()
	t.Width = width
	for _, size := range roughSizes {
		t.Size, t.RowHeight = size, size*0.6
		free := t
		free.Width, free.Stretch = 0, false
		if free.Set(geom.Point{}).Width <= width {
			break
		}
	}
	return t
}

// buyTable returns what is bought and what is taken from the rack.
func (s *stockSheets) buyTable() sheet.Table {
	right := sheet.AlignRight
	t := sheet.Table{Stretch: true, Columns: []sheet.Column{
		{Head: "take", Align: right, Weight: sheet.Bold}, {Head: "of", Wrap: true, Weight: sheet.Bold}, {Head: "wide", Align: right}, {Head: "long", Align: right},
		{Head: s.volumeHead(), Align: right}, {Head: "each", Align: right}, {Head: "cost", Align: right},
	}}
	for _, b := range s.c.Plan.Buy {
		wide, feet, each, cost := "", "", "", ""
		if b.Width > 0 {
			wide = s.st.figure(b.Width)
		}
		if b.BoardFeet > 0 {
			feet = fmt.Sprintf("%.1f", b.BoardFeet)
			if !s.st.inches() {
				feet = fmt.Sprintf("%.1f", Liters(b))
			}
		}
		switch {
		case b.Offcut:
			cost = "on the rack"
		case s.c.Plan.CostIn == stock.InPrice:
			each, cost = Money(b.Cost/float64(b.Count)), Money(b.Cost)
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(b.Count), s.kind(b.Item), wide, s.long(b.Length), feet, each, cost})
	}
	return t
}

// volumeHead names what the wood is counted in.
func (s *stockSheets) volumeHead() string {
	if s.st.inches() {
		return "board feet"
	}
	return "liters"
}

// kind returns what an item is apart from its sizes: 8/4 black cherry.
func (s *stockSheets) kind(item string) string {
	for i, it := range s.c.Purchase.Job.Stock {
		if it.Name == item {
			k := s.c.Purchase.Items[i]
			if name := strings.TrimSpace(k.Thickness + " " + k.Wood); name != "" {
				return name
			}
		}
	}
	return "sticks"
}

// long returns the length of a stick, feet and inches together.
func (s *stockSheets) long(mm float64) string {
	f := s.st.Lengths
	f.Feet = true
	st := s.st
	st.Lengths = f
	return strings.TrimSuffix(st.figure(mm), " 0″")
}

// total returns the sum of the list and how good it is known to be.
func (s *stockSheets) total(width float64) sheet.Drawing {
	p := s.c.Plan
	sum := "In all " + s.c.Amount(p.Cost, s.st.Lengths)
	if bought := s.c.Volume(false, s.st.Lengths); p.CostIn == stock.InPrice && bought != "" {
		sum = fmt.Sprintf("In all %s for %s", Money(p.Cost), bought)
		if rack := s.c.Volume(true, s.st.Lengths); rack != "" {
			sum += fmt.Sprintf(", and %s from the rack", rack)
		}
	}
	d, h := sheet.Paragraph{Text: sum + ".", Width: width, Size: 14, Weight: sheet.Bold}.Set(geom.Point{})
	proof, _ := sheet.Paragraph{Text: s.c.Proof(s.st.Lengths), Width: width, Size: figureSize}.Set(geom.Pt(0, -h-2))
	return d.Add(proof...)
}

// yieldTable returns what strips are needed and how long they must run clear.
func (s *stockSheets) yieldTable() sheet.Table {
	right := sheet.AlignRight
	t := sheet.Table{Stretch: true, Columns: []sheet.Column{
		{Head: "for", Wrap: true, Weight: sheet.Bold}, {Head: "strips", Align: right}, {Head: "rip wide", Align: right}, {Head: "jointed to", Align: right},
		{Head: "planed to", Align: right}, {Head: "clear length", Align: right},
	}}
	for _, b := range s.c.Purchase.Blanks {
		type way struct{ rough, wide, thick float64 }
		var ways []way
		count := map[way]int{}
		for _, board := range s.c.Plan.Boards {
			for _, r := range s.c.Rips(board) {
				if r.Profile != b.Key {
					continue
				}
				w := way{r.Rough, r.Width, b.Thickness}
				if within(r.Width, b.Thickness) {
					w.thick = b.Width
				}
				if count[w] == 0 {
					ways = append(ways, w)
				}
				count[w] += r.Strips
			}
		}
		for _, w := range ways {
			name := strings.TrimPrefix(b.For(), "the ")
			if board := s.c.edgeBoard(b.Key); board > 0 {
				name += ", off a board " + s.st.figure(board) + " wide"
			}
			t.Rows = append(t.Rows, []string{name, strconv.Itoa(count[w]), s.st.figure(w.rough), s.st.figure(w.wide), s.st.figure(w.thick),
				s.st.figure(s.clear(b.Key))})
		}
	}
	return t
}

// clear returns the greatest length that must be without faults in a strip for a blank: its longest piece, or run of pieces.
func (s *stockSheets) clear(key string) float64 {
	most := 0.0
	for _, st := range s.c.Plan.Sticks {
		if st.Profile != key {
			continue
		}
		for _, r := range runsOf(st.Cuts) {
			sum := float64(len(r)-1) * s.c.Purchase.Job.Shop.Kerf
			for _, c := range r {
				sum += c.Length
			}
			if r[0].Mark != stock.SpareMark && r[0].Mark != stock.TestMark {
				most = max(most, sum)
			}
		}
	}
	return most
}

// runsOf returns the cuts of a stick with those of one run of grain together.
func runsOf(cuts []stock.Cut) [][]stock.Cut {
	var out [][]stock.Cut
	for i, c := range cuts {
		if i > 0 && c.Run > 0 && cuts[i-1].Run == c.Run && cuts[i-1].Wrap == c.Wrap {
			out[len(out)-1] = append(out[len(out)-1], c)
			continue
		}
		out = append(out, []stock.Cut{c})
	}
	return out
}

// yardWords returns what to ask for and look at.
func (s *stockSheets) yardWords() []string {
	var out []string
	if words := s.surfaced(); words != "" {
		out = append(out, words)
	}
	switch {
	case s.c.Plan.BoardFeet > 0 && !s.st.inches():
		out = append(out, "1000 liters are a cubic meter: meters long times wide times thick. A board foot is 2.36 liters. A yard that rounds widths and lengths counts a little otherwise.")
	case s.c.Plan.BoardFeet > 0:
		out = append(out, "A board foot is 144 cubic inches: feet long times inches wide times inches thick, over 12. A yard that rounds widths and lengths counts a little otherwise.")
	}
	out = append(out, "Wider or longer boards of the same kind do as well. Look for straight edges and color alike; where a strip must run clear, no knots, splits or sapwood that will show.")
	if slices.ContainsFunc(s.c.Plan.Sticks, func(x stock.Stick) bool {
		return slices.ContainsFunc(x.Cuts, func(c stock.Cut) bool { return c.Run > 0 })
	}) {
		out = append(out, "Pieces that run on around a corner come from one strip, so that the grain follows them: choose such boards by their figure.")
	}
	return append(out, s.c.Notes(s.st.Lengths)...)
}

// surfaced says what is left of each rough thickness after surfacing.
func (s *stockSheets) surfaced() string {
	var parts, odd []string
	for _, b := range s.c.Plan.Buy {
		if b.Thickness == 0 {
			continue
		}
		for i, it := range s.c.Purchase.Job.Stock {
			if it.Name != b.Item {
				continue
			}
			part := fmt.Sprintf("%s is %s", s.c.Purchase.Items[i].Thickness, s.st.Lengths.Drawing(stock.Surfaced(it.Thickness)))
			into := &parts
			if !stock.Tabled(it.Thickness) {
				into = &odd
			}
			if !slices.Contains(*into, part) {
				*into = append(*into, part)
			}
		}
	}
	words := ""
	if len(parts) > 0 {
		words = "Surfaced on two sides, " + ListWords(parts) + " thick; the plan counts on no more."
	}
	if len(odd) > 0 {
		words += " No common table says what surfacing leaves of these, so measure: the plan counts on this, in line with the sizes next to them: " + ListWords(odd) + " thick."
	}
	return strings.TrimSpace(words)
}
