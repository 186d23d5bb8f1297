package trace

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"listel/profile/geom"
)

// ErrNoMembers reports an outline that reads as no molding: no face between a foot and a top, or nothing that makes a section.
var ErrNoMembers = errors.New("no members found")

// Compose reads a traced outline as a profile: it splits it into lines and arcs, names the members, fits all their sizes together and
// rounds those to the maker's fraction that are as near to it as the outline can tell. Among the readings that come near it returns the one whose
// section, built anew by the profile, costs least: squared distances in units of the noise, and a price for each member and each
// size. What has no name becomes a curve, and so does the whole face where no reading can be built. Sizes come with what they may be
// off by. The error is ErrNoOutline, ErrNoMembers where the outline makes no section either, or that of ctx.
func Compose(ctx context.Context, d Drawn, w Wanted) (Composed, error) {
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
		if err := ctx.Err(); err != nil {
			return Composed{}, err
		}
		if r.fit(c, 25); !math.IsInf(r.cost, 1) {
			readings = append(readings, r)
		}
	}
	slices.SortStableFunc(readings, func(a, b *reading) int { return cmp.Compare(a.cost, b.cost) })
	for _, r := range readings[:min(2, len(readings))] {
		r.climb(ctx, c)
	}
	slices.SortStableFunc(readings, func(a, b *reading) int { return cmp.Compare(a.cost, b.cost) })
	if err := ctx.Err(); err != nil {
		return Composed{}, err
	}
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
	if out, err := c.curve(w); err == nil {
		return out, nil
	}
	if fault == nil {
		fault = errors.New("no row of members leads from its foot to its top")
	}
	return Composed{}, fmt.Errorf("%w: %w", ErrNoMembers, fault)
}

// compose makes the profile of a fitted reading and builds its section.
func (c *chain) compose(r *reading, w Wanted) (Composed, error) {
	out := Composed{Pieces: c.path()}
	exact := r.copied()
	exact.fit(c, 20)
	s := exact.snap(c, w)
	var fault error
	for _, p := range s.profiles(c, w) {
		sec, err := p.profile.Section(nil)
		if err == nil {
			out.Profile, out.Section, out.Sizes, out.Notes = p.profile, sec, p.sizes, append(p.notes, c.notes(exact)...)
			return out, nil
		}
		if fault == nil {
			fault = err
		}
	}
	return out, fault
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
