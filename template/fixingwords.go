package template

import (
	"fmt"
	"math"
	"slices"

	"listel/miter"
	"listel/profile/geom"
)

// words returns what to do, in short lines.
func (f fixing) words() []string {
	fig := f.st.figure
	var out []string
	if f.m.Foot > 0 {
		out = append(out, "Foot "+fig(f.m.Foot)+" above the floor.")
	} else {
		out = append(out, "Foot on the floor.")
	}
	if f.m.LetIn > 0 {
		out = append(out, f.housing())
	}
	out = append(out, f.glue()...)
	if n := f.m.Nesting; n != nil {
		out = append(out, fmt.Sprintf("On the case: height %s, projection %s, spring %s.", fig(n.Drop), fig(n.Reach), f.st.Lengths.Angle(n.Spring)),
			fmt.Sprintf("Backing strip, three-cornered: %s against the case, %s along the top, %s behind the molding.", fig(n.StripWall), fig(n.StripTop), fig(n.StripBack)))
	}
	if s := f.m.Seat; s != nil {
		over := ""
		if s.Lift > 0.01 {
			over = fmt.Sprintf(", %s over the top of the %s", fig(s.Lift), stageNoun(f.m.Stage))
		}
		out = append(out, fmt.Sprintf("The %s stands in the rabbet at %s over the floor%s, %s; it is not glued in.", stageNoun(s.Stage), fig(s.Foot), over, f.clear(*s)))
	}
	if s := f.m.Spline; s != nil {
		out = append(out, fmt.Sprintf("Splines in the miters: %s thick, %s wide, their grain across the joint.", fig(s.Thickness), fig(2*s.Depth)))
	}
	if p := f.m.Pin; p != nil {
		out = append(out, fmt.Sprintf("Pins in the miters: %s thick, %s long.", fig(p.Diameter), fig(2*p.Depth)))
	}
	if f.m.Frame != nil {
		out = append(out, "Miters and tenons glued as one frame, then the frame on the case.")
	}
	if p := f.m.Rake; p != nil {
		line := fmt.Sprintf("Pitch %s: it rises %s from the eave to the peak.", f.st.Lengths.Angle(p.Pitch), fig(p.Rise))
		if p.Broken {
			line += fmt.Sprintf(" Open at the peak by %s.", fig(p.Gap))
		}
		out = append(out, line)
	}
	return out
}

// housing says where the faces of the case are cut away for a molding that is let into them.
func (f fixing) housing() string {
	fig := f.st.figure
	own, _ := f.stage(f.m.Stage)
	const beside = 0.05 // mm
	foot, top := f.m.Foot, f.m.Foot+f.m.Sections[0].Section.Height
	where := fmt.Sprintf("a housing from %s to %s over the floor", fig(foot), fig(top))
	switch atFoot, atTop := foot <= own.Floor+beside, top >= own.Top-beside; {
	case atFoot && atTop:
		where = "its whole height"
	case atFoot:
		where = fmt.Sprintf("a rabbet along its bottom, %s high", fig(top-own.Floor))
	case atTop:
		where = fmt.Sprintf("a rabbet along its top, %s high", fig(own.Top-foot))
	}
	return fmt.Sprintf("Let into the %s: %s, %s deep, on each face that it runs along.", stageNoun(f.m.Stage), where, fig(f.m.LetIn))
}

// clear says by how much a stage that stands in a rabbet is clear of it.
func (f fixing) clear(s miter.Seat) string {
	const told = 0.1 // mm, less than anyone cuts
	if s.Most-s.Least < told {
		return f.st.figure(s.Clearance) + " clear all round"
	}
	return fmt.Sprintf("%s clear, where the corners are off from %s to %s", f.st.figure(s.Clearance), f.st.fine(s.Least), f.st.fine(s.Most))
}

// glue says where the molding is glued.
func (f fixing) glue() []string {
	fig := f.st.figure
	sides := false
	for _, run := range f.m.Runs {
		sides = sides || run.Side
	}
	v := f.m.Movement
	switch {
	case v != nil && len(v.Slots) == 0:
		return append([]string{fmt.Sprintf("Front: glue all along. Sides: glue the first %s only, from the front; they move %s.", fig(v.Glue), fig(v.Seasonal))}, f.between()...)
	case v != nil:
		return append([]string{fmt.Sprintf("Front: glue all along. Sides: glue the first %s, then screws in slots: the side moves %s over the year. See the next sheets.", fig(v.Glue), fig(v.Seasonal)), f.screws(v.Screw)},
			f.between()...)
	case sides && f.c.Side.Framed:
		return []string{"Glue all along: the rails of a framed side do not move along the molding."}
	case sides:
		return []string{"Front: glue all along. Sides of solid wood move under it: glue near the front only, screws in slots behind."}
	}
	return []string{"Glue all along: its grain runs with the case's."}
}

