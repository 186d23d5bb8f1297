package trace

import (
	"cmp"
	"math"
	"slices"
)

// kept is how many of the cheapest ways to each joint are kept: what is cheapest piece by piece need not be when all sizes are fitted
// together.
const kept = 6

// A route is a way to read the face up to a joint.
type route struct {
	cost float64
	last way
	from *route
	row  string // of its members, without their sizes
}

// search returns the cheapest readings of the face, the cheapest first: dynamic programming over its joints. After a level step a
// member must follow.
func (c *chain) search() [][]way {
	n := c.top - c.face
	after := make([][2][]*route, n+1) // by joint, and whether a step was last
	after[0][0] = []*route{{}}
	byFrom := make([][]way, n)
	for _, w := range c.ways() {
		byFrom[w.from] = append(byFrom[w.from], w)
	}
	for i := range n {
		for stepped := range 2 {
			after[i][stepped] = cheapest(after[i][stepped])
			for _, r := range after[i][stepped] {
				for _, w := range byFrom[i] {
					now := stepped
					switch {
					case w.junk:
					case w.step && stepped == 1:
						continue
					case w.step:
						now = 1
					case w.lead && stepped == 1:
						continue
					case w.tail:
						now = 1
					default:
						now = 0
					}
					after[w.to][now] = append(after[w.to][now], &route{r.cost + w.cost, w, r, r.row + w.mark()})
				}
			}
		}
	}
	var out [][]way
	for _, r := range cheapest(append(after[n][0], after[n][1]...)) { // a step last of all is part of the top
		var ways []way
		for ; r.from != nil; r = r.from {
			ways = append(ways, r.last)
		}
		slices.Reverse(ways)
		out = append(out, ways)
	}
	return out
}

// mark tells what w reads its bits as, without sizes: flats and curves are as they are wherever they part.
func (w way) mark() string {
	switch {
	case w.junk:
		return ""
	case w.step && w.drip != nil:
		return "d"
	case w.step:
		return "s"
	}
	m := []byte{'a' + byte(w.shape.form), '+'}
	if w.shape.sign < 0 {
		m[1] = '-'
	}
	if w.lead {
		m = append([]byte{'s'}, m...)
	}
	if w.tail {
		m = append(m, 's')
	}
	for _, arc := range w.shape.arcs {
		m = append(m, map[bool]byte{true: ')', false: '|'}[arc])
	}
	return string(m)
}

// cheapest returns the cheapest routes, of those with the same members the cheapest alone: they lead to the same sizes.
func cheapest(routes []*route) []*route {
	slices.SortStableFunc(routes, func(a, b *route) int { return cmp.Compare(a.cost, b.cost) })
	seen := map[string]bool{}
	routes = slices.DeleteFunc(routes, func(r *route) bool {
		was := seen[r.row]
		seen[r.row] = true
		return was
	})
	if len(routes) > kept {
		routes = routes[:kept]
	}
	// What costs more than this above the best will not win by fitting all sizes together.
	for i, r := range routes {
		if r.cost > routes[0].cost+150+0.3*math.Abs(routes[0].cost) {
			return routes[:i]
		}
	}
	return routes
}
