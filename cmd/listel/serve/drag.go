package serve

import (
	"errors"
	"fmt"
	"math"
	"math/big"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A dragger changes the sizes of a profile so that a corner of a member comes to where the hand is. Sizes go by whole steps; one that was
// in parts stays in parts, and where a size is the rest its neighbor gives way.
type dragger struct {
	data []byte
	p    job.Profile
	step float64       // mm, 0 for none
	unit measure.Units // that the step is in
	part float64       // mm, 0 without parts
}

// errUndrawn is what is said of a drag in a profile that cannot be built.
var errUndrawn = errors.New("the molding cannot be drawn as it stands; put right what is marked first")

// drag returns the text of a profile with a corner of a member dragged.
func (s *Server) drag(q sectionRequest, c change) ([]byte, error) {
	d, err := s.dragging(q, c)
	if err != nil {
		return nil, err
	}
	if !(math.Abs(c.X) <= measure.Limit && math.Abs(c.Y) <= measure.Limit) {
		return nil, errors.New("that is over the limit of 20 m")
	}
	if c.Snap != "" {
		if d.step, err = measure.ParsePositive(c.Snap, measure.Inches); err != nil {
			return nil, err
		}
		d.unit = unitOf(c.Snap)
	}
	hand := geom.Pt(c.X, c.Y)
	switch {
	case c.Corner == "top":
		err = d.top(c.At, hand)
	case c.Corner == "foot":
		err = d.foot(c.At, hand)
	case pointCorner.MatchString(c.Corner) && d.p.Profile.Elements[c.At].Kind == profile.KindCurve:
		err = d.point(c.At, c.Corner, hand)
	default:
		err = fmt.Errorf("there is no corner %q", c.Corner)
	}
	if err == nil {
		err = d.reach()
	}
	return d.data, err
}

// unitOf returns the units that a step is written in; a bare one is in inches.
func unitOf(step string) measure.Units {
	in, _ := measure.ParseLength(step, measure.Inches)
	mm, err := measure.ParseLength(step, measure.Millimeters)
	if err == nil && in == mm && len(step) > 2 && step[len(step)-2:] == "mm" {
		return measure.Millimeters
	}
	return measure.Inches
}

// top brings the upper end of a member to the hand.
func (d *dragger) top(i int, hand geom.Point) error {
	e, m := d.p.Profile.Elements[i], d.p.Section.Members[i]
	foot, top := ends(m)
	rise := hand.Y - foot.Y - (top.Y - foot.Y - m.Height) // without the quirks beside a bead
	run := hand.X - foot.X
	switch coupling(e) {
	case noRun:
		return d.rise(i, rise)
	case runIsRise:
		return d.together(i, (rise+math.Abs(run))/2, run)
	case runIsThird:
		return d.third(i, rise)
	}
	if err := d.run(i, run); err != nil {
		return err
	}
	return d.rise(i, rise)
}

// A couple says how a member's run hangs on its rise.
type couple int

const (
	free couple = iota
	noRun
	runIsRise
	runIsThird
)

// coupling returns how the run of an element hangs on its rise.
func coupling(e profile.Entry) couple {
	switch e.Kind {
	case profile.KindConge:
		return runIsRise
	case profile.KindOvolo, profile.KindCove:
		if e.Curve == "" || e.Curve == profile.CurveQuadrant {
			return runIsRise
		}
		return free
	case profile.KindCymaRecta, profile.KindCymaReversa:
		if e.Curve == profile.CurveBold {
			return runIsRise
		}
		return free
	case profile.KindScotia:
		if e.Curve != profile.CurveSevenths {
			return runIsThird
		}
		return free
	case profile.KindChamfer, profile.KindThumb:
		return free
	}
	return noRun
}

// together gives rise and run of a member one size, the run toward the hand.
func (d *dragger) together(i int, size, toward float64) error {
	e, m := d.p.Profile.Elements[i], d.p.Section.Members[i]
	size = d.least(size)
	back := m.Projection < 0
	if math.Abs(toward) > math.Max(d.step, 1) { // near the plumb line it keeps its way
		back = toward < 0
	}
	run := size
	if back {
		run = -size
	}
	if e.Projection.Given() && !e.Projection.IsRest() || back {
		if err := d.put(i, "projection", e.Projection, m.Projection, run); err != nil {
			return err
		}
	}
	return d.rise(i, size)
}

// third gives a scotia its rise, and its run the third of it.
func (d *dragger) third(i int, rise float64) error {
	e, m := d.p.Profile.Elements[i], d.p.Section.Members[i]
	rise = d.least(rise)
	if e.Projection.Given() && !e.Projection.IsRest() {
		run := math.Copysign(rise/3, m.Projection)
		if err := d.put(i, "projection", profile.MM(0), m.Projection, run); err != nil {
			return err
		}
	}
	return d.rise(i, rise)
}

// rise gives a member another height. Of one whose height is the rest the member above gives way, or the profile's height.
func (d *dragger) rise(i int, rise float64) error {
	all, members := d.p.Profile.Elements, d.p.Section.Members
	rise = d.least(rise)
	more := rise - members[i].Height
	if math.Abs(more) < same {
		return nil
	}
	if all[i].Height.IsRest() {
		if i+1 < len(all) {
			above := members[i+1].Height - more
			return d.put(i+1, "height", all[i+1].Height, members[i+1].Height, d.least(above))
		}
		return d.whole("height", d.p.Profile.Height+more)
	}
	if err := d.put(i, "height", all[i].Height, members[i].Height, rise); err != nil {
		return err
	}
	return d.rest(i, more)
}

// rest makes up for a member that has become higher by so much: where no member takes the rest, the profile's height follows, or in parts the
// member above.
func (d *dragger) rest(i int, more float64) error {
	all, members := d.p.Profile.Elements, d.p.Section.Members
	for _, e := range all {
		if e.Height.IsRest() {
			return nil // it gives way
		}
	}
	switch {
	case d.p.Profile.Height == 0:
		return nil
	case d.part == 0:
		return d.whole("height", d.p.Profile.Height+more)
	case i+1 < len(all): // parts hang on the height, which stays
		return d.put(i+1, "height", all[i+1].Height, members[i+1].Height, d.least(members[i+1].Height-more))
	}
	return nil
}

// run gives a member another run. Where it is the rest the profile's projection follows.
func (d *dragger) run(i int, run float64) error {
	e, m := d.p.Profile.Elements[i], d.p.Section.Members[i]
	run = d.snapped(run)
	if math.Abs(run) < same { // no member has none
		run = math.Copysign(d.least(0), m.Projection)
	}
	if e.Projection.IsRest() {
		return d.whole("projection", d.p.Profile.Projection+run-m.Projection)
	}
	return d.put(i, "projection", e.Projection, m.Projection, run)
}

// foot brings the lower end of a member to the hand: across by its step, or the ground of the lowest, and up by the rise of the one below.
func (d *dragger) foot(i int, hand geom.Point) error {
	e, m := d.p.Profile.Elements[i], d.p.Section.Members[i]
	before := m.Start - m.Set
	var err error
	if i == 0 && !e.Set.Given() {
		if ground := math.Max(0, d.snapped(hand.X)); math.Abs(ground-d.p.Section.Ground) >= same {
			d.data, err = library.SetKey(d.data, "ground", d.text(d.p.Profile.Ground, ground))
		}
	} else if set := d.snapped(hand.X - before); math.Abs(set) < same && e.Set.Given() {
		d.data, err = library.UnsetKey(d.data, fmt.Sprintf("elements[%d].set", i))
	} else {
		err = d.put(i, "set", e.Set, m.Set, set)
	}
	if err != nil || i == 0 {
		return err
	}
	below := d.p.Section.Members[i-1]
	if d.p.Profile.Elements[i-1].Kind == profile.KindCurve || math.Abs(hand.Y-m.Foot) < math.Max(d.step/2, same) {
		return nil
	}
	return d.rise(i-1, below.Height+hand.Y-m.Foot)
}

// reach makes the profile's projection, where it is given and no run is the rest, that which the members reach now.
func (d *dragger) reach() error {
	if d.p.Profile.Projection == 0 {
		return nil
	}
	for _, e := range d.p.Profile.Elements {
		if e.Projection.IsRest() {
			return nil
		}
	}
	without, err := library.UnsetKey(d.data, "projection")
	if err != nil {
		return nil // it cannot be taken out, so that check tells the difference
	}
	p, err := job.LoadProfile(d.p.Lib, d.p.Arg, string(without))
	if err == nil {
		p, err = p.Built()
	}
	if err != nil || math.Abs(p.Section.Projection-d.p.Profile.Projection) < same {
		return nil // what else is wrong is told by check
	}
	return d.whole("projection", p.Section.Projection)
}

// same is the difference in mm up to which a size counts as unchanged, so that its text stays as it was typed.
const same = 1e-6

// snapped returns a size in whole steps; without a step to 1/64 in or 0.1 mm.
func (d *dragger) snapped(mm float64) float64 {
	step := d.grid()
	return math.Round(mm/step) * step
}

func (d *dragger) grid() float64 {
	switch {
	case d.step > 0:
		return d.step
	case d.unit == measure.Inches:
		return measure.MMPerInch / 64
	}
	return 0.1
}

// least is snapped for a size that must be more than 0.
func (d *dragger) least(mm float64) float64 { return math.Max(d.grid(), d.snapped(mm)) }

// put gives a size of a member another value, old being how the file has it, was what it came to.
func (d *dragger) put(i int, key string, old profile.Size, was, mm float64) error {
	if math.Abs(mm-was) < same {
		return nil
	}
	var err error
	d.data, err = library.SetKey(d.data, fmt.Sprintf("elements[%d].%s", i, key), d.text(old, mm))
	return err
}

// whole gives a length of the profile another value.
func (d *dragger) whole(key string, mm float64) error {
	if !(mm > 0) {
		return nil
	}
	var err error
	d.data, err = library.SetKey(d.data, key, d.text(profile.Size{}, mm))
	return err
}

// text returns a size as the file is to say it: in parts when it was, else in the file's units, or with its unit when the hand goes by steps of
// the other.
func (d *dragger) text(old profile.Size, mm float64) string {
	if old.IsParts() && d.part > 0 {
		den := int64(1)
		for den < 32 && d.part/float64(2*den) >= 0.75*d.grid() {
			den *= 2
		}
		n := int64(math.Round(mm / d.part * float64(den)))
		if n == 0 && mm > 0 {
			n = 1
		}
		return measure.Mixed(big.NewRat(n, den)) + "p"
	}
	if d.unit != d.p.Profile.Units {
		return measure.Format{Units: d.unit}.Entry(mm) + d.unit.String()
	}
	return measure.Format{Units: d.unit}.Entry(mm)
}
