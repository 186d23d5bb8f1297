package template

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// A sawSetting is one way to set the saw, with the ends that are cut so.
type sawSetting struct {
	n        int // its number on the sheets
	standing miter.Saw
	flat     *miter.Saw // of a sprung molding lying on its back
	kind     miter.CutKind
	words    string          // what its first end is called
	section  profile.Section // that lies on the saw
	as       int             // the number of the first setting of another molding with the same angles, 0 without one
	left     []string        // marks of the pieces whose left ends are cut so
	right    []string
	keeps    [2]sidesKept // which ends lie on which side of the blade: standing, and lying flat
}

// A sidesKept tells which ends of pieces lie left and which right of the blade, as the operator faces the fence.
type sidesKept [2]struct{ left, right bool } // the left, the right ends of pieces

// note adds the end of a piece that the setting keeps; i is 0 for its left end.
func (k *sidesKept) note(s miter.Saw, i int) {
	side := &k[0]
	if s.Keep == miter.RightHand {
		side = &k[1]
	}
	if i == 0 {
		side.left = true
	} else {
		side.right = true
	}
}

// kept reports whether wood on the left (0) or the right (1) of the blade is kept.
func (k sidesKept) kept(side int) bool { return k[side].left || k[side].right }

// both reports whether some ends are kept on either side, as a square cut may.
func (k sidesKept) both() bool { return k.kept(0) && k.kept(1) }

// ends names the ends that lie on that side of the blade.
func (k sidesKept) ends(side int) string {
	switch {
	case k[side].left && k[side].right:
		return "both ends"
	case k[side].left:
		return "left end"
	}
	return "right end"
}

// words says which end lies where when both sides are kept, "" else.
func (k sidesKept) words() string {
	if !k.both() {
		return ""
	}
	return fmt.Sprintf("For its %s the piece lies left of the blade, for its %s right of it.", k.ends(0), k.ends(1))
}

// A settingBook collects the settings of a case: those of one molding that are the same are one.
type settingBook struct {
	all  []*sawSetting
	from int // of the molding at hand
}

// next begins another molding.
func (b *settingBook) next() { b.from = len(b.all) }

// molding returns the settings of the molding at hand.
func (b *settingBook) molding() []*sawSetting { return b.all[b.from:] }

// add notes an end of a piece and returns its setting.
func (b *settingBook) add(p miter.Piece, i int) *sawSetting {
	e := settable(p.Ends[i])
	var s *sawSetting
	for _, o := range b.molding() {
		if o.cuts(e) {
			s = o
		}
	}
	if s == nil {
		s = &sawSetting{n: len(b.all) + 1, standing: e.Standing, flat: e.Flat, kind: e.Kind, words: e.Words(), section: *p.Section}
		s.as = b.before(s)
		b.all = append(b.all, s)
	}
	s.keeps[0].note(e.Standing, i)
	if e.Flat != nil {
		s.keeps[1].note(*e.Flat, i)
	}
	marks := &s.left
	if i == 1 {
		marks = &s.right
	}
	if !slices.Contains(*marks, p.Mark) {
		*marks = append(*marks, p.Mark)
	}
	return s
}

// settable returns the end as a saw can be set for it: an angle that none can be set to is square.
func settable(e miter.End) miter.End {
	e.Standing = e.Standing.Settable()
	if e.Flat != nil {
		flat := e.Flat.Settable()
		e.Flat = &flat
	}
	return e
}

// The letters behind the number of a sprung molding's setting: the saw stands otherwise for each way that the molding lies.
const (
	nestedLetter = "N" // nested upside down
	flatLetter   = "F" // flat on its back
)

// name returns what the setting is called on the sheets: 7, and of a sprung molding 7N nested and 7F lying flat.
func (s *sawSetting) name(flat bool) string {
	n := strconv.Itoa(s.n)
	switch {
	case s.flat == nil:
		return n
	case flat:
		return n + flatLetter
	}
	return n + nestedLetter
}

// names returns every name that the setting has.
func (s *sawSetting) names() []string {
	if s.flat == nil {
		return []string{s.name(false)}
	}
	return []string{s.name(false), s.name(true)}
}

// before returns the number of the first setting of a molding before this one whose angles are those of s, however the molding lies; 0
// without one. Square cuts need none.
func (b *settingBook) before(s *sawSetting) int {
	if straight(s.standing) {
		return 0
	}
	for _, o := range b.all[:b.from] {
		if sameAngles(o.standing, s.standing) && o.flat == nil && s.flat == nil {
			return o.n
		}
	}
	return 0
}

// cuts reports whether the end e is cut by s.
func (s *sawSetting) cuts(e miter.End) bool {
	special := func(k miter.CutKind) miter.CutKind {
		if k == miter.CutVee || k == miter.CutTenon || k == miter.CutCope {
			return k
		}
		return ""
	}
	if special(s.kind) != special(e.Kind) || (s.flat == nil) != (e.Flat == nil) {
		return false
	}
	if (s.words != string(s.kind) || e.Words() != string(e.Kind)) && s.words != e.Words() {
		return false // an end that is not quite square goes by its own words
	}
	return sameSaw(s.standing, e.Standing) && (s.flat == nil || sameSaw(*s.flat, *e.Flat))
}

