package trace

import "slices"

const (
	// leastDark is the share of the ink's darkness below which a pen's disc is not full of it.
	leastDark = 0.55
	// roundEnd is how far beside a break the round ends of the line reach, px.
	roundEnd = 3
	// mostWorn is the length in px from which ink that is thin or pale is the line itself, drawn lightly.
	mostWorn = 12
)

// worn takes for open the edges where the line is thinner or paler than elsewhere for a short way: it is broken there, and blur or a line of the hatching joins what is left.
func worn(edges []edge, line float64) {
	var darks []float64
	for _, e := range edges {
		if e.ok {
			darks = append(darks, e.dark)
		}
	}
	if line < 3 || len(darks) == 0 { // px: blur makes a thin line thinner in one place than in another
		return
	}
	slices.Sort(darks)
	pale := leastDark * darks[len(darks)/2]
	n := len(edges)
	bad := make([]bool, n)
	for i, e := range edges {
		bad[i] = e.ok && e.dark < pale
	}
	for i := range edges {
		if !bad[i] || bad[(i-1+n)%n] {
			continue
		}
		last := i
		for bad[(last+1)%n] {
			last++
		}
		if edges[i].at.Dist(edges[last%n].at) > mostWorn {
			continue
		}
		for j := i; j <= last; j++ {
			edges[j%n].ok, edges[j%n].open = false, true
		}
		openBeside(edges, i, n-1)
		openBeside(edges, last%n, 1)
	}
}

// openBeside takes for open the edges that the round end of a broken line has, walking away from the break's first edge or its last.
func openBeside(edges []edge, from, step int) {
	n := len(edges)
	for k, j := 1, (from+step)%n; k < 2*roundEnd && edges[j].at.Dist(edges[from].at) <= roundEnd; k, j = k+1, (j+step)%n {
		edges[j].ok, edges[j].open = false, true
	}
}
