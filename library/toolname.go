package library

import (
	"listel/profile/measure"
	"listel/template/cutter"
)

// toolName returns the name of a tool that its file gives none: what it is and the size that tells it from others.
func toolName(t cutter.Tool, number string, f measure.Format) string {
	round := "R " + f.Length(t.Radius)
	across := f.Length(t.Diameter)
	switch t.Kind {
	case cutter.Straight:
		return "straight bit " + across
	case cutter.RoundNose:
		return "round-nose bit " + round
	case cutter.RoundOver:
		return tipped("round-over bit "+round, t)
	case cutter.CoveBit:
		return tipped("cove bit "+round, t)
	case cutter.Ogee:
		kind := "ogee bit "
		if t.Flip {
			kind = "reverse ogee bit "
		}
		return tipped(kind+round, t)
	case cutter.Vee:
		return "vee bit " + f.Angle(t.Angle)
	case cutter.Dovetail:
		return "dovetail bit " + across + ", " + f.Angle(t.Angle)
	case cutter.SlotCutter:
		return "slot cutter " + f.Length(t.Width)
	case cutter.SawBlade:
		return "saw blade, kerf " + f.Length(t.Width)
	case cutter.RabbetPlane:
		return "rabbet plane " + f.Length(t.Width)
	case cutter.HollowPlane:
		return numbered("hollow", number) + ", " + round
	case cutter.RoundPlane:
		return numbered("round", number) + ", " + round
	case cutter.SideBead:
		return "side bead " + across
	}
	return "form cutter"
}

// tipped tells a bit with a flat point from one with a bearing.
func tipped(name string, t cutter.Tool) string {
	if t.Tip > 0 {
		return name + ", no bearing"
	}
	return name
}

func numbered(name, number string) string {
	if number == "" {
		return name + " plane"
	}
	return name + " No. " + number
}
