package cutter

import "listel/profile"

// FromSection returns the piece of a section: its outline, its members and the blank that it is cut from. Dentils are planned as
// the outline at their blocks; what stands between blocks is cut across afterwards.
func FromSection(s profile.Section) Piece {
	p := Piece{Name: s.Name, Outline: s.Outline, Blank: s.Blank().Polygon, Way: s.BlankWay}
	if s.Leans() {
		p.Sprung, p.Spring = true, s.Spring.Angle
	}
	for _, m := range s.Members {
		p.Members = append(p.Members, Member{Index: m.Index, Kind: string(m.Kind), Path: m.Path})
	}
	return p
}
