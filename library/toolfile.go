package library

import (
	"errors"
	"fmt"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
)

// toolKinds are the kinds of tools that a file may hold, in the order in which they are named.
var toolKinds = words(cutter.Straight, cutter.RoundNose, cutter.RoundOver, cutter.CoveBit, cutter.Ogee, cutter.Vee, cutter.Dovetail,
	cutter.SlotCutter, cutter.SawBlade, cutter.RabbetPlane, cutter.HollowPlane, cutter.RoundPlane, cutter.SideBead, cutter.FormTool)

func toolKindNames() []string {
	names := make([]string, len(toolKinds))
	for i, k := range toolKinds {
		names[i] = k.word
	}
	return names
}

// What a tool takes when its file does not say: common practice, no source.
const (
	bitReach    = 50.0 // mm under the face that it enters: what a bit stands over a router table at most
	planeReach  = 60.0
	bitPerPass  = 6.0
	bladePass   = 40.0
	planePass   = 0.5 // what is planed off with a setting of the fence or the layout line, several shavings
	bladeTilt   = 45 * geom.Degree
	bearingHigh = 5.0
)

// LoadTools reads a file of tools. A form tool that is given by a profile comes without its edge: Library.Tools finds that. file names the data
// in messages, and the set when it has no name of its own. The error is Mistakes: all that is wrong, at once.
func LoadTools(file string, data []byte) (ToolSet, *Source, error) {
	v, err := open(file, data, "tools")
	if err != nil {
		return ToolSet{}, nil, err
	}
	set := ToolSet{Name: baseName(file), Units: v.d.units}
	v.mapping("set of tools",
		optional("kind", ignore),
		optional("name", name(&set.Name)),
		optional("title", text(&set.Title)),
		optional("source", text(&set.Source)),
		optional("units", ignore),
		required("tools", "a list, as in - round-nose: {radius: 1/4}", tools(&set)))
	if len(v.d.mistakes) > 0 {
		return ToolSet{}, v.d.source, v.d.err()
	}
	return set, v.d.source, nil
}

// tools reads the list of tools.
func tools(set *ToolSet) func(value) {
	return func(v value) {
		named := map[string]int{}
		n := v.list(MaxElements, func(i int) string { return ordinal("tool", i) }, func(i int, item value) {
			t, m, ok := tool(item, set.Units)
			if !ok {
				return
			}
			if first, dup := named[t.Name]; dup {
				item.fault(fmt.Sprintf("%s has the name of tool %d, %s", item.name, first+1, quoted(t.Name)), "give it a name of its own")
				return
			}
			named[t.Name] = i
			if m.profile != "" {
				m.tool, m.path = len(set.Tools), item.path
				set.molds = append(set.molds, m)
			}
			set.Tools = append(set.Tools, t)
		})
		if n == 0 {
			v.fault("tools is an empty list", "give at least one, as in - round-nose: {radius: 1/4}")
		}
	}
}

// tool reads one tool: a single key, its kind, with the sizes as its value.
func tool(v value, units measure.Units) (t cutter.Tool, m mold, ok bool) {
	kind, sizes, ok := v.kinded("tool", toolKindNames(), "a tool is its kind with its sizes, as in - round-nose: {radius: 1/4}")
	if !ok {
		return t, m, false
	}
	t.Kind = cutter.Kind(kind)
	before := len(v.d.mistakes)
	label := ""
	sizes.mapping(kind, toolFields(&t, &m, &label)...)
	if len(v.d.mistakes) > before {
		return t, m, false
	}
	complete(&t)
	if t.Name == "" {
		t.Name = toolName(t, label, measure.Format{Units: units})
	}
	return t, m, sizes.validTool(t, m)
}

// validTool notes what a tool's own rules find wrong.
func (v value) validTool(t cutter.Tool, m mold) bool {
	if t.Kind == cutter.FormTool && (len(t.Profile) > 0) == (m.profile != "") {
		v.fault("form needs points or a profile, one of them", "write points: [{x: -1/4, y: 1/4}, {x: 0, y: 0}, {x: 1/4, y: 1/4}]")
		return false
	}
	var fault *cutter.ToolError
	err := t.Validate()
	if m.profile != "" || !errors.As(err, &fault) {
		return true
	}
	at := v.d.source.Place(join(v.path, fault.Key))
	v.d.add(at, join(v.path, fault.Key), fmt.Sprintf("%s of %s %s", fault.Key, t.Kind, fault.Reason), toolWant(t.Kind, fault.Key))
	return false
}

// toolWant says what would do for a key that is out of range.
func toolWant(kind cutter.Kind, key string) string {
	switch key {
	case "pilot or tip":
		return "give the diameter of the bearing (pilot) or the width of the flat at the point (tip), one of them"
	case "angle":
		if kind == cutter.Dovetail {
			return "the sides meet the shank before the length ends: a smaller angle, a shorter length or a greater diameter"
		}
		return "an angle between the sides, from 1 to 179 degrees"
	case "profile":
		return "the points run from left to right and never turn back"
	}
	return ""
}

