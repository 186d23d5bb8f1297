package trace

import (
	"image"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A Plate is a scanned picture with what is known of it: its scales, and the sections wanted from it.
type Plate struct {
	Name     string
	Scales   []Scale
	Sections []Wanted
}

// A Scale tells how long a pixel is, in the directions of the plate. Lengths, Bar and Points may be given together: what is
// known is weighed as one. The zero value is rejected.
type Scale struct {
	Name    string
	Lengths []Length // two points and what lies between them; several, across and up, correct a stretched scan
	Bar     *Bar     // a printed scale bar
	Points  []Fixed  // three measure stretch and turn, four or more a plate photographed aslant
	Level   *Line    // a line of the plate known to be level, nil when the section's own lines tell
	Plumb   *Line    // a line known to be plumb, likewise
}

// A Line is two pixel points.
type Line struct{ From, To geom.Point } // px

// A Length is two pixel points and the true distance between them.
type Length struct {
	From, To geom.Point // px
	MM       float64    // mm, more than 0
}

// A Bar is a printed scale bar: From and To are its ends, clicked roughly; the ends and the divisions between are found in the ink.
type Bar struct {
	From, To  geom.Point // px
	MM        float64    // mm, the true length that it stands for, more than 0
	Divisions int        // equal parts that it is divided into, 0 when it has none or they are not known
}

// A Fixed is a pixel point whose true place is known.
type Fixed struct {
	Pixel geom.Point // px
	True  geom.Point // mm, x to the right and y up, from any origin
}

// A Wanted is a section to be traced.
type Wanted struct {
	Name, Title string
	Scale       string          // name of its scale; "" when the plate has one
	Crop        image.Rectangle // px; the empty rectangle is the whole picture
	Face        Side            // the side that the molding's face is on
	Ink         Ink             // how it is drawn
	Tolerance   float64         // mm, greatest distance allowed between outline and section; 0 leaves it to the scan
	Units       measure.Units   // of the profile
	Fraction    int             // inches: sizes in 1/Fraction in, 0 for 1/32; mm: sizes in 1/Fraction mm, 0 for 1/2
	Parts       bool            // sizes in parts of the height, where they come out whole or half ones
	Back        *geom.Point     // px: a point of the back, where the drawing is broken off or left open there; nil when the ink shows it
	Points      []geom.Point    // px: the section's corners in order, clicked; the ink is then not looked at
}

// A Side is where the face of a drawn section is. The zero value is the right.
type Side int

// The sides.
const (
	FaceRight Side = iota
	FaceLeft
)

// String returns "right" or "left".
func (s Side) String() string {
	if s == FaceLeft {
		return "left"
	}
	return "right"
}

// Ink is how a section is drawn. The zero value lets the tracer see for itself.
type Ink int

// The ways to draw a section: by a line round it, hatched or empty within, whose middle is the section's edge; or filled, whose
// ink ends at the section's edge.
const (
	AnyInk Ink = iota
	Outlined
	Filled
)

// String returns "any", "outlined" or "filled".
func (k Ink) String() string {
	return [...]string{"any", "outlined", "filled"}[k]
}

// Options are what a caller wants besides the result. The zero value is valid.
type Options struct {
	// Progress, unless nil, is told how many steps of how many are done in a stage, from the goroutine that called Trace.
	Progress func(stage string, done, of int)
}

// A Drawn is the outline of a section as it was found in a picture, before anything is made of it.
type Drawn struct {
	Points []geom.Point // closed, counter-clockwise, mm, in section coordinates: back at x = 0, foot at y = 0, face to the right
	Noise  float64      // mm, one standard deviation of the points across the outline
	Pixel  float64      // mm, the width of a pixel
	Line   float64      // mm, the thickness of the line that it was drawn by, 0 where it is filled or clicked
}

// A Composed is what Compose makes of an outline.
type Composed struct {
	Profile profile.Profile
	Section profile.Section
	Pieces  geom.Path   // lines and arcs, closed, as split, before sizes were snapped
	Sizes   []Uncertain // the sizes of the profile
	Notes   []string    // what a reader of the profile should know
}

// An Uncertain is a size of the profile with what it may be off by.
type Uncertain struct {
	Element int          // from 1; 0 for sizes of the profile as a whole
	Kind    profile.Kind // "" for the profile as a whole
	Key     string       // key of the profile file: height, projection, set, ground, ...
	MM      float64      // mm
	Error   float64      // mm either way, which 95 of 100 lie within; the scale's own error not included
}

// A Traced is a section found in a plate.
type Traced struct {
	Name    string
	Profile profile.Profile
	Section profile.Section
	Outline geom.Path // the traced outline: closed, counter-clockwise, mm, in section coordinates
	Pixels  Mapping   // from section coordinates to pixels, for overlays
	Truth   Truth
	Notes   []string // what was survived, and what a reader should look at
}

// Truth is how far a traced outline and the section made of it are apart, measured both ways.
type Truth struct {
	Greatest, Mean     float64     // mm
	GreatestPx, MeanPx float64     // px
	Worst              geom.Point  // section coordinates, mm: where Greatest is
	ScaleError         float64     // relative, one standard deviation of the scale itself
	Sizes              []Uncertain // Error with the scale's own in it
	Tolerance          float64     // mm, the one that was asked for or follows from the scan
	Within             bool        // Greatest is not above Tolerance
}
