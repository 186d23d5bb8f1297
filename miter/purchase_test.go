package miter_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/miter/stock"
)

// bought returns the purchase of a case of the library's, changed by change.
func bought(t *testing.T, name string, change func(c *miter.Case)) (miter.Purchase, error) {
	t.Helper()
	l := library.Open("", "")
	c, _, _, err := l.CaseSource(name)
	require.NoError(t, err)
	if change != nil {
		change(&c)
	}
	r, err := miter.Fit(c, l.SectionOf, l.Wood)
	require.NoError(t, err)
	return miter.Buy(c, r)
}

// The base of the press is 4 in high and 7/8 in thick; its runs are 18, 42 and 18 in along the case. Its front is miters at both ends, 7/8 in longer
// each, and its sides at one; an inch is left on every end.
func TestBlanksAndLengthsByHand(t *testing.T) {
	p, err := bought(t, "herb-press", nil)
	require.NoError(t, err)
	b, ok := p.Blank("press-base")
	require.True(t, ok)
	require.InDelta(t, 4*inch, b.Width, 1e-9)
	require.InDelta(t, 7.0/8*inch, b.Thickness, 1e-9)
	var got []stock.Piece
	for _, q := range p.Job.Pieces {
		if q.Profile == "press-base" {
			got = append(got, q)
		}
	}
	require.Len(t, got, 3)
	for i, want := range []float64{18 + 0.875 + 2, 42 + 1.75 + 2, 18 + 0.875 + 2} {
		require.InDelta(t, want*inch, got[i].Length, 1e-6)
		require.Equal(t, "base", got[i].Wrap)
		require.Equal(t, i, got[i].Order)
	}
	require.Equal(t, stock.Shop{Kerf: inch / 8, Trim: inch, Joint: inch / 8, MinOffcut: 12 * inch, Spare: 0.15, Test: 12 * inch, Safe: 12 * inch}, p.Job.Shop)
}

// The rail of the frame is 2 in wide and 3/4 in thick; a plain board needs no test. The waist lies on its foot: 2 11/16 in by 1 1/8 in, so that its strips are
// ripped 2 11/16 in wide from stock of 1 5/16 in or more surfaced, which 6/4 is (hardwood lumber dimension tables at woodbin.com and
// engineeringtoolbox.com).
func TestFlatMoldingsLie(t *testing.T) {
	p, err := bought(t, "herb-press", nil)
	require.NoError(t, err)
	for _, q := range p.Job.Profiles {
		require.Equal(t, strings.HasSuffix(q.Key, "-back-rail"), q.NoTest, q.Key)
	}
	plan, err := p.Solve(context.Background(), 0)
	require.NoError(t, err)
	found := false
	for _, b := range plan.Boards {
		for _, r := range b.Rips {
			if r.Profile == "press-waist" {
				found = true
				require.InDelta(t, 2.6875*inch, r.Width, 0.01)
				require.True(t, strings.HasPrefix(b.Item, "6/4"), b.Item)
			}
		}
	}
	require.True(t, found)
}

// The example's plans are proven, every piece is in them, and its runs keep their order.
func TestExamplesAreProven(t *testing.T) {
	for _, name := range []string{"herb-press", "seed-cabinet"} {
		p, err := bought(t, name, nil)
		require.NoError(t, err)
		plan, err := p.Solve(context.Background(), 0)
		require.NoError(t, err)
		require.True(t, plan.Proven, name)
		require.Empty(t, plan.Stopped)
		count := map[string]int{}
		for _, q := range p.Job.Pieces {
			count[q.Mark] += q.Count
		}
		for _, s := range plan.Sticks {
			for _, c := range s.Cuts {
				count[c.Mark]--
			}
		}
		for mark, left := range count {
			if mark != stock.TestMark && mark != stock.SpareMark {
				require.Zero(t, left, "%s %s", name, mark)
			}
		}
		require.Equal(t, name == "seed-cabinet", len(plan.Splits) > 0)
	}
}

// The runs of the base of a press follow one another in the plan, left, front, right.
func TestGrainRunsRound(t *testing.T) {
	p, err := bought(t, "herb-press", nil)
	require.NoError(t, err)
	plan, err := p.Solve(context.Background(), 0)
	require.NoError(t, err)
	var rows []string
	for _, s := range plan.Sticks {
		row := ""
		for _, c := range s.Cuts {
			if c.Wrap == "base" {
				row += c.Mark + " "
			}
		}
		if row != "" {
			rows = append(rows, row)
		}
	}
	require.Equal(t, []string{"B1 B2 B3 "}, rows)
}

// Narrower runs at the sides of the cabinet are a section of their own and no wrap; the other seven run on. Returns belong to no wrap.
func TestWrapsAreOfOneSection(t *testing.T) {
	p, err := bought(t, "seed-cabinet", func(c *miter.Case) { c.Moldings[0].EndLeft, c.Moldings[0].EndRight = miter.EndReturn, miter.EndReturn })
	require.NoError(t, err)
	wraps := map[string]int{}
	for _, q := range p.Job.Pieces {
		if q.Wrap == "" {
			wraps["none of "+q.Profile] += q.Count
		} else {
			wraps[q.Wrap+" of "+q.Profile] += q.Count
		}
	}
	require.Equal(t, map[string]int{"base of cabinet-base": 9, "none of cabinet-base": 2, "surbase of cabinet-surbase": 7, "none of cabinet-surbase-left": 2,
		"cornice of cabinet-cornice": 9, "none of cabinet-pediment": 2, "none of cabinet-pediment-raking": 2, "none of cabinet-pediment-top-return": 2}, wraps)
}

