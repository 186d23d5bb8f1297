package profile

// A BlankWay is the blank that a sprung molding is made from. It says nothing of other moldings: those have one blank.
type BlankWay string

// The ways.
const (
	BlankEither  BlankWay = ""        // nobody has said: which of the two makes the better set-ups
	BlankFlat    BlankWay = "flat"    // the smallest: it lies along the leaning back
	BlankUpright BlankWay = "upright" // as the molding stands on the case; its leaning back is sawn off
)

// Leans reports whether the blank of the section leans with its back: that of a sprung section which is not made from an upright one.
func (s Section) Leans() bool { return s.Spring != nil && s.BlankWay != BlankUpright }

// From returns the section as it is made from the blank of that way; one that is not sprung as it is.
func (s Section) From(way BlankWay) Section {
	if s.Spring != nil {
		s.BlankWay = way
	}
	return s
}
