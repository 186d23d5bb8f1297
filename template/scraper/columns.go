package scraper

import (
	"cmp"
	"slices"
)

// columns part a view across, so that what lies over a place is found without asking every line. They are as wide as the lines are on average, or as many
// as there are lines where these stand upright: a line lies in two columns or so.
type columns struct {
	least, width float64   // u
	lines        [][]int32 // of each column, the highest first
}

func newColumns(all []sightline) columns {
	high := make([]int32, len(all))
	least, most, sum := all[0].least, all[0].most, 0.0
	for i, s := range all {
		high[i] = int32(i)
		least, most, sum = min(least, s.least), max(most, s.most), sum+s.most-s.least
	}
	slices.SortStableFunc(high, func(i, j int32) int { return cmp.Compare(all[j].high, all[i].high) })
	c := columns{least: least, width: max(sum, most-least, smallestFeature) / float64(len(all))}
	c.lines = make([][]int32, c.column(most)+1)
	for _, i := range high {
		for k := c.column(all[i].least); k <= c.column(all[i].most); k++ {
			c.lines[k] = append(c.lines[k], i)
		}
	}
	return c
}

func (c columns) column(u float64) int { return int((u - c.least) / c.width) }

// at returns the lines of the column that u lies in, the highest first; nil beside the outline.
func (c columns) at(u float64) []int32 {
	if k := c.column(u); u >= c.least && k < len(c.lines) {
		return c.lines[k]
	}
	return nil
}