// A freestanding chest is molded all round: its four runs are one wrap.
func TestClosedWrap(t *testing.T) {
	p, err := bought(t, "herb-press", func(c *miter.Case) {
		c.Stages = c.Stages[:1]
		c.Stages[0].Plan.Freestanding = true
		c.Moldings = c.Moldings[:1]
		c.Openings, c.Beads = nil, nil
	})
	require.NoError(t, err)
	require.Len(t, p.Job.Pieces, 4)
	for i, q := range p.Job.Pieces {
		require.Equal(t, "base", q.Wrap)
		require.Equal(t, i, q.Order)
	}
}

// What the stock makes impossible is a fault under the key that would mend it.
func TestPurchaseFaults(t *testing.T) {
	cherry := func(thick string, mm, width, length float64) miter.StockItem {
		return miter.StockItem{Wood: "black cherry", Thickness: thick, ThickMM: mm, Width: width, Length: length, Price: 30, Priced: true}
	}
	good := []miter.StockItem{cherry("8/4", 50.8, 6*inch, 96*inch)}
	for _, c := range []struct {
		name, path, says string
		change           func(c *miter.Case)
	}{
		{"no stock", "stock", "says nothing of stock", func(c *miter.Case) { c.Stock = nil }},
		{"too long", "moldings[0].profile", "piece B2 is 45 3/4 in long, and the longest stick for it (8/4 black cherry, 6 in wide, 3 ft long) gives 34 in, 11 3/4 in too little",
			func(c *miter.Case) { c.Stock = []miter.StockItem{cherry("8/4", 50.8, 6*inch, 36*inch)} }},
		{"no such wood", "moldings[0].profile", "no stock is of ash", func(c *miter.Case) { c.Wood = "ash" }},
		{"too narrow", "moldings[0].profile", "no stock is wide enough", func(c *miter.Case) { c.Stock = []miter.StockItem{cherry("8/4", 50.8, 3*inch, 96*inch)} }},
		{"too thin", "moldings[1].profile", "no stock is thick enough for Waist frame of the low press, nor wide enough to glue its blank up: it is 1 1/8 in by 2 11/16 in; 6/4 would do",
			func(c *miter.Case) {
				c.Moldings[0].Profile = "press-cornice"
				c.Stock = []miter.StockItem{cherry("4/4", 25.4, 5*inch, 96*inch)}
			}},
		{"prices missing", "stock[1].price", "has no price, while other stock has one", func(c *miter.Case) {
			c.Stock = append(c.Stock, miter.StockItem{Wood: "black cherry", Thickness: "4/4", ThickMM: 25.4, Width: 6 * inch, Length: 96 * inch})
		}},
		{"too few", "stock", "not enough", func(c *miter.Case) { c.Stock[0].Have = 1 }},
		{"kerf", "shop.kerf", "the kerf of 10 in is more than piece E7 is long", func(c *miter.Case) { c.Shop.Kerf, c.Shop.Rough = 10*inch, 0 }},
		{"safe", "shop.safe", "under the safe length of 120 in", func(c *miter.Case) { c.Shop.Safe = 120 * inch }},
		{"test", "shop.test", "piece test is 118 in long", func(c *miter.Case) { c.Shop.Test = 118 * inch }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := bought(t, "herb-press", func(k *miter.Case) {
				k.Stock = good
				c.change(k)
			})
			if err == nil {
				_, err = p.Solve(context.Background(), 0)
			}
			var all miter.Errors
			require.ErrorAs(t, err, &all)
			found := false
			for _, e := range all {
				found = found || e.Path == c.path && strings.Contains(e.Reason, c.says)
			}
			require.True(t, found, "%v", err)
		})
	}
}

// A plain list is one strip a stick. Two sticks of 10 ft, trimmed to 118 in, hold 4 rails of 22 1/2 in and 4 stiles of 30 in, a kerf of 1/8 in with
// each: not all rails in one, since 4 stiles take 120 1/2 in, but 3 stiles and a rail in one (113 in), and 3 rails and a stile in the other,
// which leaves 118 - 98 = 20 in. Two of each in both would leave 12 1/2 in at most.
func TestPlainList(t *testing.T) {
	l := miter.PieceList{Pieces: []stock.Piece{{Mark: "rail", Length: 22.5 * inch, Count: 4}, {Mark: "stile", Length: 30 * inch, Count: 4}},
		Stock: []miter.StockItem{{Length: 120 * inch, Price: 9, Priced: true}}, Shop: miter.Shop{Kerf: inch / 8, Trim: inch}}
	plan, err := l.Buy().Solve(context.Background(), 0)
	require.NoError(t, err)
	require.True(t, plan.Proven)
	require.InDelta(t, 18, plan.Cost, 1e-9)
	require.Len(t, plan.Sticks, 2)
	require.InDelta(t, 20*inch, plan.LongestLeft, 0.01)
	l.Stock[0].Length = 20 * inch
	_, err = l.Buy().Solve(context.Background(), 0)
	var all miter.Errors
	require.ErrorAs(t, err, &all)
	require.Equal(t, "pieces[0].length", all[0].Path)
}

// A name that is no word is told to be that of a molding.
func TestForNamesMoldings(t *testing.T) {
	require.Equal(t, "the base and the molding f", miter.Blank{Moldings: []string{"base", "f"}}.For())
}
