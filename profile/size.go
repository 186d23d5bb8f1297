package profile

// A Size is one size of a profile as its file gives it: a length, a number of parts, or the rest. The zero value
// means that the size was left out.
type Size struct {
	kind  sizeKind
	value float64
}

type sizeKind int

const (
	absent sizeKind = iota
	length
	parts
	rest
)

// MM returns a size of v millimeters.
func MM(v float64) Size { return Size{kind: length, value: v} }

// Parts returns a size of n parts of the profile's height.
func Parts(n float64) Size { return Size{kind: parts, value: n} }

// Rest returns the size that fills what the other members leave.
func Rest() Size { return Size{kind: rest} }

// Given reports whether the size was written in the file.
func (s Size) Given() bool { return s.kind != absent }

// IsRest reports whether the size is what the others leave.
func (s Size) IsRest() bool { return s.kind == rest }

// IsParts reports whether the size is a number of parts.
func (s Size) IsParts() bool { return s.kind == parts }

// In returns the size in mm, part being the length of one part in mm (0 where the profile has none). A size left out and a
// rest are 0.
func (s Size) In(part float64) float64 {
	switch s.kind {
	case length:
		return s.value
	case parts:
		return s.value * part
	}
	return 0
}

// Scaled returns the size with a length multiplied by k; parts and rest stay, since they follow the height.
func (s Size) Scaled(k float64) Size {
	if s.kind == length {
		s.value *= k
	}
	return s
}
