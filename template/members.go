package template

import (
	"fmt"
	"strconv"
	"strings"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// A numbered is a member with its number on the sheets, counted from the foot; a stack's own members are 3.1, 3.2, ...
type numbered struct {
	profile.Member
	number string
	top    float64 // mm, y of its upper end, quirks included
	whole  bool    // a stack, whose members follow it
}

// numberedMembers returns the members from the foot upward, each stack before its own members.
func numberedMembers(s profile.Section) []numbered { return numberMembers(s.Members, "", s.Height) }

func numberMembers(ms []profile.Member, prefix string, top float64) []numbered {
	var out []numbered
	for i, m := range ms {
		n := numbered{Member: m, number: prefix + strconv.Itoa(i+1), top: top, whole: len(m.Inner) > 0}
		if i+1 < len(ms) {
			n.top = ms[i+1].Foot
		}
		out = append(out, n)
		if n.whole {
			out = append(out, numberMembers(m.Inner, n.number+".", n.top)...)
		}
	}
	return out
}

// leaves returns the members without the stacks that hold others.
func leaves(all []numbered) []numbered {
	var out []numbered
	for _, n := range all {
		if !n.whole {
			out = append(out, n)
		}
	}
	return out
}

// name returns the kind in words.
func (n numbered) name() string { return n.Kind.Words() }

// radii returns the member's compass settings in words: "R 5/8", "R 3/8 and 3/4", "quarter ellipse, rises 1/2 over 3/4"; "" when all is straight.
func (n numbered) radii(st Style) string {
	var rounds, ellipses []string
	once := func(list []string, s string) []string {
		for _, have := range list {
			if have == s {
				return list
			}
		}
		return append(list, s)
	}
	for _, seg := range n.Path {
		switch a := seg.(type) {
		case geom.Arc:
			rounds = once(rounds, st.figure(a.Radius))
		case geom.EllipticArc:
			ellipses = once(ellipses, "quarter ellipse, rises "+st.figure(a.RY)+" over "+st.figure(a.RX))
		}
	}
	out := strings.Join(ellipses, ", ")
	if len(rounds) > 0 {
		out = sentence("R "+strings.Join(rounds, " and "), out)
	}
	return out
}

// details returns what else a maker needs to lay the member out.
func (n numbered) details(st Style) string {
	parts := []string{n.radii(st)}
	if quirks := n.top - n.Foot - n.Height; n.Kind == profile.KindBead && quirks > 0.005 {
		parts = append(parts, "bead alone "+st.figure(n.Height))
	}
	if d := n.Drip; d != nil {
		parts = append(parts, fmt.Sprintf("drip %s wide, %s deep, %s in from the face", st.figure(d.Width), st.figure(d.Depth), st.figure(d.Inset)))
	}
	if d := n.Dentils; d != nil {
		parts = append(parts, fmt.Sprintf("block %s, gap %s, depth %s", st.figure(d.Block), st.figure(d.Gap), st.figure(d.Depth)))
	}
	if n.Kind == profile.KindQuirk {
		if b := n.Path.Bounds(); !b.Empty() {
			parts = append(parts, st.figure(b.Width())+" deep")
		}
	}
	return sentence(parts...)
}

// orDash returns the length, or a dash for none.
func (st Style) orDash(mm float64) string {
	if mm > -0.005 && mm < 0.005 {
		return "–"
	}
	return st.figure(mm)
}

// memberTable returns the members as a table, the top one first as they stand in the drawing. Heights are those of the drawing's
// chain: a bead's quirks are counted in.
func memberTable(s profile.Section, st Style) sheet.Table {
	t := sheet.Table{
		Size: figureSize,
		Columns: []sheet.Column{
			{Head: "No."}, {Head: "Member"}, {Head: "Height", Align: sheet.AlignRight},
			{Head: "Run", Align: sheet.AlignRight}, {Head: "Set", Align: sheet.AlignRight},
			{Head: "x at foot", Align: sheet.AlignRight}, {Head: "Radii and details", Wrap: true},
		},
	}
	all := numberedMembers(s)
	for i := len(all) - 1; i >= 0; i-- {
		n := all[i]
		t.Rows = append(t.Rows, []string{
			n.number, n.name(), st.figure(n.top - n.Foot), st.orDash(n.Projection), st.orDash(n.Set), st.figure(n.Start), n.details(st),
		})
	}
	return t
}
