package measure_test

import (
	"fmt"

	"listel/profile/geom"
	"listel/profile/measure"
)

func ExampleParseLength() {
	for _, text := range []string{`1 1/8 in`, `1-1/8"`, `2' 3-1/2"`, `⅜"`, `1.9 cm`, `5/8`} {
		mm, err := measure.ParseLength(text, measure.Inches)
		fmt.Println(text, "is", mm, "mm", err)
	}
	_, err := measure.ParseLength("3/0 in", measure.Inches)
	fmt.Println(err)
	// Output:
	// 1 1/8 in is 28.575 mm <nil>
	// 1-1/8" is 28.575 mm <nil>
	// 2' 3-1/2" is 698.5 mm <nil>
	// ⅜" is 9.525 mm <nil>
	// 1.9 cm is 19 mm <nil>
	// 5/8 is 15.875 mm <nil>
	// "3/0 in" is not a length: the denominator is 0; write it like 3/4 in, 1 1/8", 2ft 3 1/2in, 19mm or 1.9 cm
}

// A molding 1 3/4 in high is divided into 14 parts.
func ExampleParseSize() {
	q, err := measure.ParseSize("2 1/2p", measure.Inches)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(q.IsParts(), q.Parts(), q.Parts()*44.45/14, "mm")
	third, _ := measure.ParseSize("1/3 in", measure.Inches)
	fmt.Println("1/3 in is exactly", third.Rat(), "mm")
	// Output:
	// true 2.5 7.9375 mm
	// 1/3 in is exactly 127/15 mm
}

func ExampleFormat_Length() {
	in := measure.Format{Units: measure.Inches}
	fmt.Println(in.Length(44.45))
	fmt.Println(in.Length(44.6)) // a little more
	fmt.Println(in.Length(44.3)) // a little less
	fmt.Println(measure.Format{Units: measure.Inches, Fraction: 16}.Length(28.2))
	fmt.Println(measure.Format{Units: measure.Inches, Feet: true}.Length(698.5))
	fmt.Println(measure.Format{}.Length(44.6))
	// Output:
	// 1 3/4 in
	// 1 3/4+ in
	// 1 3/4- in
	// 1 1/8- in
	// 2 ft 3 1/2 in
	// 44.6 mm
}

func ExampleFormat_Drawing() {
	in := measure.Format{Units: measure.Inches, Feet: true}
	fmt.Println(in.Drawing(44.45), in.Drawing(36.5125), in.Drawing(698.65), measure.Format{}.Drawing(44.6))
	// Output: 1¾″ 1 7⁄16″ 2′ 3½″+ 44.6 mm
}

func ExampleFormat_Set() {
	fmt.Println(measure.Format{Units: measure.Inches}.Set(9.4))
	fmt.Println(measure.Format{}.Set(9.4))
	// Output:
	// 3/8- in (0.370)
	// 9.40 mm
}

func ExampleFormat_Entry() {
	in := measure.Format{Units: measure.Inches}
	fmt.Println(in.Entry(44.45), in.Entry(44.6), measure.Format{}.Entry(44.6))
	// Output: 1 3/4 1.75590551 44.6
}

func ExampleParseAngle() {
	for _, text := range []string{"38deg", "38° 30'", "1 in 12"} {
		a, err := measure.ParseAngle(text)
		fmt.Println(text, "is", measure.Format{}.Angle(a), err)
	}
	fmt.Println(measure.Format{}.AngleEntry(22.5 * geom.Degree))
	// Output:
	// 38deg is 38.0° <nil>
	// 38° 30' is 38.5° <nil>
	// 1 in 12 is 4.76° <nil>
	// 22.5deg
}

func ExampleParseTemperature() {
	c, err := measure.ParseTemperature("212 °F")
	fmt.Println(c, err)
	_, err = measure.ParseTemperature("70")
	fmt.Println(err)
	// Output:
	// 100 <nil>
	// "70" is not a temperature: it does not say Fahrenheit or Celsius; write it like 70F or 21C
}

func ExampleParsePercent() {
	p, err := measure.ParsePercent("12 1/2%")
	fmt.Println(p, err)
	// Output: 12.5 <nil>
}

func ExampleParseNumber() {
	r, err := measure.ParseNumber("1 1/4")
	fmt.Println(r, err)
	// Output: 5/4 <nil>
}
