package serve

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
)

// A pointView is one point of a curve: the sizes that the text gives it, and where it stands. Of a line it has no bend.
type pointView struct {
	Sizes []sizeView  `json:"sizes"` // across and up from where the curve starts
	Bend  []sizeView  `json:"bend"`  // the same of the place that the arc to it passes; empty for a line
	At    [2]float64  `json:"at"`
	Via   *[2]float64 `json:"via"` // where the bend stands; null for a line
}

// points returns the points of the curve at an index as the text has them.
func (k keyReader) points(i int) []pointView {
	var out []pointView
	list := fmt.Sprintf("elements[%d].points", i)
	for n := range min(k.keys.Len(list), library.MaxElements) {
		at := fmt.Sprintf("%s[%d]", list, n)
		can := k.length("")
		v := pointView{Bend: []sizeView{}, Sizes: []sizeView{
			k.size(at, "x", "Across", "how far out point "+strconv.Itoa(n+1)+" lies from where the curve starts; "+can),
			k.size(at, "y", "Up", "how far up it lies; "+can),
		}}
		if k.keys.Has(at + ".through") {
			v.Bend = []sizeView{
				k.size(at, "through[0]", "Bend across", "how far out the arc to point "+strconv.Itoa(n+1)+" passes; "+can),
				k.size(at, "through[1]", "Bend up", "how far up it passes; "+can),
			}
		}
		out = append(out, v)
	}
	return out
}

// placePoints fills in where the points of a curve stand that was built.
func (v *memberView) placePoints(m profile.Member, e profile.Entry, part float64) {
	if len(m.Path) != len(v.Points) || len(e.Points) != len(v.Points) {
		return // a kind without points
	}
	for n, seg := range m.Path {
		p := &v.Points[n]
		p.At = xy(seg.End())
		if e.Points[n].Through != nil {
			via := xy(passed(m, e, n, part))
			p.Via = &via
		}
	}
}

// passed returns the place that the arc to point n of a curve passes; part is what a part comes to, in mm.
func passed(m profile.Member, e profile.Entry, n int, part float64) geom.Point {
	through := e.Points[n].Through
	return geom.Pt(m.Start+through[0].In(part), m.Foot+through[1].In(part))
}

// pointCorner is a corner of a drag that is a point of a curve, or the place that the arc to it passes.
var pointCorner = regexp.MustCompile(`^(point|bend) (\d{1,3})$`)

// point brings a point of the curve at an index, or the bend of its arc, to the hand. What stands on the last point follows it.
func (d *dragger) point(i int, corner string, hand geom.Point) error {
	e, m := d.p.Profile.Elements[i], d.p.Section.Members[i]
	what := pointCorner.FindStringSubmatch(corner)
	n, _ := strconv.Atoi(what[2])
	if n < 1 || n > len(e.Points) {
		return fmt.Errorf("the curve has no point %d", n)
	}
	p := e.Points[n-1]
	foot, _ := ends(m)
	to := geom.Pt(d.snapped(hand.X-foot.X), d.snapped(hand.Y-foot.Y))
	at := fmt.Sprintf("points[%d].", n-1)
	if what[1] == "bend" {
		if p.Through == nil {
			return fmt.Errorf("a straight line leads to point %d", n)
		}
		was := passed(m, e, n-1, d.part).Sub(foot)
		if err := d.put(i, at+"through[0]", p.Through[0], was.X, to.X); err != nil {
			return err
		}
		return d.put(i, at+"through[1]", p.Through[1], was.Y, to.Y)
	}
	was := m.Path[n-1].End().Sub(foot)
	last := n == len(e.Points)
	if last {
		to.Y = d.least(to.Y)
	}
	if err := d.put(i, at+"x", p.X, was.X, to.X); err != nil {
		return err
	}
	if err := d.put(i, at+"y", p.Y, was.Y, to.Y); err != nil || !last {
		return err
	}
	if e.Projection.Given() {
		if err := d.put(i, "projection", e.Projection, was.X, to.X); err != nil {
			return err
		}
	}
	if e.Height.Given() {
		if err := d.put(i, "height", e.Height, was.Y, to.Y); err != nil {
			return err
		}
	}
	return d.rest(i, to.Y-was.Y)
}

// errPoints is what is said of points that stand over several lines, whose comments would be lost.
var errPoints = errors.New("the points stand over several lines; change their number in an editor")

