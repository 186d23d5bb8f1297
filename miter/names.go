package miter

import (
	"fmt"
	"slices"
)

// Unknown returns Errors for the names of stages, edges and corners that the case gives and does not have, nil when there are none: what can be told of a case
// that cannot be fitted. It tells nothing of stages when one has no name, and nothing of the edges and corners of plans that cannot be drawn.
func (c Case) Unknown() error {
	var f faults
	if !slices.Contains(c.StageNames(), "") {
		for i, m := range c.Moldings {
			if m.On != "" || len(c.Stages) == 1 { // else which edges it may name hangs on the stage that is missing
				c.unknownInMolding(i, &f)
			}
		}
		c.unknownInOpenings(&f)
	}
	if used, ok := c.cornersUsed(); ok {
		c.unusedCorners(used, &f)
	}
	return f.err()
}

// StageNames returns the names of the stages, from the floor up.
func (c Case) StageNames() []string {
	names := make([]string, len(c.Stages))
	for i, s := range c.Stages {
		names[i] = s.Name
	}
	return names
}

// unknownInMolding refuses the stages and the edges that molding i names and the case does not have.
func (c Case) unknownInMolding(i int, f *faults) {
	m, path := c.Moldings[i], fmt.Sprintf("moldings[%d]", i)
	c.unknownStage(m.On, path+".on", f)
	for k, name := range m.Runs {
		c.unknownEdge(m.On, name, fmt.Sprintf("%s.runs[%d]", path, k), f)
	}
	c.unknownStage(m.Seats, path+".seats", f)
}

// unknownInOpenings refuses the stage and the edge that the openings name and the case does not have.
func (c Case) unknownInOpenings(f *faults) {
	if o := c.Openings; o != nil {
		c.unknownStage(o.On, "openings.on", f)
		c.unknownEdge(o.On, o.edge(), "openings.edge", f)
	}
}

// unknownStage refuses the name of a stage that there is not; the empty name stands for one that there is, or for none.
func (c Case) unknownStage(name, path string, f *faults) {
	if names := c.StageNames(); name != "" && !slices.Contains(names, name) {
		f.unknown(path, "the case has no stage", name, names)
	}
}

// unknownEdge refuses the name of an edge that the stage of that name, the lowest for the empty one, does not have, or, where there is no such stage, that
// none has.
func (c Case) unknownEdge(stage, name, path string, f *faults) {
	if stage == "" && len(c.Stages) > 0 {
		stage = c.Stages[0].Name
	}
	names, whole := c.edgesOf(stage)
	reason := "no stage has an edge"
	if slices.Contains(c.StageNames(), stage) {
		reason = "stage " + stage + " has no edge"
	}
	if whole && name != "" && !slices.Contains(names, name) {
		f.unknown(path, reason, name, names)
	}
}

// edgesOf returns the names of the edges of the stage of that name, of all stages when there is none, and whether all their plans can be drawn.
func (c Case) edgesOf(stage string) (names []string, whole bool) {
	whole = true
	known := slices.Contains(c.StageNames(), stage)
	for _, s := range c.Stages {
		if known && s.Name != stage {
			continue
		}
		edges := s.Plan.edges("", &faults{})
		whole = whole && edges != nil
		for _, name := range edgeNames(edges) {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names, whole
}

// cornersUsed returns which of the measured corners some stage has, and whether all plans can be drawn.
func (c Case) cornersUsed() (used map[string]bool, whole bool) {
	var f faults
	used = map[string]bool{}
	for _, s := range c.Stages {
		edges := s.Plan.edges("", &f)
		for name := range c.Corners {
			used[name] = used[name] || cornerAt(edges, name) >= 0
		}
	}
	return used, len(f.list) == 0
}
