package profile

// A Family says what a molding is for, as a catalog orders moldings. The zero value leaves it to the shape: see FamilyOf.
type Family string

// The families, in the order of a catalog: from the top of a case down to its foot, then what lies within.
const (
	FamilyCornice Family = "cornice" // crowns a case, or stands out under what does
	FamilyWaist   Family = "waist"   // between two stages, or a surbase
	FamilyBand    Family = "band"    // architraves, friezes, reeds and flutes
	FamilyBase    Family = "base"    // at the foot of a case or a column
	FamilyPanel   Family = "panel"   // around panels and openings
	FamilyEdge    Family = "edge"    // beads and the edges of boards
	FamilyMember  Family = "member"  // one member to study, between fillets
)

// Families returns every family, in the order of a catalog.
func Families() []Family {
	return []Family{FamilyCornice, FamilyWaist, FamilyBand, FamilyBase, FamilyPanel, FamilyEdge, FamilyMember}
}

// FamilyOf returns the family that the profile names, or what its section s looks like when it names none: a base leans back going up,
// a cornice stands out, and anything else is an edge.
func (p Profile) FamilyOf(s Section) Family {
	if p.Family != "" {
		return p.Family
	}
	if len(s.Members) == 0 {
		return FamilyEdge
	}
	last := s.Members[len(s.Members)-1]
	switch out := last.Start + last.Projection - s.Ground; {
	case out > equalSizes:
		return FamilyCornice
	case out < -equalSizes:
		return FamilyBase
	}
	return FamilyEdge
}
