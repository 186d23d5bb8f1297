package trace

import (
	"fmt"
	"math"
	"slices"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A snapped is a fitted reading with its sizes rounded to the maker's fraction where the outline allows it.
type snapped struct {
	reading *reading
	exact   []float64 // mm, the sizes before
	sigma   []float64 // mm, their standard deviations
	done    []bool    // which were rounded
	step    float64   // mm, the maker's fraction
}

// fractionOf returns the maker's fraction in mm: 1/32 in or 1/2 mm unless the plate says otherwise.
func fractionOf(w Wanted) float64 {
	n := float64(w.Fraction)
	if w.Units == measure.Inches {
		if !(n > 0) {
			n = 32
		}
		return measure.MMPerInch / n
	}
	if !(n > 0) {
		n = 2
	}
	return 1 / n
}

// rounding is how much in mm a size may be moved beside what its own error allows: less than a line's width, and no tool sees it.
const rounding = 0.03

// leeway returns how far a size of that standard deviation may be moved to a round number, the rounding's step being so many mm.
func leeway(sigma, step float64) float64 { return math.Min(2*sigma+rounding, 0.3*step) }

// snap rounds one size after the other, the one nearest to a round number first; each time the others follow, by the covariance of the fit. A
// size whose rounding costs the whole more than it should stays as it is.
func (r *reading) snap(c *chain, w Wanted) snapped {
	n := len(r.theta)
	s := snapped{reading: r, exact: append([]float64(nil), r.theta...), sigma: make([]float64, n), done: make([]bool, n), step: fractionOf(w)}
	m, _, _, ok := r.system.normal(r.theta)
	if !ok {
		return s
	}
	for i := range m {
		m[i][i] += 1e-6
	}
	cov, ok := m.inverse()
	if !ok {
		return s
	}
	for i := range s.sigma {
		s.sigma[i] = math.Sqrt(cov[i][i])
	}
	cost := r.system.cost(r.theta)
	skip := r.unsnapped()
	for {
		best, least := -1, 1.0
		for i := range r.theta {
			if skip[i] || s.done[i] {
				continue
			}
			if off := math.Abs(r.theta[i]-s.nearest(i)) / leeway(math.Sqrt(math.Max(0, cov[i][i])), s.step); off < least {
				best, least = i, off
			}
		}
		if best < 0 {
			return s
		}
		next, shrunk := moved(r.theta, cov, best, s.nearest(best))
		now := r.system.cost(next)
		if !(now < cost+12) { // three and a half standard deviations
			skip[best] = true
			continue
		}
		r.theta, cov, cost = next, shrunk, now
		s.done[best] = true
	}
}

// nearest returns the round number next to size i, 0 for the ground alone.
func (s *snapped) nearest(i int) float64 {
	v := math.Round(s.reading.theta[i]/s.step) * s.step
	if v == 0 && i != unknownGround {
		return math.Inf(1)
	}
	return v
}

// moved returns theta with unknown i at v and the others where the covariance then has them, and the covariance of those.
func moved(theta []float64, cov square, i int, v float64) ([]float64, square) {
	next := append([]float64(nil), theta...)
	out := newSquare(len(theta))
	by := (v - theta[i]) / cov[i][i]
	for a := range theta {
		next[a] += cov[a][i] * by
		for b := range theta {
			out[a][b] = cov[a][b] - cov[a][i]*cov[i][b]/cov[i][i]
		}
	}
	next[i] = v
	for a := range theta {
		out[a][i], out[i][a] = 0, 0
	}
	return next, out
}

// unsnapped tells which unknowns are never rounded: where the section lies, and the inner points of curves.
func (r *reading) unsnapped() []bool {
	out := make([]bool, len(r.theta))
	out[unknownBack], out[unknownFoot] = true, true
	for _, p := range r.parts {
		if p.shape.form == free {
			for i := 2; i < p.shape.own(); i++ {
				out[p.at+i] = true
			}
		}
	}
	return out
}

// An offer is a profile made of a snapped reading.
type offer struct {
	profile profile.Profile
	sizes   []Uncertain
	notes   []string
}

// profiles returns the reading as profiles, the best first: in parts where those are asked for and fit, in lengths, and as measured.
func (s *snapped) profiles(c *chain, w Wanted) []offer {
	var out []offer
	r := s.reading
	plain := s.inLengths(w, r.theta)
	if n, height, theta := s.parts(w); n > 0 {
		part := height / n
		note := fmt.Sprintf("its sizes are whole or half parts of %s to the height, 1p = %s", countOf(n), measure.Format{Units: w.Units, Fraction: w.Fraction}.Length(part))
		if w.Parts {
			o := s.offer(w, &sized{reading: r, theta: theta, unit: part, size: profile.Parts, sigma: s.sigma}, height, n)
			o.notes = append(o.notes, note)
			out = append(out, o)
		} else if n <= fewParts && !slices.ContainsFunc(theta, func(v float64) bool { return v != math.Round(v) }) {
			plain.notes = append(plain.notes, note+"; ask for parts to have it written so")
		}
	} else if w.Parts {
		plain.notes = append(plain.notes, fmt.Sprintf("parts were asked for, and its sizes are no whole or half parts of up to %d to the height", mostParts))
	}
	return append(out, plain, s.inLengths(w, s.exact))
}

// inLengths returns the reading with these sizes, in mm, as a profile in lengths.
func (s *snapped) inLengths(w Wanted, theta []float64) offer {
	r := *s.reading
	r.theta = s.readable(w, theta)
	return s.offer(w, &sized{reading: &r, theta: r.theta, unit: 1, units: w.Units, size: profile.MM, sigma: s.sigma}, 0, 0)
}

func countOf(n float64) string { return fmt.Sprintf("%g", n) }

// readable returns sizes with those that are no fraction to a thousandth of an inch or a hundredth of a millimeter.
func (s *snapped) readable(w Wanted, theta []float64) []float64 {
	out := append([]float64(nil), theta...)
	for i, v := range out {
		out[i] = grained(v, w.Units, math.Round)
		if k := math.Round(v / s.step); w.Units == measure.Inches && math.Abs(v-k*s.step) < 1e-9 {
			out[i] = k / math.Round(measure.MMPerInch/s.step) * measure.MMPerInch
		}
	}
	return out
}

// grained returns a size in mm rounded, as round has it, to a thousandth of an inch or a hundredth of a millimeter: as sizes that are no fraction are written.
func grained(v float64, u measure.Units, round func(float64) float64) float64 {
	if u == measure.Inches {
		return round(v/measure.MMPerInch*1000) / 1000 * measure.MMPerInch
	}
	return round(v*100) / 100
}

// offer makes a profile of sized parts; height and parts are 0 where it has none.
func (s *snapped) offer(w Wanted, z *sized, height, parts float64) offer {
	p := profile.Profile{Name: w.Name, Title: w.Title, Units: w.Units, Height: height, Parts: parts}
	elements := z.elements()
	ground := z.theta[unknownGround] + z.ahead/z.unit
	if behind := -ground * z.unit; behind > 0 && behind < rounding+sure*z.sigma[unknownGround] {
		ground = 0 // the face starts at the back, as far as the outline tells
	}
	p.Ground = z.size(ground)
	sizes := []Uncertain{{Key: "ground", MM: ground * z.unit, Error: z.sigma[unknownGround]}}
	for i, n := range elements {
		p.Elements = append(p.Elements, n.entry)
		for _, u := range n.sizes {
			u.Element = i + 1
			sizes = append(sizes, u)
		}
	}
	at := z.backAt
	add := func(key string, i int) {
		sizes = append(sizes, Uncertain{Key: key, MM: z.theta[i] * z.unit, Error: z.sigma[i]})
	}
	switch z.back {
	case rabbetTop, rabbetFoot:
		p.Back.Rabbet = &profile.Rabbet{At: profile.AtTop, Width: z.size(z.theta[at]), Depth: z.size(z.theta[at+1])}
		if z.back == rabbetFoot {
			p.Back.Rabbet.At = profile.AtFoot
		}
		add("back.rabbet.width", at)
		add("back.rabbet.depth", at+1)
	case springBack:
		end := z.end()
		angle := springAngle(end, z.theta[at]*z.unit, z.theta[at+1]*z.unit)
		// Half degrees are what a plate is drawn to; a tenth is what a saw is set to.
		reach := math.Max(1, end.Y-z.theta[at]*z.unit)
		if half := geom.Angle(math.Round(angle.Degrees()*2)/2) * geom.Degree; math.Abs(float64(half-angle))*reach < z.sigma[at]+z.sigma[at+1]+rounding {
			angle = half
		} else {
			angle = geom.Angle(math.Round(angle.Degrees()*20)/20) * geom.Degree
		}
		p.Back.Spring = &profile.Spring{Angle: angle, Wall: z.size(z.theta[at])}
		add("back.spring.wall", at)
	}
	for i := range sizes {
		sizes[i].Error *= sure
	}
	return offer{profile: p, sizes: sizes}
}

// sure is how many standard deviations a size is said to be off by at most: 95 of 100 lie within, of a normal distribution.
const sure = 2

// end returns the end of the face, in mm from the back and the foot.
func (z *sized) end() geom.Point {
	x, y := z.theta[unknownGround], 0.0
	for _, p := range z.parts {
		own := z.theta[p.at : p.at+p.shape.own()]
		if p.step >= 0 {
			x += z.theta[p.step]
		}
		x, y = x+p.shape.run(own), y+own[0]
	}
	return geom.Pt(x*z.unit, y*z.unit)
}

// mostParts is how many parts a height is divided into at most; the orders go up to forty-five (Laureys).
const mostParts = 48

// fewParts is how many parts to the height an author divides a single molding into; what needs more is offered to nobody. Common practice, no source.
const fewParts = 24

// parts returns the least number of parts to the height of which all sizes are whole or half ones, with the height in mm and the sizes in parts; 0
// when there is none that chance would not give as well.
func (s *snapped) parts(w Wanted) (float64, float64, []float64) {
	r := s.reading
	total, at := 0.0, make([]int, 0, len(r.theta))
	for i, skip := range r.unsnapped() {
		if !skip {
			at = append(at, i)
		}
	}
	for _, p := range r.parts {
		if p.shape.form == free || p.shape.form.short() || p.shape.form.full() || p.shape.form.ofRadius() {
			return 0, 0, nil
		}
		total += r.theta[p.at]
	}
	height := math.Round(total/s.step) * s.step
	if math.Abs(height-total) > leeway(slices.Max(s.sigma[firstOwn:]), s.step) {
		height = s.readable(w, []float64{total})[0]
	}
	for n := 3.0; n <= mostParts; n++ {
		half := height / n / 2
		theta := make([]float64, len(r.theta))
		chance, fits, sum := 1.0, true, 0.0
		for _, i := range at {
			k := math.Round(s.exact[i] / half)
			if fits = k != 0 && math.Abs(s.exact[i]-k*half) <= leeway(s.sigma[i], half); !fits {
				break
			}
			theta[i] = k / 2
			chance *= math.Min(1, 2*leeway(s.sigma[i], half)/half)
		}
		for _, p := range r.parts {
			sum += theta[p.at]
		}
		if fits && chance < 1e-3 && sum == n {
			return n, height, theta
		}
	}
	return 0, 0, nil
}

// notes returns what a reader should look at.
func (c *chain) notes(r *reading) []string {
	var out []string
	if _, _, _, known := c.back(); !known {
		out = append(out, "its back is neither plumb nor a rabbet nor a spring; it was taken for plumb; where the drawing is open or broken off there, back: says where it goes")
	}
	for i, p := range r.parts {
		if p.shape.form == free {
			out = append(out, fmt.Sprintf("element %d has no name: it is drawn as a curve through points", i+1))
		}
		if p.shape.form.short() {
			out = append(out, fmt.Sprintf("element %d is an arc of less than a quadrant: it is drawn as a curve through points", i+1))
		}
	}
	return out
}