// toolFields returns the keys that t's kind takes, each read into t.
func toolFields(t *cutter.Tool, m *mold, label *string) []field {
	fields := []field{
		optional("name", text(&t.Name)), optional("title", text(&t.Title)),
		optional("reach", length(&t.Reach, positive)), optional("per-pass", length(&t.PerPass, positive)),
	}
	add := func(f ...field) { fields = append(fields, f...) }
	diameter := required("diameter", "1/2", length(&t.Diameter, positive))
	radius := required("radius", "1/4", length(&t.Radius, positive))
	switch t.Kind {
	case cutter.Straight:
		add(diameter)
	case cutter.RoundNose:
		add(radius)
	case cutter.RoundOver, cutter.CoveBit, cutter.Ogee:
		add(radius, optional("pilot", length(&t.Pilot, positive)), optional("pilot-height", length(&t.PilotHeight, positive)),
			optional("tip", length(&t.Tip, positive)))
		if t.Kind == cutter.Ogee {
			add(optional("flip", yesNo(&t.Flip)))
		}
	case cutter.Vee:
		add(diameter, required("angle", "90deg", angle(&t.Angle, 1, 179)))
	case cutter.Dovetail:
		add(diameter, required("angle", "14deg", angle(&t.Angle, 0, 45)))
	case cutter.SlotCutter:
		add(diameter, required("width", "1/8", length(&t.Width, positive)))
	case cutter.SawBlade:
		add(diameter, required("kerf", "1/8", length(&t.Width, positive)), optional("max-tilt", angle(&t.MaxTilt, -1, 90)))
	case cutter.RabbetPlane:
		add(required("width", "1/2", length(&t.Width, positive)))
	case cutter.HollowPlane, cutter.RoundPlane:
		add(radius, optional("number", text(label)))
	case cutter.SideBead:
		add(diameter, optional("quirk", length(&t.Quirk, positive)))
	case cutter.FormTool:
		add(optional("work", oneOf(&t.Work, words(cutter.Router, cutter.Plane))), optional("points", toolPoints(&t.Profile)),
			optional("profile", name(&m.profile)), optional("tip", length(&m.tip, positive)))
	}
	if w := t.Works(); w == cutter.Router && t.Kind != cutter.SlotCutter {
		add(optional("length", length(&t.Length, positive)), optional("shank", length(&t.Shank, positive)))
	}
	return fields
}

// complete gives a tool what its file may leave out.
func complete(t *cutter.Tool) {
	set := func(v *float64, def float64) {
		if *v == 0 {
			*v = def
		}
	}
	switch t.Works() {
	case cutter.Saw:
		set(&t.PerPass, bladePass)
		set(&t.Reach, t.Diameter*0.3) // a 10 in blade stands about 3 in over its table
		if t.MaxTilt == 0 {
			t.MaxTilt = bladeTilt
		}
	case cutter.Plane:
		set(&t.PerPass, planePass)
		set(&t.Reach, planeReach)
	default:
		set(&t.PerPass, bitPerPass)
		if t.Kind == cutter.Dovetail {
			set(&t.Reach, 2*t.Length) // of the tip over the table
		}
		if t.Kind == cutter.SlotCutter {
			set(&t.Reach, t.Diameter*0.25) // to the hub or the bearing
		}
		set(&t.Reach, bitReach)
	}
	if t.Pilot > 0 {
		set(&t.PilotHeight, bearingHigh)
	}
}

// toolPoints reads the lower edge of a form tool: points from left to right, the lowest at the tool's point.
func toolPoints(dst *geom.Path) func(value) {
	return func(v value) {
		var path geom.Path
		var last *geom.Point
		n := v.list(MaxElements, func(i int) string { return ordinal("point", i) }, func(_ int, item value) {
			var p geom.Point
			var through *geom.Point
			item.mapping("point",
				required("x", "1/4", length(&p.X, anySign)),
				required("y", "1/4", length(&p.Y, anySign)),
				optional("through", xy(func(q geom.Point) { through = &q })))
			if last != nil {
				path = appendEdge(path, item, *last, through, p)
			}
			last = &p
		})
		if n >= 0 && n < 2 {
			v.fault("points has too few points", "give at least two, from left to right")
		}
		if len(path) > 0 {
			low := path.Bounds().Min.Y // the planner takes the lowest point for the tool's point
			path = path.Translate(geom.Pt(0, -low))
		}
		*dst = path
	}
}

func appendEdge(path geom.Path, v value, a geom.Point, through *geom.Point, b geom.Point) geom.Path {
	if a.Near(b, 1e-9) {
		v.fault(v.name+" is where the one before it is", "drop it")
		return path
	}
	if through == nil {
		return append(path, geom.Line{A: a, B: b})
	}
	s, err := geom.ArcThrough(a, *through, b)
	if err != nil {
		v.fault(v.name+": "+err.Error(), "three points that are apart make an arc")
		return path
	}
	return append(path, s)
}
