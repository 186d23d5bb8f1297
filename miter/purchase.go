package miter

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"listel/miter/stock"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A Purchase is what a case needs in wood: the job that package stock solves, and what its pieces, strips and stock are.
type Purchase struct {
	Job    stock.Job
	Blanks []Blank     // one for each of the job's profiles, in their order
	Items  []StockItem // one for each of the job's stock, in their order

	c      Case
	format measure.Format
	owner  map[string]string // mark of a piece: path of the molding it belongs to
	roles  map[string]Role   // of the sections of the molding at hand
}

// A Blank is the strip that a section is worked from: the smallest rectangle that holds the section.
type Blank struct {
	Key       string // of its stock.Profile
	Title     string // of its section
	Section   profile.Section
	Moldings  []string // that are cut from it, "beads" for the beads
	Width     float64  // mm, along the back
	Thickness float64  // mm, square to the back
	Slant     *Slant   // nil when it is ripped square

	path string // of the file key that asks for it
	role Role
}

// Buy returns what the case needs in wood. Every section that pieces are cut from becomes a profile of the job: its strip is as wide as its
// blank and what jointing takes, and as thick as the blank after surfacing, lying or on edge, as the stock allows. The neighboring runs of a molding that
// are of one section are a wrap, so that the grain runs round the corners. The error is Errors.
func Buy(c Case, r Result) (Purchase, error) {
	p := Purchase{c: c, format: measure.Format{Units: c.Units}, owner: map[string]string{}}
	if len(c.Stock) == 0 {
		return p, Errors{{Path: "stock", Reason: "the case says nothing of stock; write what can be had, as in stock: [{wood: " + cmp.Or(c.Wood, "black cherry") +
			", thickness: 8/4, width: 6, length: 8ft, price: 54}]"}}
	}
	s := c.Shop
	p.Job.Shop = stock.Shop{Kerf: s.Kerf, Trim: s.Trim, Joint: s.Planing, MinOffcut: s.Offcut, Spare: s.Spare, Test: s.Test, Safe: s.Safe}
	p.items()
	for i, m := range r.Moldings {
		p.molding(m, fmt.Sprintf("moldings[%d].profile", i))
	}
	p.roles = nil
	for _, b := range r.Beads {
		p.piece(b, b.Count, "beads", "beads.profile")
	}
	p.slants()
	return p, nil
}

