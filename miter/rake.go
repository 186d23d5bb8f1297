package miter

import (
	"fmt"

	"listel/profile/geom"
)

// A Pediment is what a raking molding comes to.
type Pediment struct {
	Pitch  geom.Angle `json:"pitch_deg"`
	Broken bool       `json:"broken"`
	Plumb  bool       `json:"plumb"`
	Rise   float64    `json:"rise_mm"` // from the foot of the eave to that of the peak, at the back
	Gap    float64    `json:"gap_mm"`  // between the faces of the top returns, 0 at a closed peak
}

// The names of the runs of a pediment.
const (
	leftRake, rightRake           = "left-rake", "right-rake"
	leftTopReturn, rightTopReturn = "left-top-return", "right-top-return"
)

const (
	mostPitch = 60 * geom.Degree
	gapPart   = 1.0 / 3 // of the front, between the returns of an open peak when the file does not say
)

// RakingMap returns the map from a level section to the raking one, square to a slope of that pitch. slope is how far the miter at
// the eave runs out for each mm of projection: 1 at a square corner. It is Hatfield's construction (The American House-Carpenter, par. 323):
// lines through the points of the level section parallel to the slope, and the same projections set off square to it.
func RakingMap(pitch geom.Angle, slope float64) geom.Affine {
	return geom.Affine{A: 1, B: slope * pitch.Sin(), D: pitch.Cos()}
}

// PlumbMap returns the map from a level section to the raking piece cut plumb across its face.
func PlumbMap(pitch geom.Angle, slope float64) geom.Affine {
	return geom.Affine{A: 1, B: slope * pitch.Tan(), D: 1}
}

// TopReturnMap returns the map from the level section at the eave to that of the level return at an open peak, whose corner is
// square.
func TopReturnMap(pitch geom.Angle, slope float64) geom.Affine {
	return geom.Affine{A: 1, B: (1 + slope) * pitch.Tan(), D: 1}
}

// A raker turns the level front of a molding into a pediment.
type raker struct {
	*fitting
	RakeSpec
	front *run
	gap   float64
	out   []*run
}

// rake replaces the front run by the two slopes of a pediment and its top returns.
func (m *fitting) rake() {
	at := -1
	for i, r := range m.runs {
		if r.name == "front" {
			at = i
		}
	}
	k := &raker{fitting: m, RakeSpec: *m.Rake}
	if !k.check(at) {
		return
	}
	k.front = m.runs[at]
	l, r := k.front.left, k.front.right
	middle := (l.cut.S + r.cut.S) / 2
	if k.Broken {
		k.gap = k.Gap
		if k.gap == 0 {
			k.gap = k.front.edge.Length() * gapPart
		}
	}
	k.slope(LeftHand, middle)
	k.slope(RightHand, middle)
	if !k.Plumb {
		k.lean(at)
	}
	for i := range m.runs {
		for _, e := range []*runEnd{&m.runs[i].left, &m.runs[i].right} {
			if e.meets == "front" {
				e.meets = map[bool]string{true: leftRake, false: rightRake}[i < at]
			}
		}
	}
	m.runs = append(append(append([]*run(nil), m.runs[:at]...), k.out...), m.runs[at+1:]...)
	m.pediment(k, middle-l.cut.S)
}

// pediment notes the pediment in the result.
func (m *fitting) pediment(k *raker, half float64) {
	up := half - k.gap/2
	m.out.Rake = &Pediment{Pitch: k.Pitch, Broken: k.Broken, Plumb: k.Plumb, Gap: k.gap, Rise: up * k.Pitch.Tan()}
	runs := m.profile.runs[:0]
	for _, name := range m.profile.runs {
		if name != "front" {
			runs = append(runs, name)
		}
	}
	m.profile.runs = runs
}

