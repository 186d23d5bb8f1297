package sheet

import "listel/profile/geom"

// A Paragraph is text set in lines no wider than Width.
type Paragraph struct {
	Text   string
	Width  float64 // mm
	Size   float64 // points; 0 is DefaultSize
	Weight Weight
	Align  Align
}

// Set returns the lines, the top left corner of the paragraph at p, and its height in mm: from the top of the first
// line's capitals to below the last line's descenders.
func (g Paragraph) Set(p geom.Point) (Drawing, float64) {
	t := Text{Size: g.Size, Weight: g.Weight}
	lines := Wrap(g.Text, t.size(), g.Weight, g.Width)
	var d Drawing
	for i, s := range lines {
		t.S = s
		t.Anchor, t.At.X = g.Align.within(p.X, g.Width)
		t.At.Y = p.Y - CapHeight(t.size()) - float64(i)*LineHeight(t.size())
		if s != "" {
			d = append(d, t)
		}
	}
	return d, g.height(len(lines))
}

// Height returns the height that Set would.
func (g Paragraph) Height() float64 {
	size := Text{Size: g.Size}.size()
	return g.height(len(Wrap(g.Text, size, g.Weight, g.Width)))
}

func (g Paragraph) height(lines int) float64 {
	size := Text{Size: g.Size}.size()
	return CapHeight(size) + float64(lines-1)*LineHeight(size) + descent*size*mmPerPoint
}

// An Align says on which side lines of text are even.
type Align int

// The alignments.
const (
	AlignLeft Align = iota
	AlignRight
	AlignCenter
)

// within returns the anchor, on the baseline, and its x for a line in a room of that width from x0.
func (a Align) within(x0, width float64) (Anchor, float64) {
	switch a {
	case AlignRight:
		return BottomRight, x0 + width
	case AlignCenter:
		return Bottom, x0 + width/2
	}
	return BottomLeft, x0
}
