package library

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"listel/miter"
	"listel/profile"
)

// moldings reads the moldings of a case.
func moldings(c *miter.Case) func(value) {
	return func(v value) {
		v.list(maxEntries, func(i int) string { return ordinal("molding", i) }, func(_ int, item value) {
			m := molding(item)
			taken := func(name string) bool {
				return slices.ContainsFunc(c.Moldings, func(o miter.Molding) bool { return o.Name == name })
			}
			if m.Name != "" && taken(m.Name) {
				item.fault("two moldings are named "+quoted(m.Name), "give each a name of its own")
			}
			if m.Name == "" { // unnamed: its profile, its profile-2, ...
				m.Name = m.Profile
				for n := 2; m.Profile != "" && taken(m.Name); n++ {
					m.Name = fmt.Sprintf("%s-%d", m.Profile, n)
				}
			}
			c.Moldings = append(c.Moldings, m)
		})
	}
}

// longestName bounds the names that messages call things by, in bytes.
const longestName = 40

// moldingName returns what messages call a molding: molding crown, by its name or its profile.
func moldingName(v value) string {
	for _, key := range []string{"name", "profile"} {
		if n := v.child(key); v.node.Kind == yaml.MappingNode && n != nil && n.Kind == yaml.ScalarNode && n.Value != "" {
			return labelOfMolding(n.Value)
		}
	}
	return labelOfMolding("")
}

// labelOfMolding returns what messages call a molding of that name.
func labelOfMolding(name string) string {
	if name == "" || len(name) > longestName {
		return "molding"
	}
	return "molding " + name
}

func molding(v value) miter.Molding {
	m := miter.Molding{EndLeft: miter.EndWall, EndRight: miter.EndWall, Inside: miter.InsideMiter}
	v.mapping(moldingName(v),
		optional("name", name(&m.Name)),
		optional("on", name(&m.On)),
		required("profile", "press-waist", name(&m.Profile)),
		required("at", "38", length(&m.At, notNegative)),
		optional("inset", length(&m.Inset, anySign)),
		optional("runs", runs(&m.Runs)),
		optional("ends", ends(&m)),
		optional("inside", oneOf(&m.Inside, words(miter.InsideMiter, miter.InsideCope))),
		optional("seats", name(&m.Seats)),
		optional("clearance", length(&m.Clearance, notNegative)),
		optional("reach", reach(&m)),
		optional("joint", joint(&m)),
		optional("frame", frame(&m)),
		optional("rake", rake(&m)),
		optional("blank", oneOf(&m.Blank, words(profile.BlankFlat, profile.BlankUpright))))
	return m
}

// runs reads the edges that a molding covers: a list of them, or all, which is nil.
func runs(dst *[]string) func(value) {
	return func(v value) {
		if v.node.Kind == yaml.ScalarNode {
			if v.node.Value != "all" {
				v.wrong("all, or a list of edges as in [left, front, right]")
			}
			return
		}
		listOf(dst, name)(v)
		switch first := firstTwin(*dst); {
		case first != "":
			v.fault(v.name+" names "+first+" twice", "each edge has one run")
		case v.node.Kind == yaml.SequenceNode && len(*dst) == 0:
			v.fault(v.name+" is an empty list", "all, or a list of edges as in [left, front, right]")
		}
	}
}

// firstTwin returns the first text that stands in the list before, "" when none does.
func firstTwin(list []string) string {
	for i, s := range list {
		if slices.Contains(list[:i], s) {
			return s
		}
	}
	return ""
}

// ends reads how a run ends where it meets no other: one word for both ends, or one for each.
func ends(m *miter.Molding) func(value) {
	return func(v value) {
		of := words(miter.EndWall, miter.EndReturn, miter.EndOpen)
		if v.node.Kind == yaml.ScalarNode {
			oneOf(&m.EndLeft, of)(v)
			m.EndRight = m.EndLeft
			return
		}
		v.mapping("ends", optional("left", oneOf(&m.EndLeft, of)), optional("right", oneOf(&m.EndRight, of)))
	}
}

func reach(m *miter.Molding) func(value) {
	return func(v value) {
		m.Reach = map[string]float64{}
		v.each("reach", "left: 3/4", func(key string, item value) {
			var mm float64
			length(&mm, positive)(item)
			m.Reach[key] = mm
		})
	}
}

func joint(m *miter.Molding) func(value) {
	return func(v value) {
		v.mapping("joint",
			optional("spline", func(v value) {
				s := &miter.SplineSpec{}
				m.Spline = s
				v.mapping("spline",
					required("thickness", "1/8", length(&s.Thickness, positive)),
					required("depth", "3/8", length(&s.Depth, positive)),
					optional("stopped", yesNo(&s.Stopped)))
			}),
			optional("pin", func(v value) {
				p := &miter.PinSpec{}
				m.Pin = p
				v.mapping("pin",
					required("diameter", "1/4", length(&p.Diameter, positive)),
					required("depth", "3/4", length(&p.Depth, positive)))
			}))
	}
}

