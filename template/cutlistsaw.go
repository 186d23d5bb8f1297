package template

import (
	"fmt"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes of the strip that shows one setting of the saw.
const (
	angleSize = 24.0  // points, of its two angles
	sawHigh   = 58.0  // mm, of its pictures with the words over them
	narrowSaw = 165.0 // mm, the width of paper under which it takes two rows
)

// strip draws a setting across the sheet: its number and the ends that it cuts, the two angles large, and the saw from above, from the
// front and from the operator's left. flat is how a sprung molding lies on its back. The top left corner is at the origin.
func (s *sawSetting) strip(st Style, width float64, flat bool) sheet.Drawing {
	saw, keeps := s.standing, s.keeps[0]
	if flat {
		saw, keeps = *s.flat, s.keeps[1]
	}
	const gap, top = 5.0, 7.0 // between the pictures, and under their headings
	words, above, front := width*0.25, width*0.28, width*0.17
	narrow := width < narrowSaw
	if narrow { // two rows
		words, above, front = width*0.45, width*0.55-gap, width*0.45
	}
	left := width - words - above - front - 3*gap
	if narrow {
		left = width - front - gap
	}
	d := s.numbers(st, saw, keeps, s.name(flat), words)
	corner := geom.Pt(words+gap, 0)
	place := func(heading string, w float64, origin geom.Point, picture sheet.Drawing) {
		d = d.Add(sheet.Text{At: corner.Add(geom.Pt(w/2, 0)), S: heading, Size: nameSize, Anchor: sheet.Top})
		d = d.Place(picture, geom.Translation(corner.Add(origin)))
		corner.X += w + gap
	}
	place("from above", above, geom.Pt(above/2, -top-sawFence-5), sawFromAbove(saw, keeps, s.beyond(), above, sawHigh-sawFence-5))
	if narrow {
		corner = geom.Pt(0, min(d.Bounds().Min.Y, -sawHigh)-gap)
	}
	place("from the front", front, geom.Pt(front/2, -sawHigh), sawFromFront(saw, keeps, front, sawHigh-2))
	place("from your left", left, geom.Pt(sawFence+1, -sawHigh), sawFromLeft(saw, s.section, left-1, sawHigh-top))
	return d
}

// numbers returns the words and figures of a setting.
func (s *sawSetting) numbers(st Style, saw miter.Saw, keeps sidesKept, name string, width float64) sheet.Drawing {
	wide := settingWide(name)
	d := settingMark(geom.Pt(wide/2+0.3, -settingBox/2), name)
	d = d.Add(sheet.Text{At: geom.Pt(wide+4, -settingBox/2), S: s.kindWords(), Size: lengthSize, Weight: sheet.Bold, Anchor: sheet.Left})
	y := -settingBox - 5.5
	angles := st.Lengths.Angles(saw.Miter, saw.Bevel)
	for i, a := range []struct {
		name string
		side miter.Hand
		verb string
		none string
	}{{"miter", saw.Swing, "arm to the\n", "arm\nsquare"}, {"bevel", saw.Tilt, "top to the\n", "blade\nupright"}} {
		d = d.Add(sheet.Text{At: geom.Pt(0, y), S: a.name, Size: nameSize, Anchor: sheet.TopLeft})
		big := sheet.Text{At: geom.Pt(0, y-4.6), S: angles[i], Size: angleSize, Weight: sheet.Bold, Anchor: sheet.TopLeft}
		d = d.Add(big)
		side := a.none
		if a.side != miter.NoHand {
			side = a.verb + string(a.side)
		}
		for i, line := range strings.Split(side, "\n") {
			t := sheet.Text{At: geom.Pt(big.Width()+3, y-4.6-float64(i)*sheet.LineHeight(figureSize)), S: line, Size: figureSize, Anchor: sheet.TopLeft}
			if i == 1 {
				t.Weight = sheet.Bold
			}
			d = d.Add(t)
		}
		y -= 16
	}
	lines := append([]string{lies(saw)}, s.ends()...)
	if s.as > 0 {
		lines = append(lines, fmt.Sprintf("Angles as at %d.", s.as))
	}
	for _, line := range append(lines, keeps.words(), nestWords(st, saw, s.section), s.after(), warning(saw)) {
		if line == "" {
			continue
		}
		words, h := sheet.Paragraph{Text: line, Width: width, Size: nameSize}.Set(geom.Pt(0, y))
		d = d.Add(words...)
		y -= h + 0.8
	}
	return d
}
