package library

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"listel/profile"
)

func kindNames() []string {
	kinds := profile.Kinds()
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = string(k)
	}
	return names
}

func ordinal(what string, i int) string { return fmt.Sprintf("%s %d", what, i+1) }

// element reads one member: a single key, its kind, with the sizes as its value. ok is false when the kind is not
// known.
func element(v value) (e profile.Entry, ok bool) {
	kind, sizes, sized := v.kinded("element", kindNames(), "an element is its kind with its sizes, as in - fillet: {height: 1/4}")
	e.Kind = profile.Kind(kind)
	if sized {
		sizes.elementKeys(&e)
	}
	return e, kind != ""
}

// elementKeys reads the sizes of an element whose kind is known.
func (v value) elementKeys(e *profile.Entry) {
	fields := elementFields(e)
	if v.node.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(v.node.Content); i += 2 {
			k := v.node.Content[i]
			foreign := slices.Contains([]string{"projection", "curve", "height"}, k.Value)
			if foreign && !slices.Contains(keysOf(fields), k.Value) {
				want := "its keys are " + strings.Join(keysOf(fields), ", ")
				if k.Value == "projection" {
					want = "its face is plumb or comes back to where it started; a step before it is its set"
				}
				v.d.add(Place{k.Line, k.Column}, join(v.path, k.Value), fmt.Sprintf("%s takes no %s", e.Kind, k.Value), want)
				fields = append(fields, optional(k.Value, ignore))
			}
		}
	}
	v.mapping(string(e.Kind), fields...)
}

// elementFields returns the keys that e's kind takes, each read into e. A test holds them to profile.Kind.Keys.
func elementFields(e *profile.Entry) []field {
	height := required("height", "1/4", sizeOrRest(&e.Height, positive))
	run := optional("projection", sizeOrRest(&e.Projection, anySign))
	set := optional("set", size(&e.Set, anySign))
	switch e.Kind {
	case profile.KindFillet, profile.KindFascia, profile.KindTorus, profile.KindAstragal:
		return []field{height, set}
	case profile.KindCorona:
		return []field{height, set, optional("drip", drip(e))}
	case profile.KindChamfer, profile.KindConge:
		return []field{height, run, set}
	case profile.KindOvolo, profile.KindCove, profile.KindScotia:
		return []field{height, run, set, curve(e)}
	case profile.KindCymaRecta, profile.KindCymaReversa:
		return []field{height, run, set, curve(e), optional("radius", size(&e.Radius, positive))}
	case profile.KindBead:
		return []field{height, set, optional("quirk", beadQuirk(e)), optional("flush", yesNo(&e.Flush))}
	case profile.KindThumb:
		return []field{height, run, set, optional("fillet", size(&e.Fillet, notNegative))}
	case profile.KindQuirk:
		return []field{height, set, required("depth", "1/16", size(&e.Depth, positive))}
	case profile.KindReeds, profile.KindFlutes:
		return []field{height, set, required("count", "3", whole(&e.Count, 1, MaxElements)), optional("gap", size(&e.Gap, notNegative))}
	case profile.KindDentils:
		return []field{height, set, required("block", "1/2", size(&e.Block, positive)),
			required("gap", "1/4", size(&e.Gap, positive)), required("depth", "1/4", size(&e.Depth, positive))}
	case profile.KindCurve:
		return []field{optional("height", sizeOrRest(&e.Height, positive)), run, set,
			required("points", "[{x: 1/4, y: 1/2}]", curvePoints(e))}
	case profile.KindStack:
		return []field{required("profile", "the name of another profile", name(&e.Profile)),
			optional("height", sizeOrRest(&e.Height, positive)), set}
	}
	return nil
}

func curve(e *profile.Entry) field {
	return optional("curve", oneOf(&e.Curve, words(e.Kind.Constructions()...)))
}

func drip(e *profile.Entry) func(value) {
	return func(v value) {
		e.Drip = &profile.Drip{}
		v.mapping("drip",
			required("width", "1/8", size(&e.Drip.Width, positive)),
			required("depth", "1/8", size(&e.Drip.Depth, positive)),
			required("inset", "1/8", size(&e.Drip.Inset, positive)))
	}
}

func beadQuirk(e *profile.Entry) func(value) {
	return func(v value) {
		q := &profile.BeadQuirk{}
		e.Quirk = q
		v.mapping("quirk",
			required("width", "1/16", size(&q.Width, positive)),
			required("depth", "1/8", size(&q.Depth, positive)),
			optional("sides", oneOf(&q.Sides, []choice[profile.Sides]{
				{"above", profile.AboveOnly}, {"below", profile.BelowOnly}, {"both", profile.BothSides}})))
	}
}

func curvePoints(e *profile.Entry) func(value) {
	return func(v value) {
		n := v.list(MaxElements, func(i int) string { return ordinal("point", i) }, func(_ int, item value) {
			var p profile.CurvePoint
			item.mapping("point",
				required("x", "1/4", size(&p.X, anySign)),
				required("y", "1/4", size(&p.Y, anySign)),
				optional("through", pair(size, func(a, b profile.Size) { p.Through = &[2]profile.Size{a, b} })))
			e.Points = append(e.Points, p)
		})
		if n == 0 {
			v.fault("points is an empty list", "give at least one, as in - {x: 1/4, y: 1/2}")
		}
	}
}
