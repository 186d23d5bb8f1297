package trace_test

import (
	"fmt"
	"math"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/trace"
)

// A trait is what an outline shows of a member. Members that draw the same are the same trait: fillet, fascia, corona and the blocks of dentils
// are flats, one over the other with no step between is one; torus, astragal and bead are half rounds; a bead's quirks and a thumb's fillet are
// flats; reeds and flutes are half rounds and half hollows with flats between; a conge is a cove.
type trait struct {
	family    string
	element   int // of the section, from 1
	elements  int // how many of the section's elements it is made of
	set, h, p float64
	from      geom.Point
	path      geom.Path
	drip      profile.SizedDrip
}

func family(k profile.Kind) string {
	switch k {
	case profile.KindConge:
		return "cove"
	case profile.KindThumb:
		return "ovolo"
	}
	return string(k)
}

// traits returns what the section's members draw, from the foot upward.
func traits(s profile.Section) []trait {
	var out []trait
	at, element := geom.Pt(s.Ground, 0), 0
	add := func(f string, path geom.Path) {
		from, to := path.Start(), path.End()
		st := trait{family: f, element: element, elements: 1, from: from, set: math.Round((from.X-at.X)*1e6) / 1e6, h: to.Y - from.Y, p: to.X - from.X, path: path}
		if n := len(out); n > 0 && f == "flat" && out[n-1].family == "flat" && math.Abs(st.set) < 0.1 {
			out[n-1].h += st.h
			out[n-1].elements++
			out[n-1].path = geom.Path{geom.Line{A: out[n-1].from, B: to}}
		} else {
			out = append(out, st)
		}
		at = to
	}
	for i, m := range s.Members {
		element = i + 1
		switch m.Kind {
		case profile.KindOvolo, profile.KindCove, profile.KindConge, profile.KindChamfer, profile.KindCymaRecta, profile.KindCymaReversa, profile.KindScotia, profile.KindCurve:
			add(family(m.Kind), m.Path)
			continue
		}
		for _, seg := range m.Path {
			switch a := seg.(type) {
			case geom.Line:
				switch {
				case math.Abs(a.A.X-a.B.X) < 1e-6:
					add("flat", geom.Path{seg})
				case math.Abs(a.A.Y-a.B.Y) > 1e-6:
					add("chamfer", geom.Path{seg})
				}
			case geom.Arc:
				if math.Abs(math.Abs(float64(a.Sweep))-math.Pi) < 1e-6 {
					add(map[bool]string{true: "half round", false: "half hollow"}[a.Sweep > 0], geom.Path{seg})
					continue
				}
				add(family(m.Kind), geom.Path{seg})
			default:
				add(family(m.Kind), geom.Path{seg})
			}
		}
		if m.Drip != nil {
			out[len(out)-1].drip = *m.Drip
		}
	}
	if len(out) > 0 {
		out[0].set = 0 // along the foot: it is part of the ground
	}
	return out
}

func told(ss []trait) string {
	out := ""
	for _, s := range ss {
		out += fmt.Sprintf(" %s(%.2f,%.2f,%.2f)", s.family, s.set, s.h, s.p)
	}
	return out
}

// The bounds that a reading is judged by: those of full size, times a factor for drawings at a smaller scale.
const (
	sizeBound = 0.2  // mm
	awayBound = 0.15 // mm
	sameBound = 0.1  // mm, below which two curves are the same one
)

// A verdict is how well a section was read: the members' order, the greatest error of a size and the distance.
type verdict struct {
	members    bool
	size, away float64
	why        string
	claims     []claim
}

func (v verdict) right(times float64) bool {
	return v.members && v.size <= sizeBound*times && v.away < awayBound*times
}

