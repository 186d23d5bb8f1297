package library

import (
	"fmt"
	"slices"
	"strings"

	"listel/miter"
	"listel/profile/geom"
)

// planShapes are the keys of which a plan has exactly one, and the keys that each goes with.
var planShapes = []struct {
	key  string
	with []string
}{
	{"width", []string{"depth", "canted", "breakfront"}},
	{"octagon", nil},
	{"half-octagon", nil},
	{"outline", []string{"edges"}},
}

// plan reads the outline of a stage seen from above.
func plan(dst *miter.Plan) func(value) {
	return func(v value) {
		p := dst
		ok := v.mapping("plan",
			optional("width", length(&p.Width, positive)),
			optional("depth", length(&p.Depth, positive)),
			optional("canted", inner("canted", required("setback", "3", length(&p.Canted, positive)))),
			optional("breakfront", breakfront(p)),
			optional("octagon", inner("octagon", required("across", "30", length(&p.Octagon, positive)))),
			optional("half-octagon", inner("half-octagon", required("width", "30", length(&p.HalfOctagon, positive)))),
			optional("outline", outline(p)),
			optional("edges", edges(p)),
			optional("freestanding", yesNo(&p.Freestanding)))
		if ok {
			oneShape(v)
		}
		if ok && len(p.Outline) > 0 && len(p.Edges) > 0 && len(p.Edges) != len(p.Outline) {
			v.fault(fmt.Sprintf("the outline has %d points, but edges has %d names", len(p.Outline), len(p.Edges)),
				"edge 1 runs from point 1 to point 2, the last one back to point 1: as many names as points")
		}
	}
}

// inner reads a group of the keys f.
func inner(name string, f ...field) func(value) {
	return func(v value) { v.mapping(name, f...) }
}

// oneShape notes a plan with no shape, with two, or with a key that does not go with its shape.
func oneShape(v value) {
	var given []string
	for _, s := range planShapes {
		if v.child(s.key) != nil {
			given = append(given, s.key)
		}
	}
	switch {
	case len(given) == 0 && v.child("depth") != nil:
		v.fault("width is missing in plan", v.d.example("write {width: 42, depth: 18}"))
		return
	case len(given) == 0:
		v.fault("the plan has no shape", v.d.example("write {width: 42, depth: 18}, or give an octagon, a half-octagon or an outline"))
		return
	case len(given) > 1:
		v.fault("the plan has several shapes: "+strings.Join(given, ", "), "one of them")
		return
	}
	for _, s := range planShapes {
		for _, key := range s.with {
			n := v.child(key)
			if n != nil && s.key != given[0] {
				v.d.add(Place{n.Line, n.Column}, join(v.path, key), key+" does not go with "+given[0], "it goes with "+s.key)
			}
			if n == nil && s.key == given[0] && (key == "depth" || key == "edges") {
				v.d.add(v.at, join(v.path, key), key+" is missing in plan", "it goes with "+s.key)
			}
		}
	}
}

func breakfront(p *miter.Plan) func(value) {
	return func(v value) {
		b := &miter.Breakfront{}
		p.Breakfront = b
		v.mapping("breakfront",
			required("width", "20", length(&b.Width, positive)),
			required("step", "2", length(&b.Step, positive)))
		if p.Width > 0 && b.Width >= p.Width {
			v.fault("the breakfront is as wide as the plan", "it must leave a wing on each side")
		}
	}
}

func outline(p *miter.Plan) func(value) {
	return func(v value) {
		n := v.list(maxEntries, func(i int) string { return ordinal("point", i) }, func(i int, item value) {
			xy(func(q geom.Point) { p.Outline = append(p.Outline, q) })(item)
		})
		if n >= 0 && n < 3 {
			v.fault(fmt.Sprintf("outline has %d points", n), "at least 3 are needed, counter-clockwise from the front left")
		}
	}
}

func edges(p *miter.Plan) func(value) {
	return func(v value) {
		listOf(&p.Edges, name)(v)
		for i, e := range p.Edges {
			if slices.Contains(p.Edges[:i], e) {
				v.fault("two edges are named "+quoted(e), "give each a name of its own")
			}
		}
	}
}
