package template

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// MiterFaces returns the sheets with the miter faces of a case at full size, for the left and the right end of a piece: the section as the
// sloping cut shows it, with the groove for a spline and the hole for a pin where the end has them. Pieces whose faces are the
// same share one. Ends cut square or along the wall have none, nor has an end that no piece is cut to; a case without miters gives no pages.
func MiterFaces(r miter.Result, st Style) []sheet.Page {
	var sets []patternSet
	for _, m := range r.Moldings {
		for _, f := range miterFaces(m) {
			sets = append(sets, f.patterns(m, st))
		}
	}
	if len(sets) == 0 {
		return nil
	}
	return layPatterns(sets, st.frame("Miter faces", "The sawn faces seen square: lay a face on the cut to check it and to mark grooves and pins", ""), st)
}

// A miterFace is one shape of sawn face, and the ends that have it.
type miterFace struct {
	section profile.Section
	cut     miter.Plane // of an end of the face's hand, its slope along the section
	corner  geom.Angle
	spline  bool        // it has the molding's groove
	pin     bool        // and its hole
	marks   [2][]string // of the pieces, by left and right end
}

// miterFaces returns the different faces of a molding in the order of its pieces.
func miterFaces(m miter.MoldingResult) []*miterFace {
	var out []*miterFace
	for _, p := range m.Pieces {
		if p.Section == nil {
			continue
		}
		for i, e := range p.Ends {
			if i > 1 || !joins(e) {
				continue
			}
			f := findFace(out, *p.Section, e)
			if f == nil {
				f = &miterFace{section: *p.Section, cut: e.Cut, corner: e.Corner, spline: e.Spline, pin: e.Pin}
				out = append(out, f)
			}
			if !slices.Contains(f.marks[i], p.Mark) {
				f.marks[i] = append(f.marks[i], p.Mark)
			}
		}
	}
	return out
}

// joins reports whether an end meets another piece in a sloping cut, so that its sawn face is worth a sheet; the shoulder of a tenon, next to square, is not.
func joins(e miter.End) bool {
	return !e.Cut.Square() && e.Kind != miter.CutSquare && e.Kind != miter.CutTenon && (e.Meets != "" || !e.Corner.Near(180*geom.Degree, cornerSame))
}

// cornerSame is the difference of two corners that counts as none.
const cornerSame = 1e-6 * geom.Degree

// sameFace is the difference of two slopes that a full-size face of 100 mm would show as 0.001 mm.
const sameFace = 1e-5

// findFace returns the face that an end of that section has, nil when none of them is it.
func findFace(all []*miterFace, s profile.Section, e miter.End) *miterFace {
	for _, f := range all {
		near := func(a, b float64) bool { return math.Abs(a-b) < sameFace }
		if f.section.Name == s.Name && f.spline == e.Spline && f.pin == e.Pin && near(math.Abs(f.cut.X), math.Abs(e.Cut.X)) && near(math.Abs(f.cut.Y), math.Abs(e.Cut.Y)) &&
			near(f.cut.X*f.cut.Y, e.Cut.X*e.Cut.Y) {
			return f
		}
	}
	return nil
}

// faceMap returns the map from a section to the plane that cuts it, seen square and with its level lines level: the
// directions x and y of the section become vectors of the plane, (1, X) and (1, Y) long along and up, with X Y between them.
func faceMap(c miter.Plane) geom.Affine {
	along := math.Hypot(1, c.X)
	shear := c.X * c.Y / along
	return geom.Affine{A: along, C: shear, D: math.Sqrt(1 + c.Y*c.Y - shear*shear)}
}

// FaceOutline returns the outline of the face that the plane c cuts from a section, seen square: a cut sloping only along x stretches
// the section to sqrt(1 + X^2) times its width. The back of the section stays at x = 0.
func FaceOutline(s profile.Section, c miter.Plane) geom.Path { return s.Outline.Transform(faceMap(c)) }

// patterns returns the face for the ends that have it, one or both.
func (f *miterFace) patterns(m miter.MoldingResult, st Style) patternSet {
	to := faceMap(f.cut)
	title := sectionTitle(f.section)
	left := pattern{outline: FaceOutline(f.section, f.cut), name: title + ": miter", hand: "left end, seen from the left", short: "left end"}
	if f.section.Gap != nil {
		left.gap = f.section.Gap.Transform(to)
	}
	var words []string
	left.marks, words = f.joint(m, st)
	right := left
	right.mirrored = true
	right.hand, right.short = "right end, seen from the right", "right end"
	right.outline, right.marks = left.outline.MirrorX(), left.marks.Moved(geom.Scaling(-1, 1))
	if left.gap != nil {
		right.gap = left.gap.MirrorX()
	}
	corner := "corner " + st.Lengths.Angle(f.corner) + fmt.Sprintf(", %.3f times as wide as the section", to.A)
	for i, p := range []*pattern{&left, &right} {
		p.note = sentence(append([]string{pieceWords(f.marks[i]), corner}, words...)...)
	}
	set := patternSet{title: title}
	for i, p := range []pattern{left, right} {
		if len(f.marks[i]) > 0 {
			set.patterns = append(set.patterns, p)
		}
	}
	return set
}

// pieceWords names pieces: "piece A", "pieces A, B".
func pieceWords(marks []string) string {
	if len(marks) == 1 {
		return "piece " + marks[0]
	}
	return "pieces " + strings.Join(marks, ", ")
}

// joint returns the groove and the pin as they lie on the face of a left end, and what to say of them.
func (f *miterFace) joint(m miter.MoldingResult, st Style) (sheet.Drawing, []string) {
	to := faceMap(f.cut)
	var d sheet.Drawing
	var words []string
	if s := m.Spline; s != nil && f.spline {
		a, b := to.Apply(geom.Pt(s.From[0], s.From[1])), to.Apply(geom.Pt(s.To[0], s.To[1]))
		d = d.Add(groove(a, b, s.Thickness)...)
		words = append(words, fmt.Sprintf("groove %s wide, %s deep", st.Lengths.Drawing(s.Thickness), st.Lengths.Drawing(s.Depth)))
	}
	if p := m.Pin; p != nil && f.pin {
		at := to.Apply(geom.Pt(p.At[0], p.At[1]))
		d = d.Add(sheet.Ring(at, p.Diameter/2, sheet.PenThin)).Add(sheet.CenterMark(at, p.Diameter/2+2)...)
		words = append(words, fmt.Sprintf("pin %s, %s deep", st.Lengths.Drawing(p.Diameter), st.Lengths.Drawing(p.Depth)))
	}
	return d, words
}

// groove returns a groove of that width about the line from a to b, its ends square, and its middle line.
func groove(a, b geom.Point, width float64) sheet.Drawing {
	n := b.Sub(a).Unit().Left().Mul(width / 2)
	box := geom.Polygon(a.Sub(n), b.Sub(n), b.Add(n), a.Add(n))
	return sheet.Drawing{
		sheet.Fill{Paths: []geom.Path{box}, Gray: 0.85},
		sheet.Stroke{Path: box, Pen: sheet.PenThin},
		sheet.Line(a, b, sheet.PenCenter),
	}
}
