package trace

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/profile/geom"
)

// An edge is a place on the outer boundary of a section's ink.
type edge struct {
	at    geom.Point // px of the picture
	out   geom.Point // unit, away from the section
	width float64    // px, of the line there; NaN where it has no inner side
	dark  float64    // the lightest of what a round pen would have inked there, 1 for full ink
	seen  bool       // there is an edge of ink, the section's own or not
	index int        // among all edges
	ok    bool       // false where something else touches the boundary, or it is not there
	open  bool       // where the line is broken, and nothing else touches it
}

// An edger finds edges in the shades of a picture.
type edger struct {
	tone
	line   float64 // px, the thickness of the line that is looked for; 0 for a filled section
	k      float64 // px of the picture in one of the contour's
	within bool    // the contours are those of the paper within the line, not of the ink
}

const sample = 0.25 // px, between samples of the darkness across an edge; it is straight between the middles of pixels

// edges returns the places where the darkness falls to half of the ink's, along the normals of a contour in px of the finder's field; those
// that other ink has touched, or where the line is open, are not ok.
// Half way is where an edge stays however much it is blurred, and the two halves of a thin line stay the same distance from its middle.
func (e edger) edges(contour []geom.Point, touched, open []bool) []edge {
	const window = 4 // steps either way that a normal is taken from
	mid := smoothed(contour, 2)
	way := smoothed(contour, 3)
	out := make([]edge, 0, len(contour))
	n := len(contour)
	for i := range contour {
		d := way[(i+window)%n].Sub(way[(i-window+n)%n]).Unit()
		normal := geom.Pt(d.Y, -d.X) // left of the way with y down: the section is on the right
		to := normal
		if e.within {
			to = normal.Mul(-1)
		}
		found := e.across(mid[i].Mul(e.k), to)
		found.out = normal
		found.ok = found.ok && !touched[i] && !open[i]
		found.open = open[i] && !touched[i]
		found.index = i
		out = append(out, found)
	}
	return out
}

// across finds the edge nearest to p along out.
func (e edger) across(p, out geom.Point) edge {
	reach, deep := 2*e.k+3, 1.5*e.k+3+1.6*e.line
	n := int((reach + deep) / sample)
	dark := make([]float64, n+1)
	place := func(i float64) geom.Point { return p.Add(out.Mul(reach - i*sample)) }
	for i := range dark {
		q := place(float64(i))
		dark[i] = e.dark(q.X, q.Y)
	}
	// The line's own ink is the darkest from a little outside to its thickness inside.
	from, to := int((reach-1.5)/sample), int((reach+1.5+max(1, e.line))/sample)
	peak := from
	for i := from; i <= min(to, n); i++ {
		if dark[i] > dark[peak]+0.02 {
			peak = i
		}
	}
	top := math.Min(dark[peak], 1.1)
	if top < inkFrom {
		return edge{at: p, out: out}
	}
	i := peak
	for i > 0 && dark[i] >= top/2 {
		i--
	}
	if dark[i] >= top/2 {
		return edge{at: p, out: out}
	}
	found := edge{out: out, width: math.NaN(), seen: true, ok: true}
	outer := float64(i) + (top/2-dark[i])/(dark[i+1]-dark[i])
	found.at = place(outer)
	found.dark = e.inked(found.at, out)
	for j := i; j >= max(0, i-int(2/sample)); j-- { // two pixels of paper beyond, or something else stands there
		found.ok = found.ok && dark[j] < top*0.6
	}
	for j := peak; j < n; j++ {
		if dark[j+1] < top/2 {
			found.width = (float64(j) + (dark[j]-top/2)/(dark[j]-dark[j+1]) - outer) * sample
			break
		}
	}
	return found
}

// penShare is the share of a pen's radius within which its ink is full in spite of blur.
const penShare = 0.6

// inked returns the lightest of what a round pen as thick as the line would have inked within an edge: of the half of its disc away from the edge.
func (e edger) inked(at, out geom.Point) float64 {
	const steps = 6
	r := e.line / 2
	mid := at.Sub(out.Mul(r))
	least := e.dark(mid.X, mid.Y)
	for i := range steps + 1 {
		q := mid.Add(geom.Polar(penShare*r, out.Angle()+geom.Angle(math.Pi*(0.5+float64(i)/steps))))
		least = math.Min(least, e.dark(q.X, q.Y))
	}
	return least
}

// thickness returns the thickness of the line along the edges, px: the median where it has two sides, and by how much its halves
// vary; 0 where fewer than a fifth of the edges have two sides.
func thickness(edges []edge) float64 {
	var widths []float64
	ok := 0
	for _, e := range edges {
		if !e.ok {
			continue
		}
		ok++
		if !math.IsNaN(e.width) {
			widths = append(widths, e.width)
		}
	}
	if len(widths)*5 < ok || ok == 0 {
		return 0
	}
	slices.Sort(widths)
	return widths[len(widths)/2]
}

// spoil takes the edges beside one that is not ok for not ok either as far as the line is thicker there than elsewhere, or much thinner, up to
// eight times its thickness: the wedge between the outline and a line that leaves it at a small angle is full of ink, or it is shut off by
// that line.
func spoil(edges []edge, line float64) {
	if line == 0 {
		return
	}
	n := len(edges)
	far := int(8 * line)
	least, most := 0.65*line, 1.15*line+0.5
	own := func(e edge) bool { return e.width <= most && e.width >= least }
	var spoiled []int
	for i, e := range edges {
		if e.ok || e.open {
			continue
		}
		for _, step := range []int{1, n - 1} {
			for j, k := 0, (i+step)%n; j < far && edges[k].ok && !own(edges[k]); j, k = j+1, (k+step)%n {
				spoiled = append(spoiled, k)
			}
		}
	}
	for _, k := range spoiled {
		edges[k].ok = false
	}
}

// bridged says how much of a closed boundary was not there to be followed, and where its longest stretches are, in px from corner; "" where that is little.
func bridged(edges []edge, corner geom.Point) string {
	type stretch struct {
		length int
		at     geom.Point
	}
	var all []stretch
	n, missed := len(edges), 0
	from := slices.IndexFunc(edges, func(e edge) bool { return e.ok })
	for k, start := 0, -1; from >= 0 && k <= n; k++ {
		if e := edges[(from+k)%n]; e.ok || k == n {
			if start >= 0 {
				all = append(all, stretch{k - start, edges[(from+(start+k)/2)%n].at.Add(corner)})
			}
			start = -1
		} else if missed++; start < 0 {
			start = k
		}
	}
	const share, least, most = 0.02, 14, 3 // of the boundary; px, more than a gap that is closed; places that are told
	slices.SortStableFunc(all, func(a, b stretch) int { return b.length - a.length })
	var places []string
	for _, s := range all {
		if s.length >= least && len(places) < most {
			places = append(places, fmt.Sprintf("%d px near (%.0f, %.0f)", s.length, s.at.X, s.at.Y))
		}
	}
	if missed == 0 || float64(missed) < share*float64(n) && len(places) == 0 {
		return ""
	}
	note := fmt.Sprintf("%.0f %% of the outline is covered by other lines or missing, and bridged", math.Ceil(100*float64(missed)/float64(n)))
	if len(places) > 0 {
		note += ": " + strings.Join(places, ", ")
	}
	return note
}
