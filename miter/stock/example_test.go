package stock_test

import (
	"context"
	"fmt"

	"listel/miter/stock"
)

// A run of base molding round three sides, its grain running round the corners, and two short pieces from what is left.
func ExampleSolve() {
	const in = 25.4
	plan, err := stock.Solve(context.Background(), stock.Job{
		Shop: stock.Shop{Kerf: in / 8, Trim: in / 2, MinOffcut: 6 * in},
		Pieces: []stock.Piece{
			{Mark: "A", Length: 20 * in, Wrap: "base", Order: 1},
			{Mark: "B", Length: 45 * in, Wrap: "base", Order: 2},
			{Mark: "C", Length: 20 * in, Wrap: "base", Order: 3},
			{Mark: "D", Length: 17 * in, Count: 2},
		},
		Stock: []stock.Item{
			{Name: "8 ft", Length: 96 * in, Price: 14, Have: stock.Unlimited},
			{Name: "12 ft", Length: 144 * in, Price: 22, Have: stock.Unlimited},
			{Name: "offcut", Length: 40 * in, Price: 3, Have: 1, Offcut: true},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range plan.Sticks {
		fmt.Printf("%s:", s.Item)
		for _, c := range s.Cuts {
			fmt.Printf(" %s %.0f", c.Mark, c.Length/in)
		}
		fmt.Printf(", left %.3f in\n", s.Left/in)
	}
	fmt.Printf("cost %.2f, proven %t\n", plan.Cost, plan.Proven)
	// Output:
	// 8 ft: A 20 B 45 C 20, left 9.625 in
	// offcut: D 17 D 17, left 4.750 in
	// cost 17.00, proven true
}

// The thickness that is left of rough 8/4 lumber, and the board feet of a board of it.
func ExampleSurfaced() {
	const in = 25.4
	fmt.Printf("%.2f in\n", stock.Surfaced(2*in)/in)
	fmt.Printf("%.2f board feet\n", stock.BoardFeet(96*in, 6*in, 2*in))
	// Output:
	// 1.75 in
	// 8.00 board feet
}
