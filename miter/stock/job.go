package stock

import "time"

// DefaultTime is the time limit a caller should put on the context of Solve.
const DefaultTime = 5 * time.Second

// DefaultEffort is the number of search nodes a Job may spend when it does not say: about as many as DefaultTime allows.
const DefaultEffort = 60_000_000

// MaxPieces is the greatest number of pieces in a Job, counts included.
const MaxPieces = 2000

// Unlimited is the Have of an item of which as many can be bought as are wanted.
const Unlimited = -1

// NoPrice is the Price of an item whose price is not known. Either no item has a price, and then as little wood as
// possible is used, or every item but the offcuts has one; an offcut without a price costs nothing, being paid for.
const NoPrice = -1.0

// A Job is what is to be cut, from what, and how the shop cuts. The zero Job is valid and its plan empty.
type Job struct {
	Pieces   []Piece
	Profiles []Profile // the sections that pieces name; a piece that names none of them may be cut from any stock
	Stock    []Item
	Shop     Shop
	Effort   int64 // search nodes; 0 for DefaultEffort
}

// A Piece is one length to cut, or several that are equal.
type Piece struct {
	Mark    string
	Profile string  // key of its Profile; "" for stock of no particular section
	Length  float64 // mm, rough length without kerf, in (0, 20000]
	Count   int     // 0 counts as 1
	// Wrap names the run of grain the piece belongs to, "" for none. The pieces of one wrap and profile are cut one after the
	// other from one strip, by rising Order and, where that is equal, in the order of the list; those of count n make n
	// such runs, and must then all have count n.
	Wrap  string
	Order int
}

// A Profile is what a piece's strip must be: the blank of its section.
type Profile struct {
	Key       string
	Wood      string  // "" for any
	Width     float64 // mm, width of the strip, allowances included; 0 when a stick or board makes one strip as it is
	Thickness float64 // mm, thickness the blank needs after surfacing; 0 for any
	Turn      bool    // the blank may be laid the other way, its thickness across the board, where that saves width
	Board     float64 // mm, the width that a board must still have when the last of the profile's strips is ripped off it; 0 for any
	Test      float64 // mm, length for tests and set-up; 0 for Shop.Test
	NoTest    bool    // no test length, whatever Shop says
}

// Across returns the width in mm that a strip takes of a board of a thickness, in mm after surfacing, 0 for an unknown one that fits any: it lies, or stands
// on edge where it may and that takes less. It is false where the board is too thin for either.
func (p Profile) Across(thickness float64) (width float64, ok bool) {
	fits := func(need float64) bool { return thickness == 0 || need <= thickness+thicknessSlop }
	upright := p.Turn && p.Thickness > 0 && p.Width > 0 && fits(p.Width)
	switch {
	case fits(p.Thickness) && upright:
		return min(p.Width, p.Thickness), true
	case fits(p.Thickness):
		return p.Width, true
	case upright:
		return p.Thickness, true
	}
	return 0, false
}

// An Item is a kind of stick or board that can be had.
type Item struct {
	Name      string  // "" for its length
	Wood      string  // "" for any
	Length    float64 // mm, in (0, 20000]
	Width     float64 // mm; 0 for a stick that makes one strip
	Thickness float64 // mm, as sold (rough); 0 when unknown, which fits any profile
	Surfaced  float64 // mm, after surfacing two sides; 0 for what Surfaced(Thickness) says
	Price     float64 // each, rounded to a cent; 0 is free; NoPrice when not known
	Have      int     // how many there are, > 0, or Unlimited; 0 is an error, since such an item is no stock
	Offcut    bool    // from the rack: already paid for
}

// A Shop is how the wood is cut. Its zero value wastes nothing.
type Shop struct {
	Kerf      float64 // mm, width of every cut, across and along
	Trim      float64 // mm, taken off each end of a stick, the cut that does so included
	Joint     float64 // mm, taken off an edge by jointing before each strip is ripped
	MinOffcut float64 // mm, shortest leftover worth keeping
	Spare     float64 // wood beyond the pieces as a part of their summed length, per profile: 0.15 for 15 per cent
	Test      float64 // mm, length for tests and set-up, for each profile
	// Safe is the shortest stick, in mm, that a piece shorter than it may be cut off: at every such cut, except where a
	// longer piece is still on the stick, what is left in hand before the cut is at least this long.
	Safe float64
}