// check refuses what cannot rake.
func (k *raker) check(at int) bool {
	before, path := len(k.list), k.path+".rake"
	if !(k.Pitch > 0 && k.Pitch <= mostPitch) {
		k.add(path+".pitch", "the pitch must be more than 0 and at most %.0f degrees", mostPitch.Degrees())
	}
	if !(k.Gap >= 0 && k.Gap <= maxLength) {
		k.add(path+".gap", "the gap is not less than 0")
	}
	if at < 0 {
		k.add(path, "a pediment stands over the front: name it among the runs")
		return false
	}
	front := k.runs[at]
	if front.section != k.profile {
		k.add(k.path+".reach.front", "the front of a pediment has the profile's own projection; narrow the other runs")
	}
	for _, e := range []runEnd{front.left, front.right} {
		if e.kind == CutCope || e.slope < 0 {
			k.add(path, "the front ends in an inside corner at %s: a slope cannot begin there", e.meets)
		}
	}
	if l, r := k.slopeOf(front.left), k.slopeOf(front.right); !k.Broken && !near(l, r, 1e-9) {
		k.add(path+".peak", "the corners at the two ends of the front differ, and with them the two raking sections: they do not meet at a closed peak; write peak: broken")
	}
	if k.Broken && k.Gap >= front.edge.Length() {
		k.add(path+".gap", "the gap is as long as the front")
	}
	if !k.Plumb {
		k.checkLean(at, path)
	}
	return len(k.list) == before
}

// checkLean refuses corners at which leaning returns do not close. A return of the slope's own section is the slope's mirror image in their miter. It leans
// as the slope does, its back plumb on the side of the case, only when the side is square to the front: at any other corner the mirror turns its back
// out of the side's plane, so that no cut closes it, and a section of its own is what returns: plumb makes.
func (k *raker) checkLean(at int, path string) {
	for _, i := range []int{at - 1, at + 1} {
		if i < 0 || i >= len(k.runs) || k.runs[i].ret {
			continue
		}
		r, front := k.runs[i], k.runs[at]
		near90, far := front.left, r.left
		if i > at {
			near90, far = front.right, r.right
		}
		if !near90.corner.Near(90*geom.Degree, 1e-9) {
			k.add(path+".returns", "leaning returns close only at corners of 90 degrees, not at %s; write returns: plumb", r.name)
		}
		if far.kind != CutSquare || !far.cut.Square() {
			k.add(path+".returns", "run %s leans with the slope and cannot meet a level run at its far end; write returns: plumb", r.name)
		}
	}
	if k.chain.closed {
		k.add(path+".returns", "leaning returns cannot go all round; write returns: plumb")
	}
}

// slopeOf returns how far the eave's miter runs out for each mm of projection; an end with no miter counts as a square return.
func (k *raker) slopeOf(e runEnd) float64 {
	if e.kind == CutMiter {
		return e.slope
	}
	return 1
}

// slope adds one slope with its top return. u is the distance along the front from its left end, and the eave end of the slope
// has its back corner at u = S.
func (k *raker) slope(h Hand, middle float64) {
	pitch, up := k.Pitch, 1.0
	eave := k.front.left
	if h == RightHand {
		eave, up = k.front.right, -1
	}
	sin, cos, tan := up*pitch.Sin(), pitch.Cos(), up*pitch.Tan()
	d, z := k.front.place.Along, Vec3{Z: 1}
	r := &run{name: rakeName(h), edge: k.front.edge, inset: k.front.inset, section: k.raking(h, k.slopeOf(eave))}
	r.section.runs = append(r.section.runs, r.name)
	r.place = Placement{Origin: k.front.place.Origin.Add(d.Mul(eave.cut.S)), Along: d.Mul(cos).Add(z.Mul(sin)), Out: k.front.place.Out, Up: z.Mul(cos).Add(d.Mul(-sin))}
	// A plumb plane u = S + X x is s = (X x + y tan cos) / cos from the eave's back corner.
	low := runEnd{kind: eave.kind, corner: eave.corner, meets: eave.meets, slope: eave.slope, cut: Plane{X: eave.cut.X / cos, Y: tan}}
	if !k.Plumb && eave.kind == CutMiter {
		low.cut = Plane{X: eave.cut.X}
	}
	if low.kind == CutSquare {
		low.kind = CutPlumb
	}
	far := (middle - up*k.gap/2 - up*k.front.inset*k.broken()) - eave.cut.S
	high := runEnd{kind: CutPlumb, corner: straight, meets: rakeName(other(h)), cut: Plane{S: far / cos, Y: tan}}
	if k.Broken {
		high = runEnd{kind: CutMiter, corner: 90 * geom.Degree, meets: topName(h), slope: 1, cut: Plane{S: far / cos, X: up / cos, Y: tan}}
		if !k.Plumb {
			high.cut = Plane{S: far / cos, X: up}
		}
	}
	if k.Plumb {
		r.notes = append(r.notes, "the foot of a raking section is not square to its back: hold the back to the fence")
	}
	if h == LeftHand {
		r.left, r.right = low, high
		k.out = append(k.out, r)
		if k.Broken {
			k.out = append(k.out, k.topReturn(h, r, far, k.slopeOf(eave)))
		}
		return
	}
	r.left, r.right = high, low
	if k.Broken {
		k.out = append(k.out, k.topReturn(h, r, far, k.slopeOf(eave)))
	}
	k.out = append(k.out, r)
}

