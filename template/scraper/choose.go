package scraper

import (
	"math"

	"listel/profile/geom"
)

// A stretch is a run of atoms that one blade takes along one plunge.
type stretch struct {
	from, to int // atoms, to not included
	plunge   float64
}

// Plunges that are tried: every gridStep degrees from straight up to straight down, and one that was asked for.
const (
	gridStep  = 5.0
	gridCount = 37
	gridMask  = 1<<gridCount - 1
	askedMask = 1 << gridCount
)

func gridPlunge(k int) float64 { return -90 + gridStep*float64(k) }

// A chooser finds the stretches of a face.
type chooser struct {
	*scene
	views    []*view           // of the grid, then of the plunge that was asked for, if any
	seenAt   map[float64]*view // every view that was asked for, by its plunge
	clean    []uint64          // for each atom, the plunges of the grid that scrape it
	open     []uint64          // and those along which it is at least formed by a blade
	maxWidth float64           // of a stretch, from corner to corner: however it is plunged, its blade is no wider
}

func newChooser(c *scene, o Options) *chooser {
	ch := &chooser{scene: c, seenAt: map[float64]*view{}, maxWidth: o.width() - 2*o.overlap()}
	n := len(c.atoms)
	ch.clean, ch.open = make([]uint64, n), make([]uint64, n)
	for k := range gridCount {
		ch.views = append(ch.views, ch.view(gridPlunge(k)))
	}
	if o.Plunge != nil {
		ch.views = append(ch.views, ch.view(o.Plunge.Degrees()))
	}
	for k, w := range ch.views {
		ch.see(w, 1<<k)
	}
	return ch
}

// view returns the view along a plunge, in degrees.
func (ch *chooser) view(plunge float64) *view {
	w := ch.seenAt[plunge]
	if w == nil {
		w = ch.along(plunge)
		ch.seenAt[plunge] = w
	}
	return w
}

// see notes under a bit which atoms a view exposes.
func (ch *chooser) see(w *view, bit uint64) {
	for i, a := range ch.atoms {
		if !w.exposes(a) {
			continue
		}
		ch.open[i] |= bit
		if off(a.lo, a.hi, w.plunge) <= scrapes {
			ch.clean[i] |= bit
		}
	}
}

// Costs of a plan, each far above all that follow it: a millimeter of face not scraped, a curve parted, a blade, and then how ill
// the face is parted, how near the walls come to the plunge, and how little a blade has to do.
const (
	costLeft  = 1e7
	costCurve = 1e4
	costBlade = 1e2
	costWall  = 2.0
	costShort = 2.0 // of a blade that scrapes next to nothing, less up to shortEdge
	shortEdge = 6.0 // mm
)

// choose returns the stretches that scrape what is needed at the least cost. Only the plunges of the mask are used. What no plunge
// of the mask scrapes a stretch may run over, as long as it forms it; so with what is not needed.
func (ch *chooser) choose(mask uint64, needed func(i int) bool) []stretch {
	n := len(ch.atoms)
	best := make([]float64, n+1)
	last := make([]stretch, n+1)
	over := make([]uint64, n)
	must := make([]bool, n)
	for i := range ch.atoms {
		over[i] = ch.clean[i] & mask
		must[i] = over[i] != 0 && needed(i)
		if !must[i] {
			over[i] |= ch.open[i] & mask
		}
	}
	for i := 1; i <= n; i++ {
		best[i] = math.Inf(1)
	}
	for i := range n {
		skip := best[i]
		if must[i] {
			skip += costLeft * ch.atoms[i].length
		}
		if skip < best[i+1] {
			best[i+1], last[i+1] = skip, stretch{from: i, to: i}
		}
		if must[i] {
			ch.extend(i, best[i]+ch.parting(i), over, must, best, last)
		}
	}
	var out []stretch
	for i := n; i > 0; i = last[i].from {
		if s := last[i]; s.to > s.from {
			out = append([]stretch{s}, out...)
		}
	}
	return out
}

// parting returns the cost of parting the face before atom i, half of it for each of the blades that end there.
func (ch *chooser) parting(i int) float64 {
	if i == 0 || i == len(ch.atoms) {
		return 0
	}
	a := ch.atoms[i]
	if !a.natural {
		return (costCurve + a.parting) / 2
	}
	return a.parting / 2
}

// extend tries every stretch that starts with atom i.
func (ch *chooser) extend(i int, cost float64, over []uint64, must []bool, best []float64, last []stretch) {
	mask := ^uint64(0)
	lo, hi := math.Inf(1), math.Inf(-1)
	box := geom.EmptyRect()
	length := 0.0
	for j := i; j < len(ch.atoms); j++ {
		a := ch.atoms[j]
		box = box.Union(a.box)
		if mask &= over[j]; mask == 0 || math.Hypot(box.Width(), box.Height()) > ch.maxWidth+smallestFeature {
			return
		}
		if !must[j] {
			continue
		}
		lo, hi = math.Min(lo, a.lo), math.Max(hi, a.hi)
		length += a.length
		pick, worst := ch.steadiest(mask, lo, hi)
		total := cost + costBlade + costWall*(worst/90)*(worst/90) + costShort*math.Max(0, 1-length/shortEdge) + ch.parting(j+1)
		if total < best[j+1]-1e-9 {
			best[j+1], last[j+1] = total, stretch{from: i, to: j + 1, plunge: ch.views[pick].plunge}
		}
	}
}

// steadiest returns the plunge of the mask that keeps walls whose normals lie between lo and hi farthest from it, the most level of equals, and
// how far the worst normal is from it.
func (ch *chooser) steadiest(mask uint64, lo, hi float64) (pick int, worst float64) {
	worst = math.Inf(1)
	for k, w := range ch.views {
		if mask&(1<<k) == 0 {
			continue
		}
		if o := off(lo, hi, w.plunge); o < worst-1e-9 || o < worst+1e-9 && math.Abs(w.plunge) < math.Abs(ch.views[pick].plunge) {
			pick, worst = k, o
		}
	}
	return pick, worst
}

// settle returns the stretch with the plunge that keeps its steepest wall as far from it as can be, to a whole degree: halfway between the
// extreme walls where nothing stands in the way.
func (ch *chooser) settle(s stretch, covered func(i int) bool) stretch {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := s.from; i < s.to; i++ {
		if covered(i) {
			lo, hi = math.Min(lo, ch.atoms[i].lo), math.Max(hi, ch.atoms[i].hi)
		}
	}
	half := math.Round((lo + hi) / 2)
	if half == s.plunge || math.Abs(half) > 90 || off(lo, hi, half) >= off(lo, hi, s.plunge) {
		return s
	}
	w := ch.view(half)
	for i := s.from; i < s.to; i++ {
		if !w.exposes(ch.atoms[i]) {
			return s
		}
	}
	s.plunge = half
	return s
}
