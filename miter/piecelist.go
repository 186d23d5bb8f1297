package miter

import (
	"fmt"

	"listel/miter/stock"
	"listel/profile/measure"
)

// A PieceList is a plain list of lengths to cut, for a job that is no case: each stick or board makes one strip, as it is.
type PieceList struct {
	Name, Title string
	Units       measure.Units
	Pieces      []stock.Piece // without profiles; those of one wrap are cut one after the other
	Stock       []StockItem
	Shop        Shop // Rough and Planing are of no account
}

// Buy returns what the list needs.
func (l PieceList) Buy() Purchase {
	p := Purchase{c: Case{Units: l.Units, Stock: l.Stock}, format: measure.Format{Units: l.Units}, owner: map[string]string{}}
	s := l.Shop
	p.Job.Shop = stock.Shop{Kerf: s.Kerf, Trim: s.Trim, MinOffcut: s.Offcut, Spare: s.Spare, Test: s.Test, Safe: s.Safe}
	p.Job.Pieces = l.Pieces
	for i, q := range l.Pieces {
		p.owner[q.Mark] = fmt.Sprintf("pieces[%d].length", i)
	}
	p.items()
	return p
}