// wood returns the name of a species as it is compared.
func wood(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// items adds the stock. An item with a number and no price is an offcut on the rack.
func (p *Purchase) items() {
	p.Items = p.c.Stock
	taken := map[string]int{}
	for _, it := range p.Items {
		s := stock.Item{Name: it.Name(p.format), Wood: wood(it.Wood), Length: it.Length, Width: it.Width, Thickness: it.ThickMM,
			Price: it.Price, Have: stock.Unlimited}
		if it.Have > 0 {
			s.Have = it.Have
		}
		if !it.Priced {
			s.Price, s.Offcut = stock.NoPrice, it.Have > 0
		}
		if s.Offcut {
			s.Name += ", on the rack"
		}
		if taken[s.Name]++; taken[s.Name] > 1 {
			s.Name = fmt.Sprintf("%s (%d)", s.Name, taken[s.Name])
		}
		p.Job.Stock = append(p.Job.Stock, s)
	}
}

// Name returns the item in words, its sizes in the units of f: 8/4 black cherry, 6 in wide, 8 ft long; or stick, 8 ft long.
func (it StockItem) Name(f measure.Format) string {
	f.Feet = false
	out := strings.TrimSpace(it.Thickness + " " + it.Wood)
	if it.Width > 0 {
		out += ", " + f.Length(it.Width) + " wide"
	}
	if out = strings.TrimPrefix(out, ", "); out == "" {
		out = "stick"
	}
	f.Feet = true
	return strings.TrimSpace(out + ", " + strings.Replace(f.Length(it.Length), " ft 0 in", " ft", 1) + " long")
}

// molding adds the pieces of one molding: its runs as wraps, the rest one by one.
func (p *Purchase) molding(m MoldingResult, path string) {
	p.roles = map[string]Role{}
	for _, u := range m.Sections {
		p.roles[u.Section.Name] = u.Role
	}
	piece := map[string]*Piece{}
	left := map[string]int{} // of each mark, pieces that are in no wrap
	for i := range m.Pieces {
		q := &m.Pieces[i]
		piece[q.Mark], left[q.Mark] = q, q.Count
	}
	for n, w := range m.wraps() {
		name := m.Name
		if n > 0 {
			name = fmt.Sprintf("%s-%d", m.Name, n+1)
		}
		for order, mark := range w {
			q := piece[mark]
			key := p.blank(*q, m.Name, path)
			p.Job.Pieces = append(p.Job.Pieces, stock.Piece{Mark: mark, Profile: key, Length: q.Stick(p.c.Shop.Rough), Count: 1, Wrap: name, Order: order})
			left[mark]--
		}
	}
	for _, q := range m.Pieces {
		p.owner[q.Mark] = path
		p.piece(q, left[q.Mark], m.Name, path)
	}
}

// piece adds count of one piece that runs on from no other.
func (p *Purchase) piece(q Piece, count int, molding, path string) {
	p.owner[q.Mark] = path
	if count > 0 {
		key := p.blank(q, molding, path)
		p.Job.Pieces = append(p.Job.Pieces, stock.Piece{Mark: q.Mark, Profile: key, Length: q.Stick(p.c.Shop.Rough), Count: count})
	}
}

// wraps returns the marks of neighboring main runs of one section, in the order in which they stand, each row of at least two. One
// that goes all round starts where its section changes, or with the first run.
func (m MoldingResult) wraps() [][]string {
	section := map[string]*profile.Section{}
	for i := range m.Pieces {
		section[m.Pieces[i].Mark] = m.Pieces[i].Section
	}
	var rows [][]string
	var last *profile.Section
	for _, r := range m.Runs {
		s := section[r.Mark]
		switch {
		case !r.main:
			last = nil
			continue
		case s == last:
			rows[len(rows)-1] = append(rows[len(rows)-1], r.Mark)
		default:
			rows = append(rows, []string{r.Mark})
		}
		last = s
	}
	if n := len(rows); m.Closed && n > 1 && section[rows[0][0]] == last {
		rows[0] = append(rows[n-1], rows[0]...)
		rows = rows[:n-1]
	}
	return slices.DeleteFunc(rows, func(r []string) bool { return len(r) < 2 })
}

// blank returns the key of the profile that a piece's strip is made to, adding it when it is new.
func (p *Purchase) blank(q Piece, molding, path string) string {
	size := q.Section.Blank()
	key := q.Section.Name
	for i := range p.Blanks {
		b := &p.Blanks[i]
		if b.Section.Name != q.Section.Name || !near(b.Width, size.Width, lengthTol) || !near(b.Thickness, size.Thickness, lengthTol) {
			continue
		}
		if !slices.Contains(b.Moldings, molding) {
			b.Moldings = append(b.Moldings, molding)
		}
		return b.Key
	}
	for slices.ContainsFunc(p.Blanks, func(b Blank) bool { return b.Key == key }) {
		key += ", " + molding
	}
	p.Blanks = append(p.Blanks, Blank{Key: key, Title: cmp.Or(q.Section.Title, q.Section.Name), Section: *q.Section, Moldings: []string{molding},
		Width: size.Width, Thickness: size.Thickness, path: path, role: p.roles[q.Section.Name]})
	strip := stock.Profile{Key: key, Wood: wood(p.c.Wood), Width: size.Width, Thickness: size.Thickness, Turn: true, NoTest: q.Run == railName}
	if thin := min(size.Width, size.Thickness); thin < thinStick-0.01 && p.roles[q.Section.Name] != RoleRail {
		strip.Width, strip.Thickness, strip.Turn = max(size.Width, size.Thickness), thin, false
		if onEdge(*q.Section) {
			strip.Board = practiceIn(p.c.Units).board
		}
	}
	p.Job.Profiles = append(p.Job.Profiles, strip)
	return key
}

// thinStick is the thickness, in mm, under which a section is not machined as a loose stick: 1/2 in, common practice, no source. It is molded on the
// edge of a board planed to its lesser dimension, so its strips are counted so.
const thinStick = 12.7

// Blank returns the blank of that key, and false when there is none.
func (p Purchase) Blank(key string) (Blank, bool) {
	for _, b := range p.Blanks {
		if b.Key == key {
			return b, true
		}
	}
	return Blank{}, false
}

// shortestWord is the least number of letters of a molding's name that reads as a word of its own.
const shortestWord = 3

// For names what is cut from the blank: the base, the beads, or the molding f.
func (b Blank) For() string {
	var names []string
	for _, m := range b.Moldings {
		if utf8.RuneCountInString(m) < shortestWord {
			m = "molding " + m
		}
		names = append(names, m)
	}
	named := "the " + strings.Join(names, " and the ")
	switch r := b.role; {
	case r == RoleRail:
		return "the back rail of " + named
	case r == RoleNarrowed:
		return named + " where it is narrowed"
	case r == RoleRaking:
		return "the raking part of " + named
	case r == RoleTopReturn:
		return "the top returns of " + named
	}
	return named
}

// Plain reports whether the blank is for a plain board: a back rail.
func (b Blank) Plain() bool { return b.role == RoleRail }

// back returns the outline with the back plumb: x square to the back, y along it.
func (b Blank) back() geom.Path {
	if s := b.Section.Spring; s != nil {
		return b.Section.Outline.Rotate(s.Angle)
	}
	return b.Section.Outline
}
