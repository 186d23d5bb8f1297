package stock

import (
	"math"
	"slices"
)

// A class is a profile with the stock that may be used for it.
type class struct {
	Profile
	pieces []cut
	wraps  []wrap
	uses   []use // by rising item index
	glued  bool
}

// A cut is one piece to be cut.
type cut struct {
	mark, wrap string
	length     float64 // mm
	units      int64   // length in units, rounded up
}

// A wrap is pieces to be cut one after the other from one strip, count times.
type wrap struct {
	name  string
	cuts  []cut
	count int
}

// A use is an item that serves a class.
type use struct {
	item   int
	usable int64 // length less trim, in units
	width  int64 // of the board taken by a strip, kerf and jointing included; 0 for a stick that makes one strip
	rest   int64 // of the board that must be left beside all its strips, in units; 0 mostly
	layers int   // how many strips are glued to one blank; 1 mostly
}

// thicknessSlop is how much thinner than asked stock may be and still do, in mm: it absorbs rounding, nothing more.
const thicknessSlop = 0.005

// classes sorts the job's pieces by profile, in the order of the profiles and then of the pieces.
func (j Job) classes() []*class {
	var out []*class
	at := map[string]*class{}
	add := func(p Profile) *class {
		c := &class{Profile: p}
		at[p.Key] = c
		out = append(out, c)
		return c
	}
	for _, p := range j.Profiles {
		add(p)
	}
	for i, p := range j.Pieces {
		c := at[p.Profile]
		if c == nil {
			c = add(Profile{Key: p.Profile})
		}
		one := cut{p.label(i), p.Wrap, p.Length, roundUp(p.Length)}
		if p.Wrap == "" {
			for range p.count() {
				c.pieces = append(c.pieces, one)
			}
		}
	}
	out = slices.DeleteFunc(out, func(c *class) bool {
		return !slices.ContainsFunc(j.Pieces, func(p Piece) bool { return p.Profile == c.Key })
	})
	for _, c := range out {
		c.wraps = j.wrapsOf(c.Key)
	}
	return out
}

// wrapsOf returns the wraps of a profile in the order in which they are first named.
func (j Job) wrapsOf(profile string) []wrap {
	type placed struct{ piece, order int }
	var names []string
	of := map[string][]placed{}
	for i, p := range j.Pieces {
		if p.Wrap == "" || p.Profile != profile {
			continue
		}
		if of[p.Wrap] == nil {
			names = append(names, p.Wrap)
		}
		of[p.Wrap] = append(of[p.Wrap], placed{i, p.Order})
	}
	var out []wrap
	for _, name := range names {
		l := of[name]
		slices.SortStableFunc(l, func(a, b placed) int { return a.order - b.order })
		w := wrap{name: name, count: j.Pieces[l[0].piece].count()}
		for _, q := range l {
			p := j.Pieces[q.piece]
			w.cuts = append(w.cuts, cut{p.label(q.piece), name, p.Length, roundUp(p.Length)})
		}
		out = append(out, w)
	}
	return out
}

// match finds the stock that serves a class, and returns the error that says what is missing when none does. Where nothing
// is thick enough but a board is wide enough, the blank is glued up of several strips.
func (j Job) match(c *class) error {
	whole, wood := false, false
	for i := range j.Stock {
		_, layers := j.Takes(c.Profile, i)
		whole, wood = whole || layers == 1, wood || j.ofWood(c.Profile, i)
	}
	for i := range j.Stock {
		if width, layers := j.Takes(c.Profile, i); layers == 1 || !whole && layers > 1 {
			j.use(c, i, width, layers)
		}
	}
	if c.glued = !whole && len(c.uses) > 0; len(c.uses) > 0 {
		return nil
	}
	miss := &NoStockError{Profile: c.Key, Wood: c.Wood, Width: c.Width, Thickness: c.Thickness, Why: "wood"}
	switch {
	case whole:
		miss.Why = "width"
	case wood:
		miss.Why = "thickness"
	}
	return miss
}

// use adds an item to those that serve a class, if it is wide enough.
func (j Job) use(c *class, item int, width float64, layers int) {
	it := j.Stock[item]
	u := use{item: item, usable: roundDown(it.Length) - 2*roundUp(j.Shop.Trim), layers: layers}
	if it.Width > 0 && c.Width > 0 {
		u.width = j.stripWidth(width, layers)
		if c.Board > 0 {
			u.rest = max(0, roundUp(c.Board)+roundUp(j.Shop.Kerf)-u.width)
		}
		if u.width+u.rest > j.board(item) {
			return
		}
	} else if layers > 1 {
		return // a stick makes one strip, which cannot be glued to itself
	}
	c.uses = append(c.uses, u)
}

// stripWidth returns what a number of strips of a width take of a board, in units: jointing and a kerf each included.
func (j Job) stripWidth(width float64, layers int) int64 {
	return int64(layers) * (roundUp(width) + roundUp(j.Shop.Joint) + roundUp(j.Shop.Kerf))
}

// board returns the width to share out among an item's strips, in units: its own and one kerf.
func (j Job) board(item int) int64 { return roundDown(j.Stock[item].Width) + roundUp(j.Shop.Kerf) }

// ofWood reports whether an item may serve a profile by its wood.
func (j Job) ofWood(p Profile, item int) bool {
	it := j.Stock[item]
	return p.Wood == "" || it.Wood == "" || p.Wood == it.Wood
}

// Takes returns the width in mm of a strip for a profile from the job's item of that index, and how many of them, as thick as the item, make one blank: 1 where the item is
// thick enough, else as many as are glued up, the way the blank may lie that takes the fewest of them and, of those, the least width. It is 0 where the item is of another
// wood, or nothing could be glued up of it. Whether the item is wide enough is not asked, nor whether it is used: what is too thin is not where another item is thick enough.
func (j Job) Takes(p Profile, item int) (width float64, layers int) {
	t := j.Stock[item].surfaced()
	if !j.ofWood(p, item) {
		return 0, 0
	}
	if width, ok := p.Across(t); ok {
		return width, 1
	}
	if t <= 0 || p.Width == 0 {
		return 0, 0
	}
	width, layers = p.Width, layersOf(p.Thickness, t)
	if n := layersOf(p.Width, t); p.Turn && p.Thickness > 0 {
		thick := j.stripWidth(p.Thickness, n)
		if fits := thick <= j.board(item); fits && (n < layers || n == layers && p.Thickness < width || j.stripWidth(width, layers) > j.board(item)) {
			width, layers = p.Thickness, n
		}
	}
	return width, layers
}

// layersOf returns how many strips as thick as a board are glued up to a blank of a thickness, both in mm, the board's after surfacing and more than 0.
func layersOf(thickness, board float64) int {
	return int(math.Ceil((thickness - thicknessSlop) / board))
}

// longest returns the use with the longest strip; a class has at least one.
func (c *class) longest() use {
	return slices.MaxFunc(c.uses, func(a, b use) int { return int(min(1, max(-1, a.usable-b.usable))) })
}