// between says how the pieces between the front and the sides are glued, cants and the steps of a breakfront: one that is no longer than what is glued of a side
// is glued like the front, a longer one in its middle, so that it moves to both ends alike. The sides themselves are told of before; where they meet a piece
// at the back, too, that miter is left to move.
func (f fixing) between() []string {
	var short, long []string
	dry := false
	for _, run := range f.m.Runs {
		for _, p := range f.m.Pieces {
			if !run.Side || p.Mark != run.Mark || p.Ends[0].Meets == "" || p.Ends[1].Meets == "" {
				continue
			}
			name := f.only(run)
			switch {
			case f.alongside(run):
				dry = true
			case p.Back <= f.m.Movement.Glue+0.5:
				short = append(short, name)
			default:
				long = append(long, name)
			}
		}
	}
	var out []string
	if dry {
		out = append(out, "The sides' miters at the back stay without glue: the sides move there.")
	}
	if len(short) > 0 {
		out = append(out, ListWords(short)+": glue all along, like the front.")
	}
	if len(long) > 0 {
		out = append(out, fmt.Sprintf("%s: glue the middle %s and the miters; the wood under them moves as the sides do.", ListWords(long), f.st.figure(f.m.Movement.Glue)))
	}
	return out
}

// alongside reports whether a run lies along the side that the molding's movement is told of, or the side across from it.
func (f fixing) alongside(run miter.PlacedRun) bool {
	i := slices.IndexFunc(f.m.Runs, func(r miter.PlacedRun) bool { return r.Run == f.m.Movement.Side })
	if i < 0 {
		return false
	}
	side := f.m.Runs[i]
	u, v := side.Inner[1].Sub(side.Inner[0]), run.Inner[1].Sub(run.Inner[0])
	mirrored := geom.Pt(u.X, -u.Y) // the other side of a case leans the other way
	return run.Run == side.Run || math.Abs(u.Norm()-v.Norm()) < 1 && (parallel(mirrored, v) || parallel(u, v))
}

// parallel reports whether u and v have the same direction, or the opposite one, within a tenth of a degree.
func parallel(u, v geom.Point) bool { return math.Abs(u.Cross(v)) <= 2e-3*u.Norm()*v.Norm() }

// only returns the mark of a run's piece, or the run's name where other runs have equal pieces.
func (f fixing) only(run miter.PlacedRun) string {
	for _, r := range f.m.Runs {
		if r.Mark == run.Mark && r.Run != run.Run {
			return run.Run
		}
	}
	return run.Mark
}

// screws says where the screws go in, and how far.
func (f fixing) screws(at miter.Screw) string {
	fig := f.st.figure
	where := fig(at.At) + " above the foot"
	if at.Up {
		where = fig(f.inset()-at.At) + " in from the face of the case, from below"
	}
	long := "no longer than that and the thickness that they go through"
	if at.Long > 0 {
		long = fmt.Sprintf("through sides %s thick no longer than %s", fig(f.c.Side.Thickness), fig(at.Long))
		if f.m.LetIn > 0 {
			long = fmt.Sprintf("through the %s left of the sides no longer than %s", fig(f.c.Side.Thickness-f.m.LetIn), fig(at.Long))
		}
	}
	most := fmt.Sprintf("they may enter the molding by %s at most", fig(at.Enters))
	if f.m.Nesting != nil {
		most = fmt.Sprintf("through the backing strip they may stand out of the case by %s at most", fig(at.Enters))
	}
	return fmt.Sprintf("Screws %s, %s: %s, %s.", f.st.screw(), where, most, long)
}

// screw names the screw that slots are made for, in a job in millimeters with the diameter of its thread.
func (st Style) screw() string {
	if st.inches() {
		return miter.ScrewGauge
	}
	return miter.ScrewGauge + " (" + miter.ScrewMetric + ")"
}
