package library

import (
	"math/big"
	"regexp"

	"listel/miter"
	"listel/miter/stock"
)

// stockItems reads what wood can be bought or lies on the rack.
func stockItems(dst *[]miter.StockItem) func(value) {
	return stockOf(dst, func(s *miter.StockItem) field { return required("thickness", "8/4", thickness(s)) })
}

// stockOf reads stock whose thickness is read by a field of its own.
func stockOf(dst *[]miter.StockItem, thickness func(*miter.StockItem) field) func(value) {
	return func(v value) {
		v.list(maxEntries, func(i int) string { return ordinal("entry", i) + " of stock" }, func(_ int, item value) {
			s := miter.StockItem{}
			item.mapping("stock",
				optional("wood", text(&s.Wood)),
				thickness(&s),
				optional("width", length(&s.Width, positive)),
				required("length", "8ft", length(&s.Length, positive)),
				optional("price", func(v value) { s.Priced = true; number(&s.Price, 0, 1e6)(v) }),
				optional("have", whole(&s.Have, 1, 100000)))
			*dst = append(*dst, s)
		})
	}
}

// quarters is a rough thickness as lumber is sold: a whole number of quarter inches.
var quarters = regexp.MustCompile(`^\s*(\d{1,2})/4\s*$`)

// tradeQuarters are the rough thicknesses that yards keep, of those in the tables that stock.Surfaced is from.
const tradeQuarters = "4/4, 5/4, 6/4, 8/4, 10/4, 12/4 or 16/4"

// thickness reads a thickness as lumber is sold, in quarters of an inch (8/4) whatever the file's units are, or a length.
func thickness(s *miter.StockItem) func(value) {
	return func(v value) {
		t, ok := v.scalar("a thickness is needed, like 8/4 or 50mm")
		if !ok {
			return
		}
		s.Thickness = t
		if q := quarters.FindStringSubmatch(t); q != nil {
			if n, ok := new(big.Rat).SetString(q[1] + "/4"); ok && n.Sign() > 0 {
				s.ThickMM, _ = n.Mul(n, big.NewRat(254, 10)).Float64()
				if !stock.Tabled(s.ThickMM) {
					v.fault(v.name+" is "+t, "lumber is not sold so; "+tradeQuarters+" would do, or what a board of yours measures, as in 83mm")
				}
				return
			}
		}
		length(&s.ThickMM, positive)(v)
		if s.ThickMM > 0 && isBare(t) {
			s.Thickness = t + " " + v.d.units.String()
		}
	}
}
