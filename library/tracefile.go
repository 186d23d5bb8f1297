package library

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// A TracePlate is what a trace file says: the picture, and what is known and wanted of it.
type TracePlate struct {
	trace.Plate
	Title string
	From  string        // where the picture is from, in words, "" when the file does not say
	Image string        // path of the picture; a relative one in the file is seen from the file's folder
	Units measure.Units // of the file
}

// The most scales, sections and points that one trace file may hold.
const (
	maxScales = 50
	maxTraced = 100
	maxClicks = 500
	maxPixel  = 1e6 // px, the greatest coordinate that is read
)

// ReadTrace reads the trace file at path. The error is Mistakes, or why the file cannot be read.
func ReadTrace(path string) (TracePlate, *Source, error) {
	data, err := ReadFile(path)
	if err != nil {
		return TracePlate{}, nil, err
	}
	return LoadTrace(path, data)
}

// LoadTrace reads a trace file: a picture, its scales, and the sections to trace in it. file names the data in messages, its
// folder is where the picture's path starts, and its name stands for one that the file does not give. The picture itself is not looked at. The
// error is Mistakes: all that is wrong, at once; the plate then holds what could be read, whose own faults Mistakes.Beside tells with them.
func LoadTrace(file string, data []byte) (TracePlate, *Source, error) {
	v, err := open(file, data, "trace")
	if err != nil {
		return TracePlate{}, nil, err
	}
	p := TracePlate{Units: v.d.units}
	p.Name = baseName(file)
	v.mapping("trace",
		optional("kind", ignore),
		optional("name", name(&p.Name)),
		optional("title", text(&p.Title)),
		optional("source", text(&p.From)),
		optional("units", ignore),
		required("image", "plate.png", imagePath(&p.Image, file)),
		required("scales", "a list, as in - {name: detail, from: [120, 340], to: [720, 340], length: 4}", scales(&p.Plate)),
		required("sections", "a list, as in - {name: my-cornice, scale: detail, crop: [400, 200, 900, 800]}", sections(&p.Plate, v.d)))
	return p, v.d.source, v.d.err()
}

// imagePath reads the path of a picture, seen from the folder of the file that names it.
func imagePath(dst *string, file string) func(value) {
	return func(v value) {
		s, ok := v.scalar("the name of a picture is needed")
		switch {
		case !ok:
		case strings.TrimSpace(s) == "":
			v.fault("image is blank", "the name of a PNG, JPEG, TIFF or GIF file is needed")
		case filepath.IsAbs(s):
			*dst = s
		default:
			*dst = filepath.Join(filepath.Dir(file), filepath.FromSlash(s))
		}
	}
}

// scales reads the scales of a plate. A scale of a single length may hold it without a list.
func scales(p *trace.Plate) func(value) {
	return func(v value) {
		n := v.list(maxScales, func(i int) string { return ordinal("scale", i) }, func(i int, item value) {
			s := trace.Scale{Name: fmt.Sprint(i + 1)}
			scale(item, &s)
			if slices.ContainsFunc(p.Scales, func(o trace.Scale) bool { return o.Name == s.Name }) {
				item.fault("two scales are named "+quoted(s.Name), "give each a name of its own")
			}
			put(&p.Scales, i, s)
		})
		if n == 0 {
			v.fault("scales is an empty list", v.d.example("give at least one, as in - {from: [120, 340], to: [720, 340], length: 4}"))
		}
	}
}

