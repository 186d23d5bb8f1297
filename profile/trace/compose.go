package trace

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"listel/profile"
	"listel/profile/geom"
)

// ErrNoMembers reports an outline that reads as no molding: no face between a foot and a top, or nothing that makes a section.
var ErrNoMembers = errors.New("no members found")

// Compose reads a traced outline as a profile: it splits it into lines and arcs, names the members, fits all their sizes together and
// rounds those to the maker's fraction that are as near to it as the outline can tell. Among the readings that come near it returns the one whose
// section, built anew by the profile, costs least: squared distances in units of the noise, and a price for each member and each
// size. What has no name becomes a curve. Sizes come with their standard deviations. The error is ErrNoOutline or ErrNoMembers.
func Compose(d Drawn, w Wanted) (Composed, error) {
	c, err := newChain(d)
	if err != nil {
		return Composed{}, err
	}
	if c.top <= c.face {
		return Composed{}, fmt.Errorf("%w: the outline has no face between a level foot and a level top", ErrNoMembers)
	}
	var readings []*reading
	for _, ways := range c.search() {
		r := c.newReading(ways)
		if len(r.parts) == 0 {
			continue
		}
		if r.fit(c, 12); !math.IsInf(r.cost, 1) {
			readings = append(readings, r)
		}
	}
	slices.SortStableFunc(readings, func(a, b *reading) int { return compare(a.cost, b.cost) })
	for _, r := range readings[:min(2, len(readings))] {
		r.climb(c)
	}
	slices.SortStableFunc(readings, func(a, b *reading) int { return compare(a.cost, b.cost) })
	var fault error
	for _, r := range readings {
		out, err := c.compose(r, w)
		if err == nil {
			return out, nil
		}
		if fault == nil {
			fault = err
		}
	}
	if fault == nil {
		fault = errors.New("no row of members leads from its foot to its top")
	}
	return Composed{}, fmt.Errorf("%w: %w", ErrNoMembers, fault)
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// compose makes the profile of a fitted reading and builds its section.
func (c *chain) compose(r *reading, w Wanted) (Composed, error) {
	out := Composed{Pieces: c.path()}
	out.Profile, out.Sizes = r.profile(w)
	sec, err := out.Profile.Section(nil)
	if err != nil {
		return out, err
	}
	out.Section = sec
	return out, nil
}

// path returns the pieces as split.
func (c *chain) path() geom.Path {
	var out geom.Path
	for i, b := range c.bits {
		last := i
		for last+1 < len(c.bits) && c.bits[last+1].parent == b.parent {
			last++
		}
		if i > 0 && c.bits[i-1].parent == b.parent {
			continue
		}
		mid := c.pts[(b.first+c.bits[last].last)/2]
		out = append(out, b.bend.segment(b.from, mid, c.bits[last].to, b.arc))
	}
	return out
}

// profile returns the reading as a profile.
func (r *reading) profile(w Wanted) (profile.Profile, []Uncertain) {
	p := profile.Profile{Name: w.Name, Title: w.Title, Units: w.Units}
	p.Ground = profile.MM(r.theta[unknownGround] - r.theta[unknownBack])
	var sizes []Uncertain
	for k := range r.parts {
		p.Elements = append(p.Elements, r.entry(k))
	}
	at := r.backAt
	switch r.back {
	case rabbetTop, rabbetFoot:
		p.Back.Rabbet = &profile.Rabbet{At: profile.AtTop, Width: profile.MM(r.theta[at]), Depth: profile.MM(r.theta[at+1])}
		if r.back == rabbetFoot {
			p.Back.Rabbet.At = profile.AtFoot
		}
	case springBack:
		xs, ys := r.ends()
		end := geom.Pt(xs[len(xs)-1].value(r.theta), ys[len(ys)-1].value(r.theta)).Sub(geom.Pt(r.theta[unknownBack], r.theta[unknownFoot]))
		p.Back.Spring = &profile.Spring{Angle: springAngle(end, r.theta[at], r.theta[at+1]), Wall: profile.MM(r.theta[at])}
	}
	return p, sizes
}

// entry returns part k as an element of a profile.
func (r *reading) entry(k int) profile.Entry {
	p := r.parts[k]
	own := r.theta[p.at : p.at+p.shape.own()]
	e := profile.Entry{Height: profile.MM(own[0])}
	if p.step >= 0 {
		e.Set = profile.MM(r.theta[p.step])
	}
	if p.drip >= 0 {
		d := r.theta[p.drip : p.drip+3]
		e.Drip = &profile.Drip{Width: profile.MM(d[0]), Depth: profile.MM(d[1]), Inset: profile.MM(d[2])}
	}
	e.Kind = p.shape.form.kind()
	switch {
	case p.shape.form == free:
		e.Height = profile.Size{}
		e.Points = p.shape.curvePoints(own)
	case e.Kind == profile.KindFlutes:
		e.Count = 1
	case e.Kind == profile.KindFillet && e.Drip != nil:
		e.Kind = profile.KindCorona
	case p.shape.form == slope || p.shape.form.curve() != "":
		e.Projection = profile.MM(p.shape.run(own))
		e.Curve = p.shape.form.curve()
	}
	return e
}

// kind returns the plain name of a form.
func (f form) kind() profile.Kind {
	switch f {
	case flat:
		return profile.KindFillet
	case slope:
		return profile.KindChamfer
	case ovoloQuadrant, ovoloArc, ovoloEllipse:
		return profile.KindOvolo
	case coveQuadrant, coveArc, coveEllipse:
		return profile.KindCove
	case halfRound:
		return profile.KindTorus
	case halfHollow:
		return profile.KindFlutes
	case rectaFlat, rectaBold, rectaEllipse:
		return profile.KindCymaRecta
	case reversaFlat, reversaBold, reversaEllipse:
		return profile.KindCymaReversa
	case scotiaThirds, scotiaSevenths:
		return profile.KindScotia
	}
	return profile.KindCurve
}

// curvePoints returns a free shape as the points of a curve.
func (s shape) curvePoints(own []float64) []profile.CurvePoint {
	var out []profile.CurvePoint
	for _, seg := range s.drawFree(geom.Point{}, own) {
		to := seg.End()
		p := profile.CurvePoint{X: profile.MM(to.X), Y: profile.MM(to.Y)}
		if _, ok := seg.(geom.Arc); ok {
			mid := seg.At(0.5)
			p.Through = &[2]profile.Size{profile.MM(mid.X), profile.MM(mid.Y)}
		}
		out = append(out, p)
	}
	return out
}
