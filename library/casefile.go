package library

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
)

// maxEntries bounds each list of a case file: stages, moldings, rows, stock.
const maxEntries = 200

// What a case file means when it leaves something out. All are common practice, no source.
const (
	defaultKerf    = measure.MMPerInch / 8  // of a saw blade
	defaultRough   = measure.MMPerInch      // left on each end of a piece
	defaultTest    = 12 * measure.MMPerInch // stick to set machines up with, for each profile
	defaultSpare   = 15                     // per cent of the summed lengths
	defaultSafe    = 12 * measure.MMPerInch // shortest stick that is machined
	defaultTrim    = measure.MMPerInch      // off each end of a stick, for checks and paint
	defaultOffcut  = 12 * measure.MMPerInch // shortest leftover that is kept
	defaultPlaning = measure.MMPerInch / 8  // of a strip's width, to joint its two edges
	defaultCelsius = (70.0 - 32) * 5 / 9    // a heated room
)

// LoadCase reads a case file. It returns the case with its defaults filled in and where each key stands; the profiles and
// woods that it names are looked up later. file names the data in messages, and the case when it has no name of its own.
// The error is Mistakes: all that is wrong, at once; the case then holds what could be read, for Missing.
func LoadCase(file string, data []byte) (miter.Case, *Source, error) {
	v, err := open(file, data, "case")
	if err != nil {
		return miter.Case{}, nil, err
	}
	c := miter.Case{Name: baseName(file), Units: v.d.units, Side: miter.Side{Cut: miter.FlatSawn}, Shop: defaultShop()}
	v.mapping("case",
		optional("kind", ignore),
		optional("name", name(&c.Name)),
		optional("title", text(&c.Title)),
		optional("units", ignore),
		optional("stages", stages(&c)),
		optional("plan", ignore), // read by single
		optional("height", ignore),
		optional("corners", corners(&c)),
		optional("wood", text(&c.Wood)),
		optional("side", side(&c.Side)),
		optional("room", room(&c.Room)),
		optional("moldings", moldings(&c)),
		optional("openings", openings(&c)),
		optional("beads", beads(&c)),
		optional("shop", shop(&c.Shop)),
		optional("stock", stockItems(&c.Stock)),
	)
	single(v, &c)
	crossCheck(v, &c)
	if err := v.d.err(); err != nil {
		return c, v.d.source, err
	}
	return c, v.d.source, nil
}

func defaultShop() miter.Shop {
	return miter.Shop{Kerf: defaultKerf, Rough: defaultRough, Test: defaultTest, Spare: defaultSpare / 100.0, Safe: defaultSafe,
		Trim: defaultTrim, Offcut: defaultOffcut, Planing: defaultPlaning}
}

// stages reads the boxes of the case, from the floor up.
func stages(c *miter.Case) func(value) {
	return func(v value) {
		n := v.list(maxEntries, func(i int) string { return ordinal("stage", i) }, func(i int, item value) {
			s := miter.Stage{}
			item.mapping("stage",
				required("name", "lower", name(&s.Name)),
				required("plan", "{width: 42, depth: 18}", plan(&s.Plan)),
				required("height", "38", length(&s.Height, positive)),
				optional("offset", xy(func(p geom.Point) { s.Offset = &p })))
			if i == 0 && s.Offset != nil {
				item.fault("the lowest stage has an offset", "it stands on the floor; only a stage above another takes one")
			}
			if s.Name != "" && slices.ContainsFunc(c.Stages, func(o miter.Stage) bool { return o.Name == s.Name }) {
				item.fault("two stages are named "+quoted(s.Name), "give each a name of its own")
			}
			c.Stages = append(c.Stages, s)
		})
		if n == 0 {
			v.fault("stages is an empty list", v.d.example("give at least one, as in - {name: lower, plan: {width: 42, depth: 18}, height: 38}"))
		}
	}
}

// single reads the one stage of a case that has plan and height at the top, and notes what is missing or given twice.
func single(v value, c *miter.Case) {
	switch hasPlan, hasHeight := v.child("plan") != nil, v.child("height") != nil; {
	case v.child("stages") != nil:
		for _, key := range []string{"plan", "height"} {
			if n := v.child(key); n != nil {
				v.d.add(Place{n.Line, n.Column}, key, key+" is given beside stages", "each stage has its own")
			}
		}
	case !hasPlan && !hasHeight:
		v.d.add(v.at, "stages", "stages is missing in this case", v.d.example("write stages: [{name: lower, plan: {width: 42, depth: 18}, height: 38}]"))
	case !hasPlan:
		v.d.add(v.at, "plan", "plan is missing in this case", v.d.example("write plan: {width: 42, depth: 18}"))
	case !hasHeight:
		v.d.add(v.at, "height", "height is missing in this case", v.d.example("write height: 38"))
	default:
		s := miter.Stage{Name: "case"}
		for _, f := range []field{optional("plan", plan(&s.Plan)), optional("height", length(&s.Height, positive))} {
			if sub, ok := v.sub(v.child(f.key), f.key, f.key); ok && !isNull(sub.node) {
				f.read(sub)
			}
		}
		c.Stages = []miter.Stage{s}
	}
}