func (k *raker) broken() float64 {
	if k.Broken {
		return 1
	}
	return 0
}

func other(h Hand) Hand {
	if h == LeftHand {
		return RightHand
	}
	return LeftHand
}

func rakeName(h Hand) string {
	if h == LeftHand {
		return leftRake
	}
	return rightRake
}

func topName(h Hand) string {
	if h == LeftHand {
		return leftTopReturn
	}
	return rightTopReturn
}

// topReturn returns the piece that turns a slope back to the case at an open peak. far is how far along the front its back lies
// from the eave.
func (k *raker) topReturn(h Hand, rake *run, far float64, slope float64) *run {
	q := &run{name: topName(h), ret: true}
	q.inset = rake.inset
	d, n := k.front.place.Along, k.front.place.Out
	s := far / k.Pitch.Cos()
	q.section = k.profile
	if k.Plumb {
		q.section = k.shaped(RoleTopReturn, fmt.Sprintf("%s-top-return", k.Profile), slope, TopReturnMap(k.Pitch, slope))
	}
	q.section.runs = append(q.section.runs, q.name)
	origin := rake.place.At(s, geom.Point{})
	out, up := d, Vec3{Z: 1}
	if !k.Plumb {
		out, up = rake.place.Along, rake.place.Up
	}
	miter := runEnd{kind: CutMiter, corner: 90 * geom.Degree, meets: rake.name, slope: 1}
	square := runEnd{kind: CutSquare, corner: straight}
	if h == LeftHand { // at the right end of the left slope
		q.place = Placement{Origin: origin, Along: n.Mul(-1), Out: out, Up: up}
		miter.cut = Plane{X: -1}
		q.left, q.right = miter, square
	} else {
		q.place = Placement{Origin: origin, Along: n, Out: out.Mul(-1), Up: up}
		miter.cut = Plane{X: 1}
		q.left, q.right = square, miter
	}
	return q
}

// raking returns the section of a slope.
func (k *raker) raking(h Hand, slope float64) *used {
	if !k.Plumb {
		return k.profile
	}
	u := k.shaped(RoleRaking, k.Profile+"-raking", slope, RakingMap(k.Pitch, slope))
	k.shaped(RolePlumbCut, k.Profile+"-plumb-cut", slope, PlumbMap(k.Pitch, slope))
	return u
}

// shaped returns the profile under a map, made once for each slope.
func (k *raker) shaped(role Role, name string, slope float64, a geom.Affine) *used {
	for _, u := range k.used {
		if u.role == role && near(u.slope, slope, 1e-9) {
			return u
		}
		if u.role == role {
			name = fmt.Sprintf("%s-%s", name, RightHand)
		}
	}
	u := mappedUsed(k.profile.Section, name, role, a)
	u.slope = slope
	k.used = append(k.used, u)
	if role != RolePlumbCut { // no more than another cut through the raking piece
		k.sound(u, k.path+".rake")
	}
	return u
}

// lean turns the level runs beside the front to the slope, faces and all.
func (k *raker) lean(at int) {
	for _, i := range []int{at - 1, at + 1} {
		if i < 0 || i >= len(k.runs) {
			continue
		}
		r, rake := k.runs[i], k.out[0]
		out := rake.place.Along.Mul(-1)
		if i > at {
			rake = k.out[len(k.out)-1]
			out = rake.place.Along
		}
		r.place.Out, r.place.Up = out, rake.place.Up
		r.notes = append(r.notes, "its faces lean with the slope: pack the hollow behind it")
	}
}
