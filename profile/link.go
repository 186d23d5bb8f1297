package profile

import "listel/profile/geom"

// A link is one segment of an outline and the index of the element that it belongs to, 0 on foot, top and back.
type link struct {
	seg   geom.Segment
	owner int
}

// linked returns the segments of a path as links of one owner.
func linked(owner int, p geom.Path) []link {
	out := make([]link, len(p))
	for i, s := range p {
		out[i] = link{s, owner}
	}
	return out
}

// pathOf returns the segments of links as a path.
func pathOf(links []link) geom.Path {
	p := make(geom.Path, len(links))
	for i, l := range links {
		p[i] = l.seg
	}
	return p
}

// startOf returns where a chain of links starts.
func startOf(links []link) geom.Point { return links[0].seg.Start() }

// endOf returns where a chain of links ends.
func endOf(links []link) geom.Point { return links[len(links)-1].seg.End() }

// straightened returns a closed chain without lines of no length and with lines that go on straight or double back on each
// other made one: a step out and a step back in on one level leave no fin between them. A line that goes on
// straight from one element into another stays two.
func straightened(links []link) []link {
	var out []link
	for _, l := range links {
		out = pushLink(out, l)
	}
	for len(out) > 2 { // the seam, where the chain closes
		last := out[len(out)-1]
		joined := pushLink([]link{last}, out[0])
		if len(joined) == 2 {
			return out
		}
		if out = out[1 : len(out)-1]; len(joined) == 1 {
			out = append([]link{joined[0]}, out...)
		}
	}
	return out
}

// pushLink appends l to a straightened chain.
func pushLink(out []link, l link) []link {
	line, ok := l.seg.(geom.Line)
	if !ok {
		return append(out, l)
	}
	if line.A.Near(line.B, equalSizes) {
		return out
	}
	if len(out) == 0 {
		return append(out, l)
	}
	prev := out[len(out)-1]
	before, ok := prev.seg.(geom.Line)
	if !ok {
		return append(out, l)
	}
	u, v := before.Tangent(0), line.Tangent(0)
	if d := u.Cross(v); d > 1e-9 || d < -1e-9 { // lines of files are level, plumb or far from it
		return append(out, l)
	}
	back := u.Dot(v) < 0
	// A plumb line that doubles back is wood without thickness, which is for the checks to refuse.
	if back && !same(before.A.Y, before.B.Y) || !back && prev.owner != l.owner {
		return append(out, l)
	}
	owner := l.owner
	if line.Length() < before.Length() {
		owner = prev.owner
	}
	return pushLink(out[:len(out)-1], link{geom.Line{A: before.A, B: line.B}, owner})
}
