package sheet

// A Pen is what a line is drawn with. Two pens can be compared with ==.
type Pen struct {
	Width float64    // mm, > 0
	Dash  [4]float64 // mm: on, off, on, off; the zero value is a solid line, and a last pair of 0 is left out
	Gray  float64    // 0 black to 1 white
}

// The pens of a sheet. Lines are told apart by width and dashes, never by color: a section's outline is
// heavy, a line to cut along is heavy dashes, an edge that cannot be seen is fine short dashes, and an axis is long and
// short dashes.
var (
	PenOutline = Pen{Width: 0.5}
	PenThin    = Pen{Width: 0.25}
	PenHair    = Pen{Width: 0.18}
	PenCut     = Pen{Width: 0.5, Dash: [4]float64{4, 2}}
	PenHidden  = Pen{Width: 0.25, Dash: [4]float64{1.6, 0.8}}
	PenCenter  = Pen{Width: 0.18, Dash: [4]float64{9, 1.2, 2, 1.2}}
)

// Solid returns p without its dashes.
func (p Pen) Solid() Pen {
	p.Dash = [4]float64{}
	return p
}

// WithGray returns p in another shade, 0 black to 1 white.
func (p Pen) WithGray(gray float64) Pen {
	p.Gray = gray
	return p
}

// dashes returns the dash lengths that are in use, or nil for a solid line.
func (p Pen) dashes() []float64 {
	switch {
	case p.Dash[0]+p.Dash[1] <= 0:
		return nil
	case p.Dash[2]+p.Dash[3] <= 0:
		return p.Dash[:2:2]
	}
	return p.Dash[:]
}
