package miter

import (
	"fmt"
	"math"
)

// gluePart is the most of a side that is glued, as a part of its width (common practice, no source).
const gluePart = 1.0 / 3

// air is what the room and the wood say: moisture contents in per cent.
type air struct {
	wood            Wood
	dry, built, wet float64
}

// wood looks the species of the case up, and reports whether there is one. A name that the look-up does not know is a fault, whether or not
// anything depends on how the wood moves; without a look-up no name is checked.
func (f *fitter) wood() (Wood, bool) {
	if f.woods == nil || f.Wood == "" {
		return Wood{}, false
	}
	w, err := f.woods(f.Wood)
	if err != nil {
		f.cause("wood", err)
		return Wood{}, false
	}
	return w, true
}

// room checks the room and the wood, and returns nil when the case does not tell them.
func (f *fitter) room() *air {
	r := f.Room
	w, known := f.wood()
	if r.HumidityLow == 0 && r.HumidityHigh == 0 {
		return nil
	}
	before := len(f.list)
	for _, h := range []struct {
		key string
		v   float64
	}{{"humidity[0]", r.HumidityLow}, {"humidity[1]", r.HumidityHigh}, {"built-at", r.BuiltAt}} {
		if !(h.v >= LeastHumidity && h.v <= MostHumidity) {
			f.add("room."+h.key, "humidity is %.4g %%; it must be from %g to %g %%", h.v, LeastHumidity, MostHumidity)
		}
	}
	if r.HumidityLow > r.HumidityHigh {
		f.add("room.humidity", "the lower humidity comes first")
	}
	if !(r.Celsius >= LeastCelsius && r.Celsius <= MostCelsius) {
		f.add("room.temperature", "temperature is %.4g C; the handbook's table holds from -1 to 93 C (30 to 200 F)", r.Celsius)
	}
	if !known || len(f.list) > before {
		return nil
	}
	if !w.valid() {
		f.add("wood", "the shrinkage of %s is not known or not that of a wood", f.Wood)
		return nil
	}
	return &air{wood: w, dry: EMC(r.Celsius, r.HumidityLow), built: EMC(r.Celsius, r.BuiltAt), wet: EMC(r.Celsius, r.HumidityHigh)}
}

// movement returns how a solid side moves under the molding glued across it, nil where nothing moves or nothing is known.
func (m *fitting) movement() *Movement {
	if m.air == nil || m.Side.Framed {
		return nil
	}
	side := m.longestSide()
	if side == nil {
		return nil
	}
	a, cut, width := m.air, m.Side.Cut, side.edge.Length()
	swell := func(from, to float64) float64 { return a.wood.Change(width, cut, from, to) }
	out := &Movement{Side: side.name, FrontEnd: m.stage.nearFront(side.edge), Glue: m.marked(math.Min(m.usual.glue, width*gluePart)), Slots: []Slot{},
		Width: width, Dry: a.dry, Built: a.built, Wet: a.wet, Shrinks: -swell(a.built, a.dry), Swells: swell(a.built, a.wet)}
	out.Seasonal = out.Shrinks + out.Swells
	out.Screw = m.screw()
	m.slots(out)
	return out
}

// sideways returns the sine of the angle between an edge and the front, 0 for one that is parallel to it: along that the case's width moves with the molding.
func (s StagePlan) sideways(e Edge) float64 {
	sin := math.Abs(e.Dir().Cross(s.front().Dir()))
	if sin < cornerTol.Sin() {
		return 0
	}
	return sin
}

// front returns the edge named front, or without one that which lies foremost.
func (s StagePlan) front() Edge {
	if e, ok := s.Edge("front"); ok {
		return e
	}
	best := s.Edges[0]
	for _, e := range s.Edges[1:] {
		if e.A.Y+e.B.Y < best.A.Y+best.B.Y-lengthTol {
			best = e
		}
	}
	return best
}

// nearFront returns the end of a side that lies nearer to the front.
func (s StagePlan) nearFront(e Edge) Hand {
	if e.Dir().Dot(s.front().Out()) > 0 {
		return RightHand
	}
	return LeftHand
}

// longestSide returns the run along the longest edge that is not parallel to the front, of equal ones that which lies squarest to it; nil without
// one. The side of the case under it is a board whose grain stands upright.
func (m *fitting) longestSide() *run {
	var side *run
	var sin float64
	for _, r := range m.runs {
		s := m.stage.sideways(r.edge)
		if s == 0 || r.ret || r.rail {
			continue
		}
		longer := side == nil || r.edge.Length() > side.edge.Length()+lengthTol
		if longer || r.edge.Length() > side.edge.Length()-lengthTol && s > sin-1e-9 {
			side, sin = r, s
		}
	}
	return side
}

// marked returns a place on the case as it is marked with a rule: no farther from the front.
func (m *fitting) marked(mm float64) float64 {
	return tidy(math.Floor(mm/m.usual.rule+1e-9) * m.usual.rule)
}

// slots places the slots between the glue and the wall, clear of the mortise for a back rail.
func (m *fitting) slots(out *Movement) {
	travel := math.Max(math.Abs(out.Shrinks), math.Abs(out.Swells)) / out.Width
	first, last := out.Glue+m.usual.toGlue, out.Width-m.usual.toWall
	if f := m.out.Frame; f != nil { // the whole slot lies before the mortise
		last = math.Min(last, out.Width-f.RailWidth-m.usual.toMortise-(ScrewShank/2+travel*out.Width))
	}
	if out.Screw.Enters < m.usual.least {
		m.out.Notes = append(m.out.Notes, fmt.Sprintf("no screw holds in the molding: with %s of wood all round it one could enter by no more than %s; glue the molding at the front only",
			m.mm(m.usual.cover), m.mm(math.Max(0, out.Screw.Enters))))
		return
	}
	if last < first {
		m.out.Notes = append(m.out.Notes, "the side is too short for a slotted screw: glue the molding at the front only")
		return
	}
	n := int(math.Ceil((last-first)/m.usual.screwEvery-1e-9)) + 1
	for i := range n {
		at := last
		if n > 1 {
			at = first + (last-first)*float64(i)/float64(n-1)
		}
		at = m.marked(at)
		out.Slots = append(out.Slots, Slot{FromFront: at, Length: ScrewShank + 2*travel*at})
	}
	m.out.Notes = append(m.out.Notes, fmt.Sprintf("the side moves %s over the year (moisture content %.1f to %.1f %%): glue %s back from the front miter, the rest on screws in slots, each screw in the middle of its slot",
		m.mm(out.Seasonal), out.Dry, out.Wet, m.mm(out.Glue)))
}
