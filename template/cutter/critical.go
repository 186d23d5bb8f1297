package cutter

import "sort"

// critical returns, sorted, the offsets at which a contact of the tool t with the section s can change from one
// piece to another: corner of the section against edge of the tool, and center of arc against center of arc.
func critical(s, t curve) []float64 {
	var xs []float64
	edges := edgesOf(t)
	for _, x := range edgesOf(s) {
		for _, u := range edges {
			xs = append(xs, x-u)
		}
	}
	for _, p := range s {
		for _, q := range t {
			if p.half != straightLine && q.half != straightLine {
				xs = append(xs, p.c.X-q.c.X)
			}
		}
	}
	return distinct(xs, vertical)
}

// edgesOf returns the ends of a curve's pieces, sorted, each once.
func edgesOf(c curve) []float64 {
	var xs []float64
	for _, p := range c {
		xs = append(xs, p.a, p.b)
	}
	return distinct(xs, vertical)
}

// distinct sorts xs and drops those within tol of the one before.
func distinct(xs []float64, tol float64) []float64 {
	sort.Float64s(xs)
	out := xs[:0]
	for _, x := range xs {
		if len(out) == 0 || x-out[len(out)-1] > tol {
			out = append(out, x)
		}
	}
	return out
}
