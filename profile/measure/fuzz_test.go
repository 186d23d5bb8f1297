package measure_test

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"listel/profile/geom"
	"listel/profile/measure"
)

// sow adds texts that lead a reader into its corners.
func sow(f *testing.F) {
	for _, text := range []string{
		"", "3/4in", `3/4"`, "1 1/8 in", `1-1/8"`, "⅜", "1⅜″", "0.875in", "19mm", "1.9 cm", "2ft 3 1/2in", `2' 3-1/2"`, "2 1/2p", "20m", "-1/3", "\u22121",
		"⅟16", "1/0", "NaN", "Inf", "1e9", "38deg", "38° 30' 15\"", "1 in 12", "1:12", "70F", "21 °C", "70℉", "15%", "12 1/2 per cent", "1,5", "1 3/4+ in", "''", "\xff", "1 -1", "--1", "1'-", "½½",
	} {
		f.Add(text)
	}
}

// refused checks that an error quotes what was read.
func refused(t *testing.T, text string, err error) {
	t.Helper()
	if !strings.Contains(err.Error(), " is not a") || !utf8.ValidString(err.Error()) || utf8.RuneCountInString(text) <= 40 && !strings.Contains(err.Error(), strings.Trim(strconv.Quote(text), `"`)) && !strings.Contains(err.Error(), "`"+text+"`") {
		t.Fatalf("the error does not quote %q: %s", text, err)
	}
}

func FuzzParseSize(f *testing.F) {
	sow(f)
	f.Fuzz(func(t *testing.T, text string) {
		for _, bare := range []measure.Units{measure.Millimeters, measure.Inches} {
			q, err := measure.ParseSize(text, bare)
			mm, lengthErr := measure.ParseLength(text, bare)
			if err != nil {
				refused(t, text, err)
				if lengthErr == nil {
					t.Fatalf("%q is a length but no size", text)
				}
				continue
			}
			if q.IsParts() != (lengthErr != nil) || lengthErr == nil && mm != q.MM() {
				t.Fatalf("%q: size %s, length %v, %v", text, q.Rat(), mm, lengthErr)
			}
			if size, _ := q.Rat().Float64(); !(math.Abs(size) <= measure.Limit) {
				t.Fatalf("%q is beyond the limit: %s", text, q.Rat())
			}
			if mixed, err := measure.ParseNumber(measure.Mixed(q.Rat())); err == nil && mixed.Cmp(q.Rat()) != 0 {
				t.Fatalf("%q: %s is mixed as %s", text, q.Rat(), measure.Mixed(q.Rat()))
			}
		}
	})
}

func FuzzParseAngle(f *testing.F) {
	sow(f)
	f.Fuzz(func(t *testing.T, text string) {
		a, err := measure.ParseAngle(text)
		if err != nil {
			refused(t, text, err)
			return
		}
		if !(a.Abs() <= 360*geom.Degree) {
			t.Fatalf("%q is beyond a turn: %v", text, a)
		}
		again, err := measure.ParseAngle(measure.Format{}.AngleEntry(a))
		if err != nil || !a.Near(again, 1e-6*geom.Degree) {
			t.Fatalf("%q is %v, entered as %s, read as %v, %v", text, a, measure.Format{}.AngleEntry(a), again, err)
		}
	})
}

func FuzzParseTemperature(f *testing.F) {
	sow(f)
	f.Fuzz(func(t *testing.T, text string) {
		c, err := measure.ParseTemperature(text)
		if err != nil {
			refused(t, text, err)
			return
		}
		for _, back := range []string{strconv.FormatFloat(c, 'f', 9, 64) + "C", strconv.FormatFloat(c*9/5+32, 'f', 9, 64) + "F"} {
			again, err := measure.ParseTemperature(back)
			if err != nil || math.Abs(c-again) > 2e-9 {
				t.Fatalf("%q is %v, printed %s, read as %v, %v", text, c, back, again, err)
			}
		}
	})
}

func FuzzParsePercent(f *testing.F) {
	sow(f)
	f.Fuzz(func(t *testing.T, text string) {
		p, err := measure.ParsePercent(text)
		if err != nil {
			refused(t, text, err)
			return
		}
		again, err := measure.ParsePercent(strconv.FormatFloat(p, 'f', 12, 64) + "%")
		if err != nil || !(p >= 0 && p <= 1000) || math.Abs(p-again) > 1e-12 {
			t.Fatalf("%q is %v, read again %v, %v", text, p, again, err)
		}
	})
}

func FuzzParseNumber(f *testing.F) {
	sow(f)
	f.Fuzz(func(t *testing.T, text string) {
		r, err := measure.ParseNumber(text)
		if err != nil {
			refused(t, text, err)
			return
		}
		if places, exact := r.FloatPrec(); exact && places <= 24 && r.Num().BitLen() < 40 {
			again, err := measure.ParseNumber(r.FloatString(places))
			if err != nil || again.Cmp(r) != 0 {
				t.Fatalf("%q is %s, read again %s, %v", text, r, again, err)
			}
		}
	})
}

func FuzzParseUnits(f *testing.F) {
	sow(f)
	f.Add("inches")
	f.Fuzz(func(t *testing.T, text string) {
		u, err := measure.ParseUnits(text)
		if err != nil {
			refused(t, text, err)
		} else if again, err := measure.ParseUnits(u.String()); err != nil || again != u {
			t.Fatalf("%q is %s, read again %s, %v", text, u, again, err)
		}
	})
}

func FuzzFormat(f *testing.F) {
	f.Add(44.45, 64, true)
	f.Add(-0.01, 0, false)
	f.Add(math.NaN(), 3, false)
	f.Add(math.Inf(-1), -1, true)
	f.Add(1e308, 1000, true)
	f.Fuzz(func(t *testing.T, mm float64, fraction int, feet bool) {
		for _, u := range []measure.Units{measure.Millimeters, measure.Inches} {
			f := measure.Format{Units: u, Fraction: fraction, Feet: feet}
			for _, text := range []string{f.Length(mm), f.Bare(mm), f.Drawing(mm), f.Set(mm), f.SetDrawing(mm), f.Entry(mm), f.Angle(geom.Angle(mm)), f.Temperature(mm)} {
				if strings.HasPrefix(text, "-") && strings.Trim(text, "-0. mind(eg)°FC") == "" || strings.ContainsAny(text, "NIe+") && strings.Contains(text, "Inf") {
					t.Fatalf("%v prints as %q", mm, text)
				}
			}
			plain, _ := unmarked(f.Length(mm))
			if back, err := measure.ParseLength(plain, u); math.Abs(mm) < measure.Limit-13 && (err != nil || math.Abs(back-mm) > 12.7+1e-6) {
				t.Fatalf("%v prints as %q, read as %v, %v", mm, plain, back, err)
			}
		}
	})
}
