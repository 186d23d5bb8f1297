package stock

import (
	"cmp"
	"fmt"
	"slices"
)

// A Plan says what to buy and how to cut it.
type Plan struct {
	Sticks     []Stick `json:"sticks"`
	Boards     []Board `json:"boards,omitempty"`
	Buy        []Buy   `json:"buy"`
	Cost       float64 `json:"cost"`
	LowerBound float64 `json:"lower_bound"` // no plan costs less
	Proven     bool    `json:"proven"`      // Cost is LowerBound
	Gap        float64 `json:"gap"`         // Cost - LowerBound
	CostIn     string  `json:"cost_in"`     // InPrice, InBoardFeet or InLength

	LongestLeft float64  `json:"longest_left_mm"` // of a single stick, or of a strip of a board from which nothing is cut
	LeftProven  bool     `json:"longest_left_proven"`
	Splits      []Split  `json:"splits,omitempty"`
	Messages    []string `json:"messages,omitempty"`
	BoardFeet   float64  `json:"board_feet"` // of all that is bought or taken, as far as widths and thicknesses are known
	Nodes       int64    `json:"nodes"`
	Stopped     string   `json:"stopped,omitempty"` // "time" or "effort" if that ended the search
}

// A Stick is one stick, or one strip of a board, and how it is cut, from its left end. Length is the sum of the cuts, Kerf,
// Trim and Left.
type Stick struct {
	Item    string  `json:"item"`
	Length  float64 `json:"length_mm"`
	Cuts    []Cut   `json:"cuts"`
	Kerf    float64 `json:"kerf_mm"` // all cuts together
	Trim    float64 `json:"trim_mm"` // both ends together
	Left    float64 `json:"left_mm"`
	Keep    bool    `json:"keep"` // Left is a useful offcut
	Profile string  `json:"profile,omitempty"`
	Board   int     `json:"board,omitempty"`  // number of the board it is ripped from, from 1; 0 for a stick
	Strip   int     `json:"strip,omitempty"`  // number of the strip on its board, from 1
	Layers  int     `json:"layers,omitempty"` // strips glued to one blank, if more than 1
	Offcut  bool    `json:"offcut,omitempty"` // it comes from the rack
}

// A Cut is one piece of a stick.
type Cut struct {
	Mark   string  `json:"mark"`
	Length float64 `json:"length_mm"`
	Wrap   string  `json:"wrap,omitempty"`
	Run    int     `json:"run,omitempty"` // number of the run of grain it belongs to, from 1; neighbors of one run keep their order
}

// A Board is one board and what is ripped from it.
type Board struct {
	N      int     `json:"n"` // its number, from 1
	Item   string  `json:"item"`
	Length float64 `json:"length_mm"`
	Width  float64 `json:"width_mm"`
	Rips   []Rip   `json:"rips"`
	Left   float64 `json:"left_width_mm"` // width not ripped, strips without cuts included
}

// A Rip is a number of equal strips.
type Rip struct {
	Profile string  `json:"profile"`
	Width   float64 `json:"width_mm"`
	Count   int     `json:"count"` // strips that pieces are cut from
	Glued   int     `json:"glued,omitempty"`
}

// A Buy is a line of the buying list.
type Buy struct {
	Item      string  `json:"item"`
	Count     int     `json:"count"`
	Cost      float64 `json:"cost"`
	Length    float64 `json:"length_mm"`
	Width     float64 `json:"width_mm,omitempty"`
	Thickness float64 `json:"thickness_mm,omitempty"`
	BoardFeet float64 `json:"board_feet,omitempty"`
	Offcut    bool    `json:"offcut,omitempty"` // from the rack
}

// A Split is a wrap that no stick could hold, and the pieces at whose corners its grain is broken.
type Split struct {
	Wrap    string     `json:"wrap"`
	Profile string     `json:"profile,omitempty"`
	Runs    [][]string `json:"runs"` // marks, run by run
}

