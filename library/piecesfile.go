package library

import (
	"listel/miter"
	"listel/miter/stock"
)

// maxPieceCount is the most pieces of one length that a file may ask for: as many as a plan takes in all.
const maxPieceCount = stock.MaxPieces

// ReadPieces reads the list of pieces in the file at path. The error is Mistakes, or why the file cannot be read.
func ReadPieces(path string) (miter.PieceList, *Source, error) {
	data, err := ReadFile(path)
	if err != nil {
		return miter.PieceList{}, nil, err
	}
	return LoadPieces(path, data)
}

// LoadPieces reads a plain list of lengths to cut and what they can be cut from, for any job. Left out, a kerf is 1/8 in, an inch is trimmed off
// each end of a stick, and leftovers from 12 in are kept; there is no test length, no spare and no safe length. The error is
// Mistakes: all that is wrong, at once.
func LoadPieces(file string, data []byte) (miter.PieceList, *Source, error) {
	v, err := open(file, data, "pieces")
	if err != nil {
		return miter.PieceList{}, nil, err
	}
	l := miter.PieceList{Name: baseName(file), Units: v.d.units, Shop: miter.Shop{Kerf: defaultKerf, Trim: defaultTrim, Offcut: defaultOffcut}}
	v.mapping("list of pieces",
		optional("kind", ignore),
		optional("name", name(&l.Name)),
		optional("title", text(&l.Title)),
		optional("units", ignore),
		optional("shop", piecesShop(&l.Shop)),
		required("stock", "a list, as in - {length: 8ft, price: 6}", stockOf(&l.Stock, func(s *miter.StockItem) field {
			return optional("thickness", thickness(s))
		})),
		required("pieces", "a list, as in - {mark: rail, length: 22 1/2, count: 4}", pieces(&l.Pieces)))
	if err := v.d.err(); err != nil {
		return miter.PieceList{}, v.d.source, err
	}
	return l, v.d.source, nil
}

// pieces reads the lengths to cut. One without a mark is called by its place in the list.
func pieces(dst *[]stock.Piece) func(value) {
	return func(v value) {
		n := v.list(stock.MaxPieces, func(i int) string { return ordinal("piece", i) }, func(i int, item value) {
			p := stock.Piece{Mark: ordinal("piece", i), Count: 1, Order: i}
			item.mapping("piece",
				optional("mark", text(&p.Mark)),
				required("length", "22 1/2", length(&p.Length, positive)),
				optional("count", whole(&p.Count, 1, maxPieceCount)),
				optional("wrap", text(&p.Wrap)))
			*dst = append(*dst, p)
		})
		if n == 0 {
			v.fault("pieces is an empty list", "give at least one, as in - {mark: rail, length: 22 1/2, count: 4}")
		}
	}
}

func piecesShop(dst *miter.Shop) func(value) {
	return func(v value) {
		spare := 0.0
		v.mapping("shop",
			optional("kerf", kerf(&dst.Kerf)),
			optional("trim", length(&dst.Trim, notNegative)),
			optional("offcut", length(&dst.Offcut, notNegative)),
			optional("test", length(&dst.Test, notNegative)),
			optional("spare", percent(&spare, 0, 200)),
			optional("safe", length(&dst.Safe, notNegative)))
		dst.Spare = spare / 100
	}
}
