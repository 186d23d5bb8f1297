package stock

// A tuning forces the fallbacks, so that tests can try each one on its own. Its zero value is the usual course.
type tuning struct {
	lists     bool // every knapsack goes by lists at once
	ceilings  bool // every knapsack falls back to the fractional one
	noLP      bool // duals in proportion to the lengths
	noSearch  bool // no depth-first search for the cost: straight to the stock counts
	noMemo    bool // nothing remembered
	noRefresh bool // no duals computed anew within the search
	noGreedy  bool // no first plan before the search
	noWorths  bool // no worths refuse a purchase's strips: every question about them is searched
	planks    bool // no way to rip boards is listed beforehand
	noListing bool // purchases of least cost are not listed: the longest leftover is looked for over boxes of them
}

func (t tuning) knapNodes(usual int) int {
	switch {
	case t.lists:
		return 0
	case t.ceilings:
		return 20
	}
	return usual
}

func (t tuning) ripCap(usual int) int {
	if t.planks {
		return 0
	}
	return usual
}

func (t tuning) listCap(usual int) int {
	if t.ceilings {
		return 0
	}
	return usual
}
