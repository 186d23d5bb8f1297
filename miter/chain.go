package miter

import (
	"fmt"
	"slices"
)

// A chain is the row of neighboring edges that a molding runs along, from left to right as one goes round the case
// facing it.
type chain struct {
	edges         []Edge
	before, after Edge // the edges beyond its ends; of no meaning when closed
	closed        bool // it goes all round, so that the last meets the first
}

// chain returns the edges that m runs along on the stage. Faults are added under path, and the chain is then empty.
func (m Molding) chain(s StagePlan, path string, f *faults) chain {
	n := len(s.Edges)
	chosen := make([]bool, n)
	back := named(s.Edges, "back")
	before, unknown := len(f.list), false
	for i := range chosen {
		chosen[i] = m.Runs == nil && (i != back || s.Freestanding)
	}
	for k, name := range m.Runs {
		key := fmt.Sprintf("%s.runs[%d]", path, k)
		i := named(s.Edges, name)
		switch {
		case i < 0:
			unknown = true // told with the names
		case i == back && !s.Freestanding:
			f.add(key, "the back stands at the wall; write freestanding: true in the plan to mold it")
		case chosen[i]:
			f.add(key, "edge %s is named twice", name)
		default:
			chosen[i] = true
		}
	}
	if unknown || len(f.list) > before {
		return chain{}
	}
	return m.link(s, chosen, path, f)
}

// link puts the chosen edges in a row, and refuses them when they are not neighbors.
func (m Molding) link(s StagePlan, chosen []bool, path string, f *faults) chain {
	n := len(s.Edges)
	if !slices.Contains(chosen, true) {
		f.add(path+".runs", "name at least one edge; stage %s has %v", s.Name, edgeNames(s.Edges))
		return chain{}
	}
	if !slices.Contains(chosen, false) {
		first := max(0, named(s.Edges, "left"))
		c := chain{closed: true}
		for i := range n {
			c.edges = append(c.edges, s.Edges[(first+i)%n])
		}
		return c
	}
	var starts []int
	for i := range chosen {
		if chosen[i] && !chosen[(i+n-1)%n] {
			starts = append(starts, i)
		}
	}
	if len(starts) > 1 {
		f.add(path+".runs", "the runs are not neighbors: %s and %s do not meet; give each row of runs a molding of its own",
			s.Edges[starts[0]].Name, s.Edges[starts[1]].Name)
		return chain{}
	}
	c := chain{before: s.Edges[(starts[0]+n-1)%n]}
	i := starts[0]
	for ; chosen[i]; i = (i + 1) % n {
		c.edges = append(c.edges, s.Edges[i])
	}
	c.after = s.Edges[i]
	return c
}
