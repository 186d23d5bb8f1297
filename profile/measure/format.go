package measure

import (
	"math"
	"strconv"
	"strings"

	"listel/profile/geom"
)

// A Format says how lengths and angles are printed. The zero value prints millimeters; Format{Units: Inches}
// prints inches to the nearest 1/64.
type Format struct {
	Units    Units
	Fraction int  // the finest fraction of an inch: 1/Fraction, 2 to 64; 0 is 64
	Feet     bool // 12 in and over as feet and inches
}

// finest is the fraction of an inch that is printed when none is asked for.
const finest = 64

// Validate returns a *ValueError when Fraction is neither 0 nor 2 to 64.
func (f Format) Validate() error {
	if f.Fraction == 0 || f.Fraction >= 2 && f.Fraction <= finest {
		return nil
	}
	return &ValueError{What: "fraction of an inch", Text: strconv.Itoa(f.Fraction),
		Reason: "the finest fraction printed is one of 1/2 to 1/64", Want: "16, 32 or 64"}
}

// Length returns mm as text with its unit: 44.5 mm, or 1 3/4 in, or with Feet 2 ft 3 1/2 in. In inches a + or -
// behind the number says that the true length is more or less than printed by over 1/256 in: 1 3/4+ in. A length
// below 0 begins with -, and its mark speaks of the size without that sign. A NaN or infinity prints ? for the
// number.
func (f Format) Length(mm float64) string {
	if f.Units != Inches {
		return fixed(mm, 1) + " mm"
	}
	r := f.round(mm)
	if f.Feet && r.feet() != 0 {
		in := r.lessFeet()
		return r.sign() + strconv.FormatInt(r.feet(), 10) + " ft " + in.ascii() + in.mark() + " in"
	}
	return f.Bare(mm) + " in"
}

// Bare returns mm as Length does, without the unit and never in feet, for a column whose head names the unit.
func (f Format) Bare(mm float64) string {
	if f.Units != Inches {
		return fixed(mm, 1)
	}
	r := f.round(mm)
	return r.sign() + r.ascii() + r.mark()
}

// Drawing returns mm as Length does, in the characters of a drawing: 1¾″, 2 7⁄16″, 2′ 3½″, 1¾″+. Eighths and
// coarser are single characters, other fractions are set with the fraction slash U+2044; these and the primes are
// in the Go fonts, where thirds, sixths and the thin space are not. A minus sign is U+2212.
func (f Format) Drawing(mm float64) string {
	if f.Units != Inches {
		return strings.Replace(fixed(mm, 1), "-", minus, 1) + " mm"
	}
	r := f.round(mm)
	sign := strings.Replace(r.sign(), "-", minus, 1)
	mark := strings.Replace(r.mark(), "-", minus, 1)
	if f.Feet && r.feet() != 0 {
		return sign + strconv.FormatInt(r.feet(), 10) + "′ " + r.lessFeet().drawn() + "″" + mark
	}
	return sign + r.drawn() + "″" + mark
}

const minus = "\u2212"

// Set returns mm as a tool is set to it: 44.45 mm, or as fraction and decimal 1 3/4 in (1.750).
func (f Format) Set(mm float64) string {
	if f.Units != Inches {
		return fixed(mm, 2) + " mm"
	}
	return f.Bare(mm) + " in (" + fixed(mm/MMPerInch, 3) + ")"
}

// SetDrawing returns mm as Set does, in the characters of a drawing: 44.45 mm, or 1¾″ (1.750).
func (f Format) SetDrawing(mm float64) string {
	if f.Units != Inches {
		return strings.Replace(fixed(mm, 2), "-", minus, 1) + " mm"
	}
	f.Feet = false
	return f.Drawing(mm) + " (" + strings.Replace(fixed(mm/MMPerInch, 3), "-", minus, 1) + ")"
}

