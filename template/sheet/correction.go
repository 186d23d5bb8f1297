package sheet

import (
	"fmt"

	"listel/profile/geom"
)

// A Correction is the measured error of a printer: how long it prints a bar, divided by how long the bar should be,
// across and up a sheet that stands on its short side. On a page that lies on its long side the two change places,
// since the paper goes through the printer the same way. 0 stands for 1, so that the zero Correction is that of a true
// printer.
type Correction struct {
	Name       string  // of the printer, for the words on the sheet
	Across, Up float64 // 0.985 when 100 mm come out as 98.5 mm; within maxPrinterError of 1
}

// maxPrinterError is the largest error that is corrected: beyond it the printer was told to fit the page, and the
// corrected page would run off the paper.
const maxPrinterError = 0.05

func or1(v float64) float64 {
	if v == 0 {
		return 1
	}
	return v
}

func (c Correction) none() bool { return or1(c.Across) == 1 && or1(c.Up) == 1 }

// Validate returns an error when a factor is further from 1 than 5 in 100.
func (c Correction) Validate() error {
	for _, v := range [2]float64{or1(c.Across), or1(c.Up)} {
		if !(v >= 1-maxPrinterError && v <= 1+maxPrinterError) {
			return fmt.Errorf("the printer's bars measure %s of their length; it must be from 0.95 to 1.05: print without fitting to the page", num(v, 4))
		}
	}
	return nil
}

// affine returns the map that makes up for the error: about the center of the page.
func (c Correction) affine(p Paper) geom.Affine {
	center := geom.Pt(p.Width/2, p.Height/2)
	across, up := c.on(p)
	return geom.Translation(center.Mul(-1)).Then(geom.Scaling(1/across, 1/up)).Then(geom.Translation(center))
}

// on returns the factors across and up a page of that paper.
func (c Correction) on(p Paper) (across, up float64) {
	if p.Width > p.Height {
		return or1(c.Up), or1(c.Across)
	}
	return or1(c.Across), or1(c.Up)
}

// margin returns how far from the paper's edges to keep, across and up, so that after the correction nothing
// comes nearer than m mm to them.
func (c Correction) margin(p Paper, m float64) (across, up float64) {
	kx, ky := c.on(p)
	room := func(side, k float64) float64 { return max(m, side/2-(side/2-m)*k) }
	return room(p.Width, kx), room(p.Height, ky)
}

// Words says what the correction does on a page of that paper, for the frame; "" when there is none.
func (c Correction) Words(p Paper) string {
	if c.none() {
		return ""
	}
	s := "Corrected for the printer"
	if c.Name != "" {
		s += " " + c.Name
	}
	across, up := c.on(p)
	return s + fmt.Sprintf(": %s across, %s up", percent(across), percent(up))
}

// percent writes the stretch that makes up for a factor.
func percent(factor float64) string {
	v := num((1/factor-1)*100, 2)
	if v[0] != '-' && v != "0" {
		v = "+" + v
	}
	return v + "%"
}
