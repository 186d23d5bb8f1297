package miter

import (
	"strings"

	"listel/profile/geom"
)

// cornerTol is how near to 0, 180 or 360 degrees a corner may be before two edges count as in line or folded back: at half a
// degree a molding 50 mm deep would end in a point 11 m long.
const cornerTol = 0.5 * geom.Degree

// cornerAt returns the corner of edges that name means: two edges as "left/front" or "front-left", in either order. Edges have dashes in their names, so
// that a dash may stand between the two or in one of them: a name that fits two corners is none. It is the index of the edge that starts there, -1 when
// there is no such corner.
func cornerAt(edges []Edge, name string) int {
	found := -1
	for at, sep := range name {
		if sep != '/' && (sep != '-' || strings.Contains(name, "/")) {
			continue
		}
		switch i := meeting(edges, name[:at], name[at+1:]); {
		case i < 0 || i == found:
		case found >= 0:
			return -1
		default:
			found = i
		}
	}
	return found
}

// meeting returns the index of the edge that starts where edges a and b meet, in either order, -1 when they do not.
func meeting(edges []Edge, a, b string) int {
	for i, e := range edges {
		before := edges[(i+len(edges)-1)%len(edges)].Name
		if before == a && e.Name == b || before == b && e.Name == a {
			return i
		}
	}
	return -1
}

// inside returns the inside angle of the corner where edge i starts, in [0, 360) degrees.
func inside(edges []Edge, i int) geom.Angle {
	return 180*geom.Degree - turn(edges[(i+len(edges)-1)%len(edges)], edges[i])
}

// held returns the edge that keeps its direction where corners are measured, the front or without one the first, and the one that closes the plan: the back, or
// without one the edge before.
func held(edges []Edge) (front, closing int) {
	n := len(edges)
	front, closing = max(0, named(edges, "front")), named(edges, "back")
	if closing < 0 || closing == front {
		closing = (front + n - 1) % n
	}
	return front, closing
}

// measured returns the edges with the corners turned to the angles measured, by the index of the edge that starts there. The
// lengths of the edges are kept and the front keeps its direction; the edges beside it turn. The edge named closing, the back, closes
// the plan.
func measured(edges []Edge, angles map[int]geom.Angle) []Edge {
	if len(angles) == 0 {
		return edges
	}
	n := len(edges)
	front, back := held(edges)
	angle := func(i int) geom.Angle {
		if a, ok := angles[i]; ok {
			return a
		}
		return inside(edges, i)
	}
	out := append([]Edge(nil), edges...)
	for i := front; (i+1)%n != back; i = (i + 1) % n { // to the right of the front
		next := (i + 1) % n
		dir := out[i].Dir().Rotate(180*geom.Degree - angle(next))
		out[next].A = out[i].B
		out[next].B = out[next].A.Add(dir.Mul(edges[next].Length()))
	}
	for i := front; (i+n-1)%n != back; i = (i + n - 1) % n { // to the left
		next := (i + n - 1) % n
		dir := out[i].Dir().Rotate(angle(i) - 180*geom.Degree)
		out[next].B = out[i].A
		out[next].A = out[next].B.Sub(dir.Mul(edges[next].Length()))
	}
	out[back].A, out[back].B = out[(back+n-1)%n].B, out[(back+1)%n].A
	return out
}

// named returns the index of the edge of that name, -1 without one.
func named(edges []Edge, name string) int {
	for i, e := range edges {
		if e.Name == name {
			return i
		}
	}
	return -1
}

func edgeNames(edges []Edge) []string {
	names := make([]string, len(edges))
	for i, e := range edges {
		names[i] = e.Name
	}
	return names
}

// checkOutline refuses an outline with an edge of no length, a corner of 0 or 180 degrees, or edges that cross.
func checkOutline(edges []Edge, path string, f *faults) {
	for i, e := range edges {
		before := edges[(i+len(edges)-1)%len(edges)]
		if e.Length() < 1e-6 || before.Length() < 1e-6 {
			f.add(path, "edge %s has no length", e.Name)
			return
		}
		if t := turn(before, e).Abs(); t < cornerTol || t > 180*geom.Degree-cornerTol {
			f.add(path, "the corner %s/%s is %.4g degrees: it must differ from 0 and 180", before.Name, e.Name, inside(edges, i).Degrees())
		}
	}
	for i := range edges {
		for j := i + 2; j < len(edges); j++ {
			if i == 0 && j == len(edges)-1 {
				continue
			}
			if cross(edges[i].A, edges[i].B, edges[j].A, edges[j].B) {
				f.add(path, "the edges %s and %s cross", edges[i].Name, edges[j].Name)
			}
		}
	}
}

// cross reports whether the lines from a to b and from c to d share a point.
func cross(a, b, c, d geom.Point) bool {
	u, v := b.Sub(a), d.Sub(c)
	den := u.Cross(v)
	if den*den <= 1e-24*u.Dot(u)*v.Dot(v) {
		return false // parallel: the corner rule and the other edges find a fold
	}
	s, t := c.Sub(a).Cross(v)/den, c.Sub(a).Cross(u)/den
	return s >= 0 && s <= 1 && t >= 0 && t <= 1
}