// plan puts the answers together.
func (j *Job) plan(classes []*class, done []*solved, m measure, eff *effort) Plan {
	p := Plan{Sticks: []Stick{}, Buy: []Buy{}, Proven: true, LeftProven: true, CostIn: m.name, Nodes: eff.nodes}
	counts := make([]int, len(j.Stock))
	costs, _ := j.costs()
	var cost, bound int64
	for _, s := range done {
		l := newLayout(s, len(p.Boards), &p)
		l.place()
		for i, n := range s.answer.plan.bought {
			counts[s.items[s.prob.sources[i].item]] += n
		}
		cost += s.answer.plan.cost
		bound += s.bound
		p.Proven = p.Proven && s.proven
		p.LeftProven = p.LeftProven && s.leftProven
		p.LongestLeft = max(p.LongestLeft, toMM(s.left))
	}
	for i, n := range counts {
		if n > 0 {
			p.Buy = append(p.Buy, j.buy(i, n, float64(costs[i]*int64(n))/m.per))
			p.BoardFeet += p.Buy[len(p.Buy)-1].BoardFeet
		}
	}
	p.Cost, p.LowerBound, p.Gap = float64(cost)/m.per, float64(bound)/m.per, float64(cost-bound)/m.per
	if !p.Proven || !p.LeftProven {
		p.Stopped = cmp.Or(eff.stopped, "effort")
	}
	p.Messages = j.messages(classes, &p)
	return p
}

func (j *Job) buy(item, n int, cost float64) Buy {
	it := j.Stock[item]
	b := Buy{Item: it.label(), Count: n, Cost: cost, Length: it.Length, Width: it.Width, Thickness: it.Thickness, Offcut: it.Offcut}
	if it.Width > 0 && it.Thickness > 0 {
		b.BoardFeet = float64(n) * BoardFeet(it.Length, it.Width, it.Thickness)
	}
	return b
}

// messages says what the maker should know beside the numbers.
func (j *Job) messages(classes []*class, p *Plan) []string {
	var out []string
	for _, c := range classes {
		if c.glued {
			out = append(out, fmt.Sprintf("no stock is thick enough for %s (%s mm): its blank is glued up", c.Key, number(c.Thickness)))
		}
	}
	for _, s := range p.Splits {
		out = append(out, fmt.Sprintf("wrap %s is too long for any one stick: its grain is broken %d time%s", s.Wrap, len(s.Runs)-1, plural(len(s.Runs)-1)))
	}
	if !p.Proven {
		out = append(out, fmt.Sprintf("not proven to be the cheapest: no plan costs less than %s, this one costs %s; the %s ran out",
			number(p.LowerBound), number(p.Cost), p.Stopped))
	}
	return out
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}

// shortFirst orders what is cut from one stick: pieces under the safe length first, while the stick is long, then the others,
// the longest last of all.
func shortFirst(blocks []block, safe int64) {
	slices.SortStableFunc(blocks, func(a, b block) int {
		sa, sb := a.longestCut() < safe, b.longestCut() < safe
		switch {
		case sa != sb:
			if sa {
				return -1
			}
			return 1
		case sa:
			return cmp.Or(cmp.Compare(b.tail, a.tail), cmp.Compare(a.size, b.size))
		}
		return cmp.Compare(b.size, a.size)
	})
}

// testLast puts the length for tests at the right end of the strip: it is cut off first, and what is left beyond it need not be molded.
func testLast(blocks []block) {
	slices.SortStableFunc(blocks, func(a, b block) int { return cmp.Compare(a.tests(), b.tests()) })
}

// tests returns how many of the block's cuts are lengths for tests.
func (b block) tests() int {
	n := 0
	for _, c := range b.cuts {
		if c.mark == TestMark {
			n++
		}
	}
	return n
}

func (b block) longestCut() int64 {
	var l int64
	for _, c := range b.cuts {
		l = max(l, c.units)
	}
	return l
}
