package profile

import "slices"

// MaxElements is the greatest number of elements a profile may have, those of its stacks counted in.
const MaxElements = 500

// maxDepth is how deep stacks may lie in stacks.
const maxDepth = 8

// kindFacts says what the file gives for an element of one kind.
type kindFacts struct {
	kind   Kind
	own    []string // keys beside set, height and projection
	runs   bool     // takes a projection
	factor float64  // projection left out is factor times the height
}

// facts lists the kinds in the order of the trade: flats, curves, rounds, the rest.
func facts() []kindFacts {
	return []kindFacts{
		{kind: KindFillet},
		{kind: KindFascia},
		{kind: KindCorona, own: []string{"drip"}},
		{kind: KindChamfer, runs: true, factor: 1},
		{kind: KindOvolo, own: []string{"curve"}, runs: true, factor: 1},
		{kind: KindCove, own: []string{"curve"}, runs: true, factor: 1},
		{kind: KindConge, runs: true, factor: 1},
		{kind: KindCymaRecta, own: []string{"curve", "radius"}, runs: true, factor: 1},
		{kind: KindCymaReversa, own: []string{"curve", "radius"}, runs: true, factor: 1},
		{kind: KindScotia, own: []string{"curve"}, runs: true, factor: -1.0 / 3},
		{kind: KindTorus},
		{kind: KindAstragal},
		{kind: KindBead, own: []string{"quirk", "flush"}},
		{kind: KindThumb, own: []string{"fillet"}, runs: true, factor: 1},
		{kind: KindQuirk, own: []string{"depth"}},
		{kind: KindReeds, own: []string{"count", "gap"}},
		{kind: KindFlutes, own: []string{"count", "gap"}},
		{kind: KindDentils, own: []string{"block", "gap", "depth"}},
		{kind: KindCurve, own: []string{"points"}, runs: true},
		{kind: KindStack, own: []string{"profile"}},
	}
}

var factsOf = func() map[Kind]kindFacts {
	m := map[Kind]kindFacts{}
	for _, f := range facts() {
		m[f.kind] = f
	}
	return m
}()

// Kinds returns every kind of element, flats first, then curves, rounds, and those that compose others.
func Kinds() []Kind {
	var out []Kind
	for _, f := range facts() {
		out = append(out, f.kind)
	}
	return out
}

// Keys returns the file keys that an element of this kind takes, in the order in which they are written; nil for a kind that does not
// exist.
func (k Kind) Keys() []string {
	f, ok := factsOf[k]
	if !ok {
		return nil
	}
	keys := []string{"set", "height"}
	if f.runs {
		keys = append(keys, "projection")
	}
	return append(keys, f.own...)
}

// Constructions returns the values that the key curve of this kind takes, the default first; nil where it has none.
func (k Kind) Constructions() []Construction {
	switch k {
	case KindOvolo, KindCove:
		return []Construction{CurveQuadrant, CurveArc, CurveEllipse}
	case KindCymaRecta, KindCymaReversa:
		return []Construction{CurveFlat, CurveBold, CurveEllipse}
	case KindScotia:
		return []Construction{CurveThirds, CurveSevenths}
	}
	return nil
}

// takes reports whether an element of this kind has the key.
func (k Kind) takes(key string) bool { return slices.Contains(k.Keys(), key) }