// Entry returns mm as it may be entered in a file that is in f.Units: without a unit, without a mark, and within
// 0.000001 mm of the true length: 44.45, or 1 3/4, or 1.7654321 when no 1/64 in is that near.
func (f Format) Entry(mm float64) string {
	const within = 1e-6
	if f.Units != Inches {
		return trimmed(mm, 6)
	}
	f.Fraction = finest
	if r := f.round(mm); math.Abs(f.Shown(mm)-mm) <= within {
		return r.sign() + r.ascii()
	}
	return trimmed(mm/MMPerInch, 8)
}

// Shown returns the length in millimeters that Length prints for mm, its mark left out of account; NaN for a NaN
// or infinity.
func (f Format) Shown(mm float64) float64 {
	if f.Units != Inches {
		return roundTo(mm, 1)
	}
	r := f.round(mm)
	if r.bad {
		return math.NaN()
	}
	shown := float64(r.num*254) / float64(r.den*10) // divided last, so that 1 3/4 in is 44.45 to the last bit
	if r.negative {
		return -shown
	}
	return shown
}

// NoLess returns the least length in millimeters that is printed without a mark and is not less than mm, dust aside: what a rough length is printed by.
func (f Format) NoLess(mm float64) float64 {
	const dust = 0.002 // mm
	shown := f.Shown(mm)
	if !(shown < mm-dust) {
		return shown
	}
	step := 0.1
	if f.Units == Inches {
		step = MMPerInch / float64(f.round(mm).den)
	}
	return f.Shown(shown + step)
}

// angleShown is how far an angle may be off its tenths, in degrees, before hundredths are shown: at 0.02 degrees a miter 50 mm long opens
// by less than 0.02 mm.
const angleShown = 0.02

// Angle returns a in degrees to a tenth, or to a hundredth where it is off that by more than 0.02: 31.6°, 45.25°.
func (f Format) Angle(a geom.Angle) string {
	return f.Angles(a)[0]
}

// Angles returns angles that stand beside one another as Angle does, all to hundredths where one of them needs these: 45.25°, 0.00°.
func (f Format) Angles(angles ...geom.Angle) []string {
	places := 1
	for _, a := range angles {
		if d := a.Degrees(); math.Abs(d-roundTo(d, 1)) > angleShown+1e-9 {
			places = 2
		}
	}
	out := make([]string, len(angles))
	for i, a := range angles {
		out[i] = fixed(a.Degrees(), places) + "°"
	}
	return out
}

// AngleEntry returns a as it may be entered in a file, within a millionth of a degree: 38deg, 31.633deg.
func (f Format) AngleEntry(a geom.Angle) string { return trimmed(a.Degrees(), 6) + "deg" }

// Temperature returns celsius in whole degrees: 70°F with inches, 21°C with millimeters.
func (f Format) Temperature(celsius float64) string {
	if f.Units == Inches {
		return fixed(celsius*9/5+32, 0) + "°F"
	}
	return fixed(celsius, 0) + "°C"
}

// fixed returns x with so many decimals, halves away from 0, without -0; ? for a NaN or infinity.
func fixed(x float64, places int) string {
	if x = roundTo(x, places); math.IsNaN(x) {
		return "?"
	}
	return strconv.FormatFloat(x, 'f', places, 64)
}

// roundTo returns x to so many decimals, halves away from 0, without -0; NaN for a NaN or infinity.
func roundTo(x float64, places int) float64 {
	scale := math.Pow10(places)
	n := math.Round(math.Abs(x)*scale + nudge)
	switch {
	case math.IsInf(x, 0):
		return math.NaN()
	case math.IsInf(n, 0): // so great that it has no decimals
		return x
	case x < 0:
		return 0 - n/scale
	}
	return n / scale
}

// trimmed is fixed without needless zeros.
func trimmed(x float64, places int) string {
	s := fixed(x, places)
	if strings.Contains(s, ".") {
		s = strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
	}
	return s
}
