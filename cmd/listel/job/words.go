package job

import (
	"fmt"
	"strings"

	"listel/miter"
	"listel/profile/measure"
)

// FittingWords returns a line for each joint, seat, frame, rake, course of dentils, movement and note of a molding.
func FittingWords(m miter.MoldingResult, f measure.Format) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if s := m.Spline; s != nil {
		add("spline: groove %s wide, %s deep, at least %s of wood around it", f.Length(s.Thickness), f.Length(s.Depth), f.Length(s.Cover))
	}
	if p := m.Pin; p != nil {
		add("pin: %s across, %s deep, %s out from the back and %s up from the foot, at least %s of wood around it", f.Length(p.Diameter), f.Length(p.Depth),
			f.Length(p.At[0]), f.Length(p.At[1]), f.Length(p.Cover))
	}
	if s := m.Seat; s != nil {
		line := fmt.Sprintf("seats %s: it stands at %s over the floor, in the rabbet", s.Stage, f.Length(s.Foot))
		if s.Lift > 0.01 {
			line += fmt.Sprintf(", %s over the top of %s", f.Length(s.Lift), m.Stage)
		}
		out = append(out, line+fmt.Sprintf("; %s clear all round", f.Length(s.Clearance)))
	}
	if r := m.Frame; r != nil {
		add("frame: back rail %s wide and %s thick; mortises %s long and %s wide, %s from the wall, %s deep; haunch %s at the rear, %s in", f.Length(r.RailWidth),
			f.Length(r.Thickness), f.Length(r.Across), f.Length(r.Cheek), f.Length(r.Haunch), f.Length(r.Tenon), f.Length(r.Haunch), f.Length(r.HaunchIn))
	}
	if n := m.Nesting; n != nil {
		add("sprung %s: on the case height %s, projection %s; backing strip %s by %s, %s along the back", f.Angle(n.Spring), f.Length(n.Drop), f.Length(n.Reach),
			f.Length(n.StripWall), f.Length(n.StripTop), f.Length(n.StripBack))
		add("nested at the saw: upside down against a fence at least %s high, a stop on the table %s out from it", f.Length(n.Drop), f.Length(n.Reach))
	}
	if r := m.Rake; r != nil {
		line := fmt.Sprintf("rake: pitch %s, rises %s", f.Angle(r.Pitch), f.Length(r.Rise))
		if r.Broken {
			line += ", open at the peak by " + f.Length(r.Gap)
		}
		out = append(out, line)
	}
	out = append(out, courseWords(m.Course, f)...)
	out = append(out, movementWords(m.Movement, m.Nesting != nil, f)...)
	for _, s := range m.Notes {
		if m.Movement == nil || len(m.Movement.Slots) == 0 || !strings.HasPrefix(s, "the side moves") { // told above
			out = append(out, s)
		}
	}
	return append(out, pieceNotes(m.Pieces)...)
}

// courseWords tells how the dentils are spaced.
func courseWords(c *miter.Course, f measure.Format) []string {
	if c == nil {
		return nil
	}
	out := []string{fmt.Sprintf("dentils: blocks %s (asked for %s)", f.Set(c.Block), f.Length(c.AskedBlock))}
	for _, face := range c.Faces {
		out = append(out, fmt.Sprintf("  %s: %d blocks, gap %s, pitch %s", face.Run, face.Blocks, f.Set(face.Gap), f.Set(face.Pitch)))
	}
	return out
}

// movementWords tells how the side moves, and where glue and screws go.
func movementWords(v *miter.Movement, sprung bool, f measure.Format) []string {
	if v == nil {
		return nil
	}
	out := []string{fmt.Sprintf("the side moves %s over the year (moisture %.1f to %.1f %%, built at %.1f %%): from as built it %s in the driest air and %s in the wettest", f.Length(v.Seasonal), v.Dry, v.Wet,
		v.Built, swellWords(-v.Shrinks, f), swellWords(v.Swells, f))}
	line := "glue " + f.Length(v.Glue) + " back from the front miter"
	if len(v.Slots) > 0 {
		into := "enter the molding"
		if sprung {
			into = "stand out of the case, through the strip,"
		}
		line += fmt.Sprintf("; %s screws %s by %s at most", miter.ScrewGauge, into, f.Length(v.Screw.Enters))
	}
	for i, s := range v.Slots {
		if i == 0 {
			line += "; screws in slots at "
		} else {
			line += ", "
		}
		line += fmt.Sprintf("%s (%s long)", f.Bare(s.FromFront), f.Bare(s.Length))
	}
	return append(out, line)
}

// swellWords says by how much and which way the side's width changes.
func swellWords(mm float64, f measure.Format) string {
	if mm < 0 {
		return "shrinks " + f.Length(-mm)
	}
	return "swells " + f.Length(mm)
}

// pieceNotes returns the notes of the pieces, those that several share told once with all their marks.
func pieceNotes(pieces []miter.Piece) []string {
	var notes []string
	marks := map[string][]string{}
	for _, p := range pieces {
		for _, n := range p.Notes {
			if marks[n] == nil {
				notes = append(notes, n)
			}
			marks[n] = append(marks[n], p.Mark)
		}
	}
	for i, n := range notes {
		notes[i] = strings.Join(marks[n], ", ") + ": " + n
	}
	return notes
}

// notchWords returns where the notches of the beads lie, a line for each bead that has some.
func notchWords(beads []miter.Piece, f measure.Format) []string {
	var out []string
	for _, p := range beads {
		var at []string
		for _, n := range p.Notches {
			at = append(at, fmt.Sprintf("%s (%s)", f.Bare(n.At), n.Side))
		}
		if len(at) > 0 {
			out = append(out, fmt.Sprintf("%s: vee notches %s deep at %s from the left end of its foot", p.Mark, f.Length(p.Notches[0].Depth), strings.Join(at, ", ")))
		}
	}
	return out
}

// BeadWords returns the lines under the table of the beads: their notches, and the notes of their pieces.
func BeadWords(beads []miter.Piece, f measure.Format) []string {
	return append(notchWords(beads, f), pieceNotes(beads)...)
}

// EndWords tells how an end is cut: "miter 45.0°", "to the wall, 0.5°", or "miter, lying flat: miter 31.62°, bevel 33.86°".
func EndWords(e miter.End, f measure.Format) string {
	words := e.Words()
	offSquare := e.Kind == miter.CutSquare && words != string(e.Kind)
	switch {
	case e.Tenon > 0:
		return fmt.Sprintf("%s %s", words, f.Length(e.Tenon))
	case e.Kind == miter.CutSquare && !offSquare:
		return words
	case e.Flat != nil:
		flat := f.Angles(e.Flat.Miter, e.Flat.Bevel)
		return fmt.Sprintf("%s, lying flat: miter %s, bevel %s", words, flat[0], flat[1])
	case e.Standing.Bevel != 0:
		standing := f.Angles(e.Standing.Miter, e.Standing.Bevel)
		return fmt.Sprintf("%s: miter %s, bevel %s", words, standing[0], standing[1])
	case offSquare:
		return fmt.Sprintf("%s, %s", words, f.Angle(e.Standing.Miter))
	}
	return fmt.Sprintf("%s %s", words, f.Angle(e.Standing.Miter))
}