func scale(v value, s *trace.Scale) {
	var single trace.Length
	before := len(v.d.mistakes)
	ok := v.mapping("scale",
		optional("name", name(&s.Name)),
		optional("from", pixel(&single.From)),
		optional("to", pixel(&single.To)),
		optional("length", length(&single.MM, positive)),
		optional("lengths", lengths(&s.Lengths)),
		optional("bar", bar(&s.Bar)),
		optional("points", fixedPoints(&s.Points)),
		optional("level", levelLine(&s.Level)),
		optional("plumb", levelLine(&s.Plumb)))
	if !ok || len(v.d.mistakes) > before {
		return // what is misspelled is not missing as well
	}
	given := 0
	for _, key := range []string{"from", "to", "length"} {
		if v.child(key) != nil {
			given++
		}
	}
	if given == 3 {
		s.Lengths = append([]trace.Length{single}, s.Lengths...)
		return
	}
	for _, key := range []string{"from", "to", "length"} {
		if given > 0 && v.child(key) == nil {
			v.d.add(v.at, join(v.path, key), key+" is missing in "+v.name, v.d.example("a scale of one length is {from: [120, 340], to: [720, 340], length: 4}"))
		}
	}
	if given == 0 && v.child("lengths") == nil && v.child("bar") == nil && v.child("points") == nil {
		v.fault(v.name+" measures nothing", v.d.example("write {from: [120, 340], to: [720, 340], length: 4}, or give lengths, a bar or points"))
	}
}

// lengths reads several lengths of one scale.
func lengths(dst *[]trace.Length) func(value) {
	return func(v value) {
		n := v.list(maxClicks, func(i int) string { return ordinal("length", i) }, func(_ int, item value) {
			var l trace.Length
			item.mapping("length",
				required("from", "[120, 340]", pixel(&l.From)),
				required("to", "[720, 340]", pixel(&l.To)),
				required("length", "4", length(&l.MM, positive)))
			*dst = append(*dst, l)
		})
		if n == 0 {
			v.fault("lengths is an empty list", v.d.example("give at least one, as in - {from: [120, 340], to: [720, 340], length: 4}"))
		}
	}
}

func bar(dst **trace.Bar) func(value) {
	return func(v value) {
		b := &trace.Bar{}
		*dst = b
		const most = 200
		v.mapping("bar",
			required("from", "[120, 340]", pixel(&b.From)),
			required("to", "[720, 340]", pixel(&b.To)),
			required("length", "4", length(&b.MM, positive)),
			optional("divisions", whole(&b.Divisions, 1, most)))
	}
}

// fixedPoints reads points of the picture with their true places.
func fixedPoints(dst *[]trace.Fixed) func(value) {
	return func(v value) {
		n := v.list(maxClicks, func(i int) string { return ordinal("point", i) }, func(_ int, item value) {
			var f trace.Fixed
			item.mapping("point",
				required("pixel", "[120, 340]", pixel(&f.Pixel)),
				required("true", "[0, 2 1/2]", xy(func(q geom.Point) { f.True = q })))
			*dst = append(*dst, f)
		})
		if n == 0 {
			v.fault("points is an empty list", v.d.example("give three or more, as in - {pixel: [120, 340], true: [0, 2 1/2]}"))
		}
	}
}

func levelLine(dst **trace.Line) func(value) {
	return func(v value) {
		l := &trace.Line{}
		*dst = l
		v.mapping("line",
			required("from", "[120, 340]", pixel(&l.From)),
			required("to", "[720, 340]", pixel(&l.To)))
	}
}

// pixel reads a point of the picture: x to the right and y down, in pixels.
func pixel(dst *geom.Point) func(value) {
	return func(v value) {
		var xy [2]float64
		if v.numbers(xy[:], "two numbers of pixels, from the left and from the top, as in [120, 340]") {
			*dst = geom.Pt(xy[0], xy[1])
		}
	}
}

// numbers reads a list of so many numbers of pixels.
func (v value) numbers(dst []float64, want string) bool {
	if v.node.Kind != yaml.SequenceNode || len(v.node.Content) != len(dst) {
		v.wrong(want)
		return false
	}
	before := len(v.d.mistakes)
	label := v.name
	v.list(len(dst), func(i int) string { return ordinal("number", i) + " of " + label }, func(i int, item value) {
		number(&dst[i], 0, maxPixel)(item)
	})
	return len(v.d.mistakes) == before
}