// setPoint changes the points of the curve at an index in the text of a profile: adds one before point n (from 0) halfway to it, takes it out, or
// leads to it in a line or an arc. Sizes of the others stay as they are typed.
func (s *Server) setPoint(q sectionRequest, c change) ([]byte, error) {
	keys, err := library.ReadKeyed([]byte(q.Text))
	if err != nil {
		return nil, err
	}
	list := fmt.Sprintf("elements[%d].points", c.At)
	if _, ok := keys.Text(list); !ok && keys.Has(list) {
		return nil, errPoints
	}
	points, err := readPoints(keys, c.At)
	if err != nil {
		return nil, err
	}
	if c.To < 0 || c.To >= len(points) {
		return nil, fmt.Errorf("the curve has no point %d", c.To+1)
	}
	switch c.Kind {
	case "remove":
		if len(points) == 1 {
			return nil, errors.New("it is the only point; take the member out instead")
		}
		points = append(points[:c.To], points[c.To+1:]...)
	case "line":
		points[c.To].bend = ""
	case "add", "arc":
		d, err := s.dragging(q, c)
		if err != nil {
			return nil, err
		}
		m := d.p.Section.Members[c.At]
		if len(m.Path) != len(points) {
			return nil, errUndrawn
		}
		points = d.morePoints(points, m, c.To, c.Kind == "add")
	default:
		return nil, fmt.Errorf("nothing is known of a point that is to %q", c.Kind)
	}
	return library.SetKey([]byte(q.Text), list, writePoints(points))
}

// A pointText is a point as the text has it; bend is "" for a line.
type pointText struct{ x, y, bend string }

// readPoints returns the points of the curve at an index.
func readPoints(keys library.Keyed, i int) ([]pointText, error) {
	list := fmt.Sprintf("elements[%d].points", i)
	var out []pointText
	for n := range keys.Len(list) {
		var texts [4]string
		at := fmt.Sprintf("%s[%d]", list, n)
		for j, key := range []string{".x", ".y", ".through[0]", ".through[1]"} {
			texts[j], _ = keys.Text(at + key)
		}
		p := pointText{x: texts[0], y: texts[1]}
		if p.x == "" || p.y == "" || keys.Has(at+".through") && (texts[2] == "" || texts[3] == "") {
			return nil, fmt.Errorf("point %d is not whole; put it right first", n+1)
		}
		if texts[2] != "" {
			p.bend = "[" + texts[2] + ", " + texts[3] + "]"
		}
		out = append(out, p)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("member %d has no points", i+1)
	}
	return out, nil
}

func writePoints(points []pointText) string {
	var out []string
	for _, p := range points {
		text := "{x: " + p.x + ", y: " + p.y
		if p.bend != "" {
			text += ", through: " + p.bend
		}
		out = append(out, text+"}")
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// morePoints returns the points with one more halfway to point n, so that the curve stays as it is but for the rounding to what is measured; or with an
// arc to point n, which stands out a quarter of its chord.
func (d *dragger) morePoints(points []pointText, m profile.Member, n int, add bool) []pointText {
	foot, _ := ends(m)
	write := func(p geom.Point) (x, y string) {
		q := p.Sub(foot)
		return d.text(profile.Size{}, d.snapped(q.X)), d.text(profile.Size{}, d.snapped(q.Y))
	}
	bend := func(p geom.Point) string {
		x, y := write(p)
		return "[" + x + ", " + y + "]"
	}
	seg := m.Path[n]
	if !add {
		across := seg.End().Sub(seg.Start())
		points[n].bend = bend(seg.At(0.5).Add(geom.Pt(across.Y, -across.X).Mul(0.25)))
		return points
	}
	var p pointText
	p.x, p.y = write(seg.At(0.5))
	if points[n].bend != "" {
		p.bend, points[n].bend = bend(seg.At(0.25)), bend(seg.At(0.75))
	}
	out := append([]pointText{}, points[:n]...)
	return append(append(out, p), points[n:]...)
}

// dragging returns a dragger for a change.
func (s *Server) dragging(q sectionRequest, c change) (*dragger, error) {
	p, err := s.load(q)
	if err != nil {
		return nil, errUndrawn
	}
	if c.At < 0 || c.At >= len(p.Section.Members) {
		return nil, fmt.Errorf("there is no member %d", c.At+1)
	}
	d := &dragger{data: []byte(q.Text), p: p, unit: p.Profile.Units}
	if p.Profile.Parts > 0 {
		d.part = p.Profile.Height / p.Profile.Parts
	}
	return d, nil
}
