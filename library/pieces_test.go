package library_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/miter/stock"
	"listel/profile/measure"
)

// TestLoadPieces reads a list with every key, and one with as few as will do.
func TestLoadPieces(t *testing.T) {
	l, src, err := library.LoadPieces("doors.yaml", []byte(`kind: pieces
name: doors
title: Doors of a bookcase
units: in
shop: {kerf: 3/32, trim: 1/2, offcut: 18, test: 6, spare: 10%, safe: 8}
stock:
  - {wood: ash, thickness: 4/4, width: 2, length: 8ft, price: 6.50, have: 5}
  - {length: 30, have: 1}
pieces:
  - {mark: stile, length: 30 1/2, count: 4, wrap: round}
  - {length: 12}
`))
	require.NoError(t, err)
	require.Equal(t, miter.PieceList{
		Name: "doors", Title: "Doors of a bookcase", Units: measure.Inches,
		Shop: miter.Shop{Kerf: 25.4 * 3 / 32, Trim: 12.7, Offcut: 18 * 25.4, Test: 6 * 25.4, Spare: 0.1, Safe: 8 * 25.4},
		Stock: []miter.StockItem{{Wood: "ash", Thickness: "4/4", ThickMM: 25.4, Width: 50.8, Length: 96 * 25.4, Price: 6.5, Priced: true, Have: 5},
			{Length: 30 * 25.4, Have: 1}},
		Pieces: []stock.Piece{{Mark: "stile", Length: 30.5 * 25.4, Count: 4, Wrap: "round"}, {Mark: "piece 2", Length: 12 * 25.4, Count: 1, Order: 1}},
	}, l)
	require.Equal(t, 11, src.Place("pieces[1].length").Line)

	l, _, err = library.LoadPieces("rods.yaml", []byte("kind: pieces\nunits: mm\nstock: [{length: 3000}]\npieces: [{length: 500}]\n"))
	require.NoError(t, err)
	require.Equal(t, miter.Shop{Kerf: 25.4 / 8, Trim: 25.4, Offcut: 304.8}, l.Shop)
	require.Equal(t, "rods", l.Name)
}