// judge compares a section as read with the true one. The members are right when there are as many traits in both, in the same order, and
// each is of the same family as its true one, whatever construction draws it, or of another but nowhere more than a tenth of a millimeter off it: within
// that, no drawing tells the two apart, and the sizes, which are judged each for itself, bound what either may be off by. The back must be of
// the same kind.
func judge(got, want profile.Section, times float64) verdict {
	v := verdict{away: geom.Hausdorff(brushed(got.Outline, 0.1), brushed(want.Outline, 0.1), 0.2)}
	a, b := traits(got), traits(want)
	a = joined(a, b)
	v.members = len(a) == len(b)
	size := func(what string, x, y float64) {
		if d := math.Abs(x - y); d > v.size {
			v.size, v.why = d, what
		}
	}
	for i := range min(len(a), len(b)) {
		if a[i].family != b[i].family && geom.Hausdorff(a[i].path, b[i].path, 0.2) > sameBound*times {
			v.members = false
		}
		what := fmt.Sprintf("%s %d", b[i].family, i)
		size(what+" set", a[i].set, b[i].set)
		size(what+" height", a[i].h, b[i].h)
		size(what+" run", a[i].p, b[i].p)
		size(what+" drip", a[i].drip.Width, b[i].drip.Width)
		size(what+" drip", a[i].drip.Depth, b[i].drip.Depth)
		size(what+" drip", a[i].drip.Inset, b[i].drip.Inset)
	}
	if len(a) > 0 && len(b) > 0 {
		size("ground", a[0].from.X, b[0].from.X)
	}
	if want.Rabbet != nil && got.Rabbet != nil {
		size("rabbet width", got.Rabbet.Width, want.Rabbet.Width)
		size("rabbet depth", got.Rabbet.Depth, want.Rabbet.Depth)
	}
	if want.Spring != nil && got.Spring != nil {
		size("spring wall", got.Spring.Wall, want.Spring.Wall)
		size("spring top", got.Spring.Top, want.Spring.Top)
	}
	if (got.Rabbet == nil) != (want.Rabbet == nil) || (got.Spring == nil) != (want.Spring == nil) {
		v.members, v.why = false, "back"
	}
	return v
}

// A claim is a size with what the tracer says that it may be off by, and how far it is off in truth.
type claim struct {
	what        string
	mm, off, by float64 // mm: the size as read, what it may be off by, what it is off by
}

// holds reports whether the truth lies within what was claimed, which is told to a hundredth of a millimeter and never as less.
func (c claim) holds() bool { return c.by <= math.Max(0.01, c.off)+0.005 }

// claims returns the sizes that can be compared one to one with the truth: those of members that are one trait each.
func claims(sizes []trace.Uncertain, got, want profile.Section) []claim {
	a, b := traits(got), traits(want)
	if len(a) != len(b) {
		return nil
	}
	seen := map[int]int{}
	for _, t := range a {
		seen[t.element]++
	}
	var out []claim
	for _, u := range sizes {
		add := func(read, truth float64) {
			if math.Abs(read-u.MM) < 0.02 { // else it is a size of the file that the trait does not have as it is
				out = append(out, claim{fmt.Sprintf("%d %s %s", u.Element, u.Kind, u.Key), u.MM, u.Error, math.Abs(read - truth)})
			}
		}
		switch {
		case u.Key == "ground":
			add(got.Ground, want.Ground)
		case u.Key == "back.rabbet.width" && want.Rabbet != nil:
			add(got.Rabbet.Width, want.Rabbet.Width)
		case u.Key == "back.rabbet.depth" && want.Rabbet != nil:
			add(got.Rabbet.Depth, want.Rabbet.Depth)
		case u.Key == "back.spring.wall" && want.Spring != nil:
			add(got.Spring.Wall, want.Spring.Wall)
		}
		for i, t := range a {
			if t.element != u.Element || seen[t.element] != 1 || t.elements != 1 || b[i].elements != 1 {
				continue
			}
			switch u.Key {
			case "set":
				add(t.set, b[i].set)
			case "height":
				add(t.h, b[i].h)
			case "projection":
				add(t.p, b[i].p)
			case "drip.width":
				add(t.drip.Width, b[i].drip.Width)
			case "drip.depth":
				add(t.drip.Depth, b[i].drip.Depth)
			case "drip.inset":
				add(t.drip.Inset, b[i].drip.Inset)
			}
		}
	}
	return out
}

// joined returns what was read with two neighbors made one where they draw what is one curve in truth: where a curve is cut makes no difference to
// its shape.
func joined(read, truth []trait) []trait {
	var out []trait
	for i := 0; i < len(read); i++ {
		t := read[i]
		if k := len(out); k < len(truth) && truth[k].family == "curve" && i+1 < len(read) && read[i+1].set == 0 {
			both := append(append(geom.Path{}, t.path...), read[i+1].path...)
			if geom.Hausdorff(both, truth[k].path, 0.2) < 0.1 {
				t.path, t.h, t.p = both, t.h+read[i+1].h, t.p+read[i+1].p
				i++
			}
		}
		out = append(out, t)
	}
	return out
}
