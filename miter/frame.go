package miter

import (
	"fmt"
	"math"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A Frame is the plain back rail that makes a frame of the molding's side pieces, and its mortises.
type Frame struct {
	RailWidth float64   `json:"rail_mm"` // from the wall to its front
	Thickness float64   `json:"thickness_mm"`
	Foot      float64   `json:"foot_mm"`      // height of its underside over the molding's foot
	Tenon     float64   `json:"tenon_mm"`     // length of the tenon
	Across    float64   `json:"across_mm"`    // width of the tenon without its haunch
	Haunch    float64   `json:"haunch_mm"`    // width of the haunch, at the rear
	HaunchIn  float64   `json:"haunch_in_mm"` // how far the haunch enters
	Cheek     float64   `json:"cheek_mm"`     // thickness of the tenon
	Mortises  []Mortise `json:"mortises"`
	Under     float64   `json:"under_mm"` // the shoulder under the tenon
	Over      float64   `json:"over_mm"`  // the shoulder over it: the wider one when they differ
	Cover     float64   `json:"cover_mm"` // the least wood between a mortise and the molded face

	past [2]float64 // how far the left and the right side reach on behind the rail, mm along them
}

// A Mortise is where a side piece takes a tenon: measured along its back from the wall end.
type Mortise struct {
	Run      string  `json:"run"`
	FromWall float64 `json:"from_wall_mm"` // to its near end, the haunch lies before it
	Length   float64 `json:"length_mm"`
	Depth    float64 `json:"depth_mm"`
	Foot     float64 `json:"foot_mm"` // height of its lower side over the molding's foot
	Width    float64 `json:"width_mm"`
}

// railName is the run of the back rail.
const railName = "back-rail"

// Proportions of the rail's joint, common practice, no source: a tenon about a third as thick as the rail, as thick as a chisel is wide, and a
// haunch of about a third of the rail's width at the rear that enters as far as it is thick.
const (
	tenonPart     = 1.0 / 3
	haunchPart    = 1.0 / 3
	leastCover    = 1.5              // mm, wood around anything sunk into a molding
	tenonCover    = 25.4 / 4         // mm, wood between a tenon and the molded face
	leastRail     = 25.4 / 2         // mm, width of a rail
	railMostAngle = 10 * geom.Degree // off square, beyond which a tenon has no straight grain left
)

// frame adds the back rail. It returns nil and a fault when the molding cannot be framed.
func (m *fitting) frame() *Frame {
	spec := m.Frame
	path := m.path + ".frame"
	if spec == nil {
		return nil
	}
	before := len(m.list)
	positive(spec.RailWidth, path+".back-rail.width", &m.faults)
	if spec.RailWidth > 0 && spec.RailWidth < leastRail {
		m.add(path+".back-rail.width", "a rail %s wide holds no tenon; %s or more would do", m.mm(spec.RailWidth), m.mm(leastRail))
	}
	if !(spec.Tenon > 0 && spec.Tenon <= maxLength) {
		m.add(path+".back-rail.tenon", "a tenon of %s holds nothing; it must be more than 0, and %s is usual", m.mm(spec.Tenon), m.mm(25.4))
	}
	if m.chain.closed || m.chain.before.Name != "back" || m.chain.after.Name != "back" || m.stage.Freestanding {
		m.add(path, "a frame needs runs from the wall round to the wall: its rail lies between the two side pieces")
	} else if m.EndLeft == EndReturn || m.EndRight == EndReturn {
		m.add(path, "a frame needs ends: wall")
	}
	if m.profile.Spring != nil {
		m.add(path, "a sprung molding has no square back to tenon a rail into")
	}
	if m.Rake != nil {
		m.add(path, "a raking molding takes no back rail")
	}
	if len(m.list) > before {
		return nil
	}
	return m.rail(spec, path)
}

func (m *fitting) rail(spec *FrameSpec, path string) *Frame {
	left, right := m.runs[0], m.runs[len(m.runs)-1]
	foot, top := m.profile.BackSpan()
	f := &Frame{RailWidth: spec.RailWidth, Thickness: top - foot, Foot: foot, Tenon: spec.Tenon}
	step := m.usual.rule
	f.Across = math.Round(spec.RailWidth*(1-haunchPart)/step) * step
	f.Haunch = tidy(f.RailWidth - f.Across) // what the rule leaves over is at the wall
	f.Cheek = chisel(f.Thickness*tenonPart, m.Units)
	f.HaunchIn = math.Min(f.Cheek, f.Tenon)
	f.Under = tidy(math.Floor((f.Thickness-f.Cheek)/2/step+1e-9) * step)
	f.Over = tidy(f.Thickness - f.Cheek - f.Under)
	r := m.railRun(left, right, f)
	if r == nil {
		m.add(path, "the sides stand more than %.0f degrees off square to the rail: no tenon holds there", railMostAngle.Degrees())
		return nil
	}
	y0 := foot + f.Under
	f.Cover = math.Inf(1)
	for i, s := range []*run{left, right} {
		if s.edge.Length() <= spec.RailWidth {
			m.add(path+".back-rail.width", "the rail is wider than run %s is long", s.name)
		}
		f.Mortises = append(f.Mortises, Mortise{Run: s.name, FromWall: tidy(f.Haunch + f.past[i]), Length: f.Across, Depth: f.Tenon, Foot: y0, Width: f.Cheek})
		cover := faceFrom(s.section, y0, y0+f.Cheek) - f.Tenon
		if f.Cover = math.Min(f.Cover, cover); cover < tenonCover {
			m.add(path+".back-rail.tenon", "a tenon of %s leaves %s before the molded face of run %s, and %s must stay%s", m.mm(f.Tenon), m.mm(math.Max(0, cover)),
				s.name, m.mm(tenonCover), m.atMost(cover+f.Tenon-tenonCover))
		}
	}
	for i, s := range []*run{left, right} {
		if f.past[i] > wallTold {
			m.out.Notes = append(m.out.Notes, fmt.Sprintf("the rail lies along the wall, flush with the end of the other side: run %s reaches %s on behind it", s.name, m.mm(f.past[i])))
		}
	}
	m.runs = append(m.runs, r)
	return f
}

// chisel returns the width of the chisel that is nearest to mm: the tenon's, and so the mortise's. Where even the narrowest is far wider it is mm
// itself. The sizes are those usually sold; common practice, no source.
func chisel(mm float64, u measure.Units) float64 {
	sizes := [...]float64{6, 8, 10, 12}
	if u == measure.Inches {
		sizes = [...]float64{25.4 / 4, 25.4 * 5 / 16, 25.4 * 3 / 8, 25.4 / 2}
	}
	best := sizes[0]
	for _, s := range sizes {
		if math.Abs(s-mm) < math.Abs(best-mm)-1e-9 {
			best = s
		}
	}
	if best > 1.6*mm {
		return mm
	}
	return best
}

// atMost says what would do instead of too much, "" when nothing would.
func (f *fitter) atMost(v float64) string {
	step := f.usual.rule
	if v = math.Floor(v/step+1e-9) * step; v <= 0 {
		return ""
	}
	return "; " + f.mm(v) + " or less would do"
}

// railRun places the rail between the backs of the two sides, parallel to the wall and flush with the wall end that is farther from it: where corners
// are off, the other side reaches on behind it, and its mortise lies that much farther from its end. It is nil when the sides stand too far off square.
func (m *fitting) railRun(left, right *run, f *Frame) *run {
	a, b := left.planLine(0)[0], right.planLine(0)[1]
	dir := m.stage.wall.Mul(-1)
	out := geom.Pt(dir.Y, -dir.X)
	lean := func(u geom.Point) float64 {
		k := u.Dot(dir) / u.Dot(out)
		if math.Abs(k) < 1e-12 {
			return 0
		}
		return k
	}
	kl, kr := lean(left.edge.Dir()), lean(right.edge.Dir().Mul(-1))
	if math.Max(math.Abs(kl), math.Abs(kr)) > railMostAngle.Tan() {
		return nil
	}
	behind := b.Sub(a).Dot(out) // how much farther from the wall the right end is
	if behind > 0 {
		f.past[0] = tidy(behind / left.edge.Dir().Dot(out))
		a = a.Add(left.edge.Dir().Mul(f.past[0]))
	} else {
		f.past[1] = tidy(behind / right.edge.Dir().Dot(out))
		b = b.Sub(right.edge.Dir().Mul(f.past[1]))
	}
	w, t := f.RailWidth, f.Thickness
	s := profile.Section{Name: m.Profile + "-back-rail", Title: "Back rail", Outline: geom.Polygon(geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, t), geom.Pt(0, t)),
		Face: geom.Polyline(geom.Pt(w, 0), geom.Pt(w, t)), Back: geom.Polyline(geom.Pt(w, t), geom.Pt(0, t), geom.Pt(0, 0), geom.Pt(w, 0)),
		Height: t, Projection: w, Ground: w}
	u := newUsed(s, RoleRail)
	u.runs = []string{railName}
	m.used = append(m.used, u)
	r := &run{name: railName, rail: true, edge: Edge{Name: railName, A: a, B: b}, section: u}
	r.place = Placement{Origin: level(a, m.At+f.Foot), Along: level(dir, 0), Out: level(out, 0), Up: Vec3{Z: 1}}
	square := 90 * geom.Degree
	r.left = runEnd{kind: CutTenon, tenon: f.Tenon, meets: left.name, corner: square + geom.Angle(math.Atan(-kl)), cut: Plane{X: kl}}
	r.right = runEnd{kind: CutTenon, tenon: f.Tenon, meets: right.name, corner: square + geom.Angle(math.Atan(kr)), cut: Plane{S: a.Dist(b), X: kr}}
	return r
}

// faceFrom returns the least x of the molded face between two heights, in mm.
func faceFrom(u *used, y0, y1 float64) float64 {
	least := math.Inf(1)
	pts := u.Face.Flatten(0.005)
	if len(pts) == 0 {
		return u.Projection
	}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if math.Max(a.Y, b.Y) < y0 || math.Min(a.Y, b.Y) > y1 {
			continue
		}
		for _, y := range []float64{math.Max(math.Min(a.Y, b.Y), y0), math.Min(math.Max(a.Y, b.Y), y1)} {
			t := 0.0
			if a.Y != b.Y {
				t = (y - a.Y) / (b.Y - a.Y)
			}
			least = math.Min(least, a.Lerp(b, t).X)
		}
		if a.Y == b.Y {
			least = math.Min(least, b.X)
		}
	}
	return least
}
