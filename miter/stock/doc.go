// Package stock says which sticks and boards to buy and how to cut them, so that nothing costs less: the cutting-stock
// problem, solved exactly, with a proof or an honest gap.
//
// A Job is a list of pieces, the stock they may be cut from and the habits of the shop; Solve returns a Plan. Sticks come
// in several lengths with prices, some of them only on the rack; every piece takes a kerf with it; boards are ripped to
// strips, for one profile or for several that agree in wood and thickness, and the strips are cut to pieces. Pieces of
// one wrap follow one another from one strip so that the grain runs round the corners.
//
// # How it works
//
// Inside everything is a whole number: lengths in units of 1/1600 mm, in which 1/64 in and 0.01 mm are both exact, money
// in cents. A stick of length L less the trim at both ends holds pieces of length l when the sum of l + kerf does not
// exceed L + kerf.
//
// A linear program over cutting patterns, its columns made as they are needed by a knapsack in whole numbers, says what each
// piece is worth. Those worths are rounded down to whole numbers and completed by exact knapsacks, so that they prove a
// bound whatever the floating point did: no strip holds pieces worth more than the strip costs. The bound is raised to the
// next cost that can be paid at all. If a plan made in one go, or board by board, does not meet it, a depth-first search over maximal
// patterns looks for one that does; if that is slow, the numbers bought are enumerated, best bound first, of each item and then of each
// way to rip it, each settled by the same search. A plan is proven when its cost is met by worths that separate code has checked, or
// when everything cheaper has been exhausted. Among plans of least cost the one with the longest single leftover is taken.
//
// Boards are ripped to no more strips of a class than hold all of it, but for one that may be left over whole. Where there are still too many ways to
// rip them to list, as with dozens of sections from the same boards, the ways are made as they are needed too, by a knapsack over the
// width; the bound then holds for all of them, and the plan is the best found with those made.
//
// Effort is counted in nodes, so that the same job gives the same plan; the context stops it by the clock (DefaultTime
// is a good limit), and the plan then says so and states the gap.
package stock