// corners reads measured inside angles by the name of the corner.
func corners(c *miter.Case) func(value) {
	return func(v value) {
		c.Corners = map[string]geom.Angle{}
		v.each("corners", "front-left: 90", func(key string, item value) {
			var a geom.Angle
			angle(&a, 0, 360)(item)
			if d := a.Degrees(); d > 179.5 && d < 180.5 {
				item.fault(item.name+" is "+item.node.Value, "it must be more than 0 and less than 360 degrees, and not 180, where two edges are one")
				return
			}
			c.Corners[key] = a
		})
	}
}

// each reads v as a group of keys that are names of the file's own making.
func (v value) each(name, example string, read func(key string, item value)) {
	if v.node.Kind != yaml.MappingNode {
		v.wrong("a group of keys is needed, as in " + v.d.example(example))
		return
	}
	if n := len(v.node.Content) / 2; n > maxEntries {
		v.fault(fmt.Sprintf("%s has %d keys", v.name, n), fmt.Sprintf("the limit is %d", maxEntries))
		return
	}
	var fields []field
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		if key, ok := keyText(v.node.Content[i]); ok && key != "<<" {
			fields = append(fields, optional(key, func(item value) { read(key, item) }))
		}
	}
	v.mapping(name, fields...)
}

func side(dst *miter.Side) func(value) {
	return func(v value) {
		v.mapping("side",
			optional("build", oneOf(&dst.Framed, []choice[bool]{{"solid", false}, {"framed", true}})),
			optional("cut", oneOf(&dst.Cut, words(miter.FlatSawn, miter.QuarterSawn))),
			optional("thickness", length(&dst.Thickness, positive)))
	}
}

// room reads the air that the case will stand in. Left out, the case is built in the middle of the humidity range and kept at
// 70 F.
func room(dst *miter.Room) func(value) {
	return func(v value) {
		dst.Celsius, dst.BuiltAt = defaultCelsius, -1
		v.mapping("room",
			required("humidity", "[30, 65]", humidity(dst)),
			optional("built-at", percent(&dst.BuiltAt, 5, 95)),
			optional("temperature", temperature(&dst.Celsius)))
		if dst.BuiltAt < 0 {
			dst.BuiltAt = (dst.HumidityLow + dst.HumidityHigh) / 2
		}
	}
}

func humidity(dst *miter.Room) func(value) {
	return func(v value) {
		if v.node.Kind != yaml.SequenceNode || len(v.node.Content) != 2 {
			v.wrong("the least and the greatest of the year are needed, as in [30, 65]")
			return
		}
		v.list(2, func(i int) string { return []string{"the least humidity", "the greatest humidity"}[i] }, func(i int, item value) {
			percent([]*float64{&dst.HumidityLow, &dst.HumidityHigh}[i], 5, 95)(item)
		})
		if dst.HumidityLow > dst.HumidityHigh && dst.HumidityHigh > 0 {
			v.fault("humidity runs from the greater to the less", fmt.Sprintf("[%g, %g]?", dst.HumidityHigh, dst.HumidityLow))
		}
	}
}

func beads(c *miter.Case) func(value) {
	return func(v value) {
		b := &miter.Beads{}
		c.Beads = b
		v.mapping("beads", required("profile", "edge-bead", name(&b.Profile)), optional("inset", length(&b.Inset, notNegative)))
	}
}

func shop(dst *miter.Shop) func(value) {
	return func(v value) {
		spare := dst.Spare * 100
		v.mapping("shop",
			optional("kerf", kerf(&dst.Kerf)),
			optional("rough", length(&dst.Rough, notNegative)),
			optional("test", length(&dst.Test, notNegative)),
			optional("spare", percent(&spare, 0, 200)),
			optional("safe", length(&dst.Safe, notNegative)),
			optional("trim", length(&dst.Trim, notNegative)),
			optional("offcut", length(&dst.Offcut, notNegative)),
			optional("planing", length(&dst.Planing, notNegative)))
		dst.Spare = spare / 100
	}
}

// mostKerf is the widest kerf that is read, mm: twice that of any saw for moldings (common practice, no source).
const mostKerf = measure.MMPerInch / 2

// kerf reads what a saw takes away.
func kerf(dst *float64) func(value) {
	return func(v value) {
		var mm float64
		length(&mm, notNegative)(v)
		if mm > mostKerf {
			v.fault(v.name+" is "+v.node.Value, "at most "+measure.Format{Units: v.d.units}.Length(mostKerf))
			return
		}
		*dst = mm
	}
}

// crossCheck notes what one key says against another, and fills in what a key left out takes from others. Names that the case does not have are told
// when it is fitted, or by Missing.
func crossCheck(v value, c *miter.Case) {
	for i := range c.Moldings {
		m := &c.Moldings[i]
		path := fmt.Sprintf("moldings[%d]", i)
		switch {
		case m.On != "":
		case len(c.Stages) == 1:
			m.On = c.Stages[0].Name
		case len(c.Stages) > 1 && !v.d.source.Has(path+".on"):
			v.d.add(v.d.source.Place(path), path+".on", "on is missing in "+labelOfMolding(m.Name), "name the stage: one of "+strings.Join(c.StageNames(), ", "))
		}
	}
	for i := range c.Stock {
		if c.Stock[i].Wood == "" {
			c.Stock[i].Wood = c.Wood
		}
	}
	if c.Openings != nil && c.Openings.On == "" && len(c.Stages) > 0 {
		c.Openings.On = c.Stages[0].Name
	}
	if c.Beads != nil && c.Openings == nil && v.child("openings") == nil {
		v.d.add(v.d.source.Place("beads"), "beads", "beads are asked for without openings", "say where the openings are, or drop beads")
	}
}