// sameSaw reports whether two settings are one. On which side of a blade that stands square a piece lies is all the same.
func sameSaw(a, b miter.Saw) bool {
	if straight(a) && straight(b) {
		return a.Table == b.Table && (a.Fence == b.Fence || a.Table == miter.BackFace)
	}
	return sameAngles(a, b) && a.Table == b.Table && a.Fence == b.Fence && a.Keep == b.Keep
}

// sameAngles reports whether the saw stands the same for both.
func sameAngles(a, b miter.Saw) bool {
	const tol = 1e-6 * geom.Degree
	return a.Miter.Near(b.Miter, tol) && a.Bevel.Near(b.Bevel, tol) && a.Swing == b.Swing && a.Tilt == b.Tilt
}

func straight(s miter.Saw) bool { return s.Miter == 0 && s.Bevel == 0 }

// ends says which ends are cut so, a line for each side.
func (s *sawSetting) ends() []string {
	var out []string
	for _, e := range []struct {
		marks []string
		words string
	}{{s.left, "left end"}, {s.right, "right end"}} {
		if len(e.marks) > 0 {
			out = append(out, strings.Join(e.marks, ", ")+"  "+e.words)
		}
	}
	return out
}

// kindWords says what is cut at the setting.
func (s *sawSetting) kindWords() string {
	switch s.kind {
	case miter.CutTenon:
		return "tenon shoulder"
	case miter.CutVee:
		return "vee, first side"
	case miter.CutCope:
		return "cope, first cut"
	}
	return s.words
}

// beyond names what lies beyond the blade from the kept wood.
func (s *sawSetting) beyond() string {
	if s.kind == miter.CutTenon {
		return "tenon"
	}
	return "waste"
}

// after says what is still to be done when the saw has cut.
func (s *sawSetting) after() string {
	switch s.kind {
	case miter.CutTenon:
		return "Not through: what lies beyond is the tenon. Cut the ends square over the tenons first, score the shoulders here, then saw the cheeks and the haunch (see the frame's sheet)."
	case miter.CutVee:
		other := "top"
		if s.standing.Fence == miter.TopFace {
			other = "foot"
		}
		return fmt.Sprintf("Second side: %s to the fence, the arm swung %s.", other, otherHand(s.standing.Swing))
	case miter.CutCope:
		return "Then saw along the edge that shows on the face, leaning under it a little."
	}
	return ""
}

func otherHand(h miter.Hand) miter.Hand {
	switch h {
	case miter.LeftHand:
		return miter.RightHand
	case miter.RightHand:
		return miter.LeftHand
	}
	return h
}

// A sawBed is how a section lies on the saw: the directions in it that point into the fence and up from the table.
type sawBed struct{ toFence, up geom.Point }

// bedOf returns how a section lies with the faces that a setting names on the table and against the fence.
func bedOf(s miter.Saw, section profile.Section) sawBed {
	switch s.Table {
	case miter.FootFace:
		return sawBed{geom.Pt(-1, 0), geom.Pt(0, 1)}
	case miter.TopFace:
		return sawBed{geom.Pt(-1, 0), geom.Pt(0, -1)}
	}
	spring := geom.Angle(0)
	if section.Spring != nil {
		spring = section.Spring.Angle
	}
	along := geom.Pt(spring.Sin(), spring.Cos()) // up the back
	up := geom.Pt(spring.Cos(), -spring.Sin())
	if s.Table == miter.FrontFace {
		up = up.Mul(-1)
	}
	if s.Fence == miter.FootFace {
		along = along.Mul(-1)
	}
	return sawBed{along, up}
}

// lay returns the map from the section to the saw seen from the operator's left: the fence stands at x = 0, the table at y = 0.
func (b sawBed) lay(section profile.Section) geom.Affine {
	m := geom.Affine{A: -b.toFence.X, B: b.up.X, C: -b.toFence.Y, D: b.up.Y}
	box := section.Outline.Transform(m).Bounds()
	return m.Then(geom.Translation(geom.Point{}.Sub(box.Min)))
}

// lies says how the piece lies: "foot down, back to the fence".
func lies(s miter.Saw) string {
	return fmt.Sprintf("%s down, %s to the fence", s.Table, s.Fence)
}

// tooSwung is a miter that few saws reach: beyond it the piece is cut against a block.
const tooSwung = 50 * geom.Degree

// warning says what is unusual about a setting.
func warning(s miter.Saw) string {
	if s.Miter > tooSwung {
		return "Few saws swing so far: clamp the piece to a block that takes up the difference, or saw by hand."
	}
	if math.Abs(s.Bevel.Degrees()) > 47 {
		return "Few saws tilt so far: saw by hand, and plane to the line."
	}
	return ""
}
