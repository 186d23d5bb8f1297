package serve

import (
	"slices"
	"strings"

	"listel/miter"
)

// A caseEdge is an edge of a stage's plan, and whether a molding runs along it.
type caseEdge struct {
	Name string `json:"name"`
	On   bool   `json:"on"`
}

// stageEdges returns the names of the edges of a case's stages, counter-clockwise from the left as one meets them in front of it, those at the wall left
// out. A case whose plans cannot be has none.
func stageEdges(c miter.Case) map[string][]string {
	out := map[string][]string{}
	plans, err := miter.Fit(miter.Case{Name: c.Name, Units: c.Units, Stages: c.Stages, Corners: c.Corners}, nil, nil)
	if err != nil {
		return out
	}
	for _, s := range plans.Stages {
		for _, e := range s.Edges {
			if s.Freestanding || e.Name != "back" {
				out[s.Name] = append(out[s.Name], e.Name)
			}
		}
	}
	return out
}

// alongEdges returns the edges of a stage with those ticked that a file names as runs: all for "" and all, else [left, front]. Names that the stage
// does not have come last, so that they can be taken away.
func alongEdges(names []string, runs string) []caseEdge {
	var said []string
	for _, name := range strings.Split(strings.Trim(runs, "[] "), ",") {
		if name = strings.Trim(name, ` "'`); name != "" && name != "all" {
			said = append(said, name)
		}
	}
	var out []caseEdge
	for _, name := range names {
		out = append(out, caseEdge{name, len(said) == 0 || slices.Contains(said, name)})
	}
	for _, name := range said {
		if !slices.Contains(names, name) {
			out = append(out, caseEdge{name, true})
		}
	}
	return out
}
