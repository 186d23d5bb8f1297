package stock

// A layout turns a component's packing into sticks and boards of a plan.
type layout struct {
	s      *solved
	plan   *Plan
	boards int       // boards numbered before
	queue  [][]block // unit: what is still to be cut for it
	strips [][]strip // bin: strips at hand
	itemOf []int     // board of the component, from 0: its item
	runs   map[string]int
}

// A strip is one strip at hand: of a stick, or of a board.
type strip struct {
	item, source int
	board        int // 0 for a stick
	n            int // number on its board
}

func newLayout(s *solved, boards int, p *Plan) *layout {
	l := &layout{s: s, plan: p, boards: boards, strips: make([][]strip, len(s.prob.bins)), runs: map[string]int{}}
	for _, b := range s.blocks {
		l.queue = append(l.queue, append([]block(nil), b...))
	}
	return l
}

// place adds the sticks, boards and splits to the plan.
func (l *layout) place() {
	l.unpack()
	used := make([]int, len(l.s.prob.bins))
	rips := map[int]map[int]int{} // board: class: strips used
	for _, f := range l.s.answer.plan.strips {
		at := l.strips[f.bin][used[f.bin]]
		used[f.bin]++
		class := l.s.prob.bins[f.bin].class
		if at.board > 0 {
			if rips[at.board] == nil {
				rips[at.board] = map[int]int{}
			}
			rips[at.board][class]++
			at.n = 0
			for _, n := range rips[at.board] {
				at.n += n
			}
		}
		l.plan.Sticks = append(l.plan.Sticks, l.stick(f, at, class))
	}
	l.addBoards(rips)
	l.addSplits()
}

// unpack lays out the strips of everything bought.
func (l *layout) unpack() {
	p := l.s.prob
	for i, n := range l.s.answer.plan.bought {
		src := p.sources[i]
		item := l.s.items[src.item]
		for range n {
			board := 0
			if l.s.job.Stock[item].Width > 0 {
				l.boards++
				l.itemOf = append(l.itemOf, item)
				board = l.boards
				l.plan.Boards = append(l.plan.Boards, l.board(item, board))
			}
			for _, g := range src.gives {
				for range g.n {
					l.strips[g.bin] = append(l.strips[g.bin], strip{item: item, source: i, board: board})
				}
			}
		}
	}
}

func (l *layout) board(item, n int) Board {
	it := l.s.job.Stock[item]
	return Board{N: n, Item: it.label(), Length: it.Length, Width: it.Width, Rips: []Rip{}}
}

// addBoards says what is ripped from each board.
func (l *layout) addBoards(rips map[int]map[int]int) {
	j := l.s.job
	first := len(l.plan.Boards) - len(l.itemOf)
	for i, item := range l.itemOf {
		b := &l.plan.Boards[first+i]
		of := rips[b.N]
		left := roundDown(b.Width)
		for _, k := range l.ripped(item) {
			c, n := l.s.classes[k], of[k]
			if n == 0 {
				continue
			}
			u := c.useOf(item)
			r := Rip{Profile: c.Key, Count: n, Width: b.Width}
			if u.width > 0 {
				r.Width = toMM(u.width/int64(u.layers) - roundUp(j.Shop.Joint) - roundUp(j.Shop.Kerf))
				left -= int64(n) * u.width
			} else {
				left = 0
			}
			if u.layers > 1 {
				r.Glued = u.layers
			}
			b.Rips = append(b.Rips, r)
		}
		b.Left = toMM(max(left, 0))
	}
}

// ripped returns the classes in the order in which an item is ripped for them: those last that need the rest of the board.
func (l *layout) ripped(item int) []int {
	var first, last []int
	for k, c := range l.s.classes {
		if c.useOf(item).rest > 0 {
			last = append(last, k)
		} else {
			first = append(first, k)
		}
	}
	return append(first, last...)
}

// useOf returns how a class uses an item that serves it.
func (c *class) useOf(item int) use {
	for _, u := range c.uses {
		if u.item == item {
			return u
		}
	}
	return use{item: item, layers: 1}
}

// stick lays out one strip.
func (l *layout) stick(f filled, at strip, class int) Stick {
	j, c := l.s.job, l.s.classes[class]
	it := j.Stock[at.item]
	st := Stick{Item: it.label(), Length: it.Length, Profile: c.Key, Board: at.board, Strip: at.n, Offcut: it.Offcut, Cuts: []Cut{}}
	var blocks []block
	for _, q := range f.pat {
		n := min(int(q.n), len(l.queue[q.unit]))
		blocks = append(blocks, l.queue[q.unit][:n]...)
		l.queue[q.unit] = l.queue[q.unit][n:]
	}
	shortFirst(blocks, roundUp(j.Shop.Safe))
	testLast(blocks)
	var sum, cuts int64
	for _, b := range blocks {
		run := 0
		if len(b.cuts) > 1 {
			l.runs[b.cuts[0].wrap]++
			run = l.runs[b.cuts[0].wrap]
		}
		for _, p := range b.cuts {
			st.Cuts = append(st.Cuts, Cut{p.mark, p.length, p.wrap, run})
			sum += p.units
			cuts++
		}
	}
	kerf, trim := roundUp(j.Shop.Kerf), 2*roundUp(j.Shop.Trim)
	usable := roundDown(it.Length) - trim
	left := max(0, usable-sum-cuts*kerf)
	st.Left, st.Trim, st.Kerf = toMM(left), toMM(trim), toMM(usable-sum-left)
	st.Keep = left > 0 && left >= roundUp(j.Shop.MinOffcut)
	if u := c.useOf(at.item); u.layers > 1 {
		st.Layers = u.layers
	}
	return st
}

// addSplits lists the wraps that are divided.
func (l *layout) addSplits() {
	for i, c := range l.s.classes {
		for k, w := range c.wraps {
			for _, ch := range l.s.choice[i][k] {
				if len(ch) < 2 {
					continue
				}
				s := Split{Wrap: w.name, Profile: c.Key}
				for _, run := range w.runs(ch) {
					var marks []string
					for _, p := range run {
						marks = append(marks, p.mark)
					}
					s.Runs = append(s.Runs, marks)
				}
				l.plan.Splits = append(l.plan.Splits, s)
			}
		}
	}
}