func frame(m *miter.Molding) func(value) {
	return func(v value) {
		f := &miter.FrameSpec{}
		m.Frame = f
		v.mapping("frame", required("back-rail", "{width: 2, tenon: 1}", inner("back-rail",
			required("width", "2", length(&f.RailWidth, positive)),
			optional("tenon", length(&f.Tenon, notNegative)))))
	}
}

func rake(m *miter.Molding) func(value) {
	return func(v value) {
		r := &miter.RakeSpec{}
		m.Rake = r
		v.mapping("rake",
			required("pitch", "20deg", angle(&r.Pitch, 0, 90)),
			optional("peak", oneOf(&r.Broken, []choice[bool]{{"closed", false}, {"broken", true}})),
			optional("returns", oneOf(&r.Plumb, []choice[bool]{{"same", false}, {"plumb", true}})),
			optional("gap", length(&r.Gap, positive)))
	}
}

// maxRows bounds the rows of drawers and the drawers of a row.
const maxRows = 100

// openings reads the drawer openings.
func openings(c *miter.Case) func(value) {
	return func(v value) {
		o := &miter.Openings{TopRow: 1}
		c.Openings = o
		v.mapping("openings",
			optional("on", name(&o.On)),
			optional("edge", name(&o.Edge)),
			required("area", "{left: 1, right: 1, bottom: 4, top: 34}", area(o)),
			optional("divider", length(&o.Divider, notNegative)),
			required("graduate", "{rows: 4, ratio: 0.88}", graduation(&o.Graduate)),
			optional("top-row", whole(&o.TopRow, 1, maxRows)))
		if o.Edge == "" {
			o.Edge = "front"
		}
		if n := v.child("top-row"); n != nil && len(o.Graduate.Heights) > 0 {
			v.d.add(Place{n.Line, n.Column}, join(v.path, "top-row"), "top-row is given beside a list of rows", "each row of the list has its own drawers")
		}
	}
}

func area(o *miter.Openings) func(value) {
	return func(v value) {
		v.mapping("area",
			required("left", "1", length(&o.Left, notNegative)),
			required("right", "1", length(&o.Right, notNegative)),
			required("bottom", "4", length(&o.Bottom, notNegative)),
			required("top", "34", length(&o.Top, positive)))
		if o.Top > 0 && o.Top <= o.Bottom {
			v.fault("the top of area is not above its bottom", "both are heights above the floor")
		}
	}
}

// graduation reads how rows of drawers grow: rows with ratio, with step, or with bottom and top; or each row.
func graduation(g *miter.Graduation) func(value) {
	return func(v value) {
		ok := v.mapping("graduate",
			required("rows", "4", rows(g)),
			optional("ratio", number(&g.Ratio, 0.1, 1)),
			optional("step", length(&g.Step, notNegative)),
			optional("bottom", length(&g.Bottom, positive)),
			optional("top", length(&g.Top, positive)))
		if !ok {
			return
		}
		has := func(key string) bool { return v.child(key) != nil }
		ways := 0
		for _, given := range []bool{has("ratio"), has("step"), has("bottom") || has("top"), len(g.Heights) > 0} {
			if given {
				ways++
			}
		}
		switch {
		case has("bottom") != has("top"):
			v.fault("graduate has only one of bottom and top", "both: the heights of the lowest and the highest row")
		case ways > 1:
			v.fault("graduate says in several ways how the rows grow", "one of ratio, step, bottom with top, or a list of rows")
		case ways == 0 && g.Rows > 1:
			v.fault("graduate does not say how the rows grow", "give a ratio (0.88), a step (1), bottom and top, or a list of rows; ratio: 1 makes them equal")
		}
	}
}

// rows reads the number of rows, or a list of them from the bottom.
func rows(g *miter.Graduation) func(value) {
	return func(v value) {
		if v.node.Kind != yaml.SequenceNode {
			whole(&g.Rows, 1, maxRows)(v)
			return
		}
		g.Rows = v.list(maxRows, func(i int) string { return ordinal("row", i) }, func(_ int, item value) {
			r := miter.Row{Drawers: 1}
			item.mapping("row",
				required("height", "8", length(&r.Height, positive)),
				optional("drawers", whole(&r.Drawers, 1, maxRows)))
			g.Heights = append(g.Heights, r)
		})
		if g.Rows == 0 {
			v.fault("rows is an empty list", fmt.Sprintf(v.d.example("give 1 to %d rows, as in - {height: 8, drawers: 1}"), maxRows))
		}
	}
}
