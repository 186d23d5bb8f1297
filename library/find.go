package library

import (
	"slices"
	"strings"

	"listel/profile"
)

// memberKinds returns the kinds of members from the foot upward, those of stacks in their places.
func memberKinds(ms []profile.Member) []string {
	var out []string
	for _, m := range ms {
		if len(m.Inner) > 0 {
			out = append(out, memberKinds(m.Inner)...)
			continue
		}
		out = append(out, string(m.Kind))
	}
	return out
}

// shapeWords returns what a section is known by beside its members.
func shapeWords(s profile.Section) []string {
	var out []string
	if s.Spring != nil {
		out = append(out, "sprung")
	}
	if s.Rabbet != nil {
		out = append(out, "rabbet")
	}
	if slices.ContainsFunc(s.Members, func(m profile.Member) bool { return m.Drip != nil }) {
		out = append(out, "drip")
	}
	if slices.ContainsFunc(s.Undercuts(), func(u profile.Undercut) bool { return u.From == profile.FromFront }) {
		out = append(out, "undercut")
	}
	return out
}

// likeness lists the words that stand for kinds of members: the kinds themselves, and other words of the trade.
func likeness(word string) []string {
	word = strings.ToLower(strings.TrimSuffix(word, "."))
	others := map[string][]string{
		"cavetto": {"cove"}, "quarter-round": {"ovolo"}, "ogee": {"cyma-recta", "cyma-reversa"}, "cyma": {"cyma-recta", "cyma-reversa"},
		"listel": {"fillet"}, "plinth": {"fascia"}, "flat": {"fillet", "fascia", "corona"}, "reed": {"reeds"}, "flute": {"flutes"}, "dentil": {"dentils"},
		"round": {"ovolo", "torus", "astragal", "bead", "thumb", "reeds"}, "hollow": {"cove", "conge", "scotia", "flutes"},
		"half-round": {"torus", "astragal", "bead"}, "thumbnail": {"thumb"}, "trochilus": {"scotia"}, "slope": {"chamfer"},
	}
	if kinds, ok := others[word]; ok {
		return kinds
	}
	for _, k := range profile.Kinds() {
		if string(k) == word || string(k)+"s" == word {
			return []string{string(k)}
		}
	}
	return nil
}

// A Match is a profile that Find found.
type Match struct {
	Listing
	Exact bool `json:"exact"` // the members asked for follow one another, with none between
}

// Find returns the profiles that the words describe, the exact ones first. Words for members, such as cove, ogee or hollow, must be met
// in that order from the foot upward; every other word must be the family (cornice, base), a word of the shape (sprung, rabbet, undercut)
// or part of name, title or source. Without words it returns all.
func (l *Library) Find(words []string) []Match {
	var members [][]string
	var others []string
	for _, w := range words {
		if kinds := likeness(w); kinds != nil {
			members = append(members, kinds)
		} else {
			others = append(others, strings.ToLower(w))
		}
	}
	var exact, loose []Match
	for _, e := range l.List(KindProfile) {
		if e.Fault != "" || !e.said(others) {
			continue
		}
		switch {
		case runOf(e.Members, members):
			exact = append(exact, Match{e, true})
		case inOrder(e.Members, members):
			loose = append(loose, Match{e, false})
		}
	}
	return append(exact, loose...)
}

// said reports whether each word is said of the entry, outside its members.
func (e Listing) said(words []string) bool {
	for _, w := range words {
		one := strings.TrimSuffix(w, "s")
		if e.Family != one && e.Family != w && !slices.Contains(e.Shape, w) &&
			!strings.Contains(strings.ToLower(e.Name+" "+e.Title+" "+e.Source), w) {
			return false
		}
	}
	return true
}

// inOrder reports whether the members hold the wanted kinds in that order, with or without others between.
func inOrder(members []string, want [][]string) bool {
	i := 0
	for _, m := range members {
		if i < len(want) && slices.Contains(want[i], m) {
			i++
		}
	}
	return i == len(want)
}

// runOf reports whether the members hold the wanted kinds one after another.
func runOf(members []string, want [][]string) bool {
	for at := 0; at+len(want) <= len(members); at++ {
		if slices.EqualFunc(want, members[at:at+len(want)], func(kinds []string, m string) bool { return slices.Contains(kinds, m) }) {
			return true
		}
	}
	return false
}

// A Shown is a profile with its section, for a picture of it.
type Shown struct {
	Listing
	Section profile.Section
}

// Shown returns the profiles of these matches with their sections, in the order of the families of a catalog and, within one, from the tallest to the
// smallest.
func (l *Library) Shown(found []Match) []Shown {
	var out []Shown
	for _, m := range found {
		if s, _, err := l.Section(m.Name); err == nil {
			out = append(out, Shown{m.Listing, s})
		}
	}
	rank := func(s Shown) int { return slices.Index(profile.Families(), profile.Family(s.Family)) }
	slices.SortStableFunc(out, func(a, b Shown) int {
		if r := rank(a) - rank(b); r != 0 {
			return r
		}
		switch d := b.Section.Height - a.Section.Height; {
		case d > 1e-6:
			return 1
		case d < -1e-6:
			return -1
		}
		return strings.Compare(a.Name, b.Name)
	})
	return out
}
