package trace

import (
	"math"

	"listel/profile"
)

// curve makes a profile whose face is one curve through the joints of the outline, for a face that cannot be read as members.
func (c *chain) curve(w Wanted) (Composed, error) {
	face := c.bits[c.face:c.top]
	s, own := c.freeShape(face)
	ground := face[0].from.X
	hundredth := func(mm float64) profile.Size { return profile.MM(math.Round(mm*100) / 100) }
	p := profile.Profile{Name: w.Name, Title: w.Title, Units: w.Units, Ground: hundredth(ground),
		Elements: []profile.Entry{{Kind: profile.KindCurve, Points: s.curvePoints(own, hundredth)}}}
	kind, a, b, _ := c.back()
	switch kind {
	case rabbetTop, rabbetFoot:
		p.Back.Rabbet = &profile.Rabbet{At: profile.AtTop, Width: hundredth(a), Depth: hundredth(b)}
		if kind == rabbetFoot {
			p.Back.Rabbet.At = profile.AtFoot
		}
	case springBack:
		p.Back.Spring = &profile.Spring{Angle: springAngle(face[len(face)-1].to, a, b), Wall: hundredth(a)}
	}
	sec, err := p.Section(nil)
	if err != nil {
		return Composed{}, err
	}
	sizes := []Uncertain{{Key: "ground", MM: ground, Error: sure * c.sigma}, {Element: 1, Kind: profile.KindCurve, Key: "height", MM: own[0], Error: sure * c.sigma},
		{Element: 1, Kind: profile.KindCurve, Key: "projection", MM: own[1], Error: sure * c.sigma}}
	return Composed{Profile: p, Section: sec, Pieces: c.path(), Sizes: sizes,
		Notes: []string{"its members could not be told; the face is drawn as one curve through points"}}, nil
}
