package stock

import "math"

// A measure is what a plan's cost counts.
type measure struct {
	name string  // Plan.CostIn
	per  float64 // whole money units in one
}

// The measures of Plan.CostIn.
const (
	InPrice     = "price"      // the currency of the prices
	InBoardFeet = "board feet" // no prices, every item a board of known thickness
	InLength    = "mm"         // no prices: length of stock
)

// costs returns each item's cost in whole units of the measure that the job allows: prices where there are any, else wood.
// An offcut without a price costs nothing.
func (j Job) costs() ([]int64, measure) {
	m := measure{InBoardFeet, 1000}
	for _, it := range j.Stock {
		if it.Width == 0 || it.Thickness == 0 {
			m = measure{InLength, 10}
		}
	}
	for _, it := range j.Stock {
		if it.Price != NoPrice && (it.Price > 0 || !it.Offcut) {
			m = measure{InPrice, centsPerPrice}
		}
	}
	costs := make([]int64, len(j.Stock))
	for i, it := range j.Stock {
		switch {
		case it.Offcut && it.Price <= 0: // NoPrice is below 0
		case m.name == InPrice:
			costs[i] = toCents(it.Price)
		case m.name == InBoardFeet:
			costs[i] = int64(math.Round(BoardFeet(it.Length, it.Width, it.Thickness) * m.per))
		default:
			costs[i] = int64(math.Round(it.Length * m.per))
		}
	}
	return costs, m
}
