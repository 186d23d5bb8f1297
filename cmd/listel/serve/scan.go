package serve

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// A scanRequest is a picture, what is known of it, and the section that is wanted. Places are pixels, from the left and from the top.
type scanRequest struct {
	pictureRequest
	Units    string      `json:"units"`    // of bare lengths, of the profile and of the answer; "" for inches
	Fraction int         `json:"fraction"` // sizes to the nearest; 0 leaves it to the tracer
	Scales   []scanScale `json:"scales"`
	Section  scanSection `json:"section"`
}

// A scanScale is what is known of one scale.
type scanScale struct {
	Name    string       `json:"name"`
	Lengths []scanLength `json:"lengths"`
	Points  []scanPoint  `json:"points"`
}

// A scanLength is two points and the true length between them.
type scanLength struct {
	From [2]float64 `json:"from"`
	To   [2]float64 `json:"to"`
	Text string     `json:"text"`
	Bar  bool       `json:"bar"` // a printed scale bar: its ends are found in the ink
}

// A scanPoint is a point and its true place, x to the right and y up.
type scanPoint struct {
	At [2]float64 `json:"at"`
	X  string     `json:"x"`
	Y  string     `json:"y"`
}

type scanSection struct {
	Name      string       `json:"name"`
	Title     string       `json:"title"`
	Scale     int          `json:"scale"` // index of its scale
	Face      string       `json:"face"`  // right or left; "" for right
	Drawn     string       `json:"drawn"` // any, outlined or filled; "" for any
	Crop      *[4]int      `json:"crop"`  // left, top, right, bottom; nil for all
	Tolerance string       `json:"tolerance"`
	Parts     bool         `json:"parts"`  // sizes in parts of the height, where they come out whole or half ones
	Back      *[2]float64  `json:"back"`   // a place of the back, where the drawing is left open or broken off there; nil where the ink shows it
	Points    [][2]float64 `json:"points"` // its corners in order, in place of its ink; nil for none
}

// A scanFault is what is wrong with a scan, and where.
type scanFault struct {
	Scale int      `json:"scale"` // index, -1 for none
	Row   int      `json:"row"`   // index of the length or point in it, lengths first; -1 for none
	Key   string   `json:"key"`   // of the section: name, crop, tolerance, ...
	Text  string   `json:"text"`
	Boxes [][4]int `json:"boxes"` // sections that the crop holds, when it holds several: left, top, right, bottom
}

// scanFaults are all that is wrong with a request.
type scanFaults []scanFault

// Error returns the faults, a line each.
func (f scanFaults) Error() string {
	var out []string
	for _, x := range f {
		out = append(out, x.Text)
	}
	return strings.Join(out, "\n")
}

func (f *scanFaults) add(scale, row int, key string, err error) {
	*f = append(*f, scanFault{Scale: scale, Row: row, Key: key, Text: err.Error(), Boxes: [][4]int{}})
}

// The most that a request may say of a picture.
const (
	maxScanScales = 50
	maxScanPoints = 500
)

// plate returns the request as the tracer takes it. The error is scanFaults.
func (q scanRequest) plate() (trace.Plate, error) {
	units := measure.Inches
	var faults scanFaults
	if q.Units != "" {
		u, err := measure.ParseUnits(q.Units)
		if err != nil {
			return trace.Plate{}, refused(http.StatusBadRequest, "units: %s", err)
		}
		units = u
	}
	if len(q.Scales) > maxScanScales || len(q.Section.Points) > maxScanPoints {
		return trace.Plate{}, refused(http.StatusBadRequest, "a picture has at most %d scales, and a section %d points", maxScanScales, maxScanPoints)
	}
	p := trace.Plate{Name: stemOf(q.Name)}
	for i, s := range q.Scales {
		p.Scales = append(p.Scales, s.scale(i, units, &faults))
	}
	p.Sections = []trace.Wanted{q.wanted(p.Scales, units, &faults)}
	if len(faults) > 0 {
		return p, faults
	}
	return p, nil
}

// scale reads scale i.
func (s scanScale) scale(i int, units measure.Units, faults *scanFaults) trace.Scale {
	out := trace.Scale{Name: s.Name}
	if out.Name == "" {
		out.Name = fmt.Sprint(i + 1)
	}
	for row, l := range s.Lengths {
		mm, err := measure.ParsePositive(l.Text, units)
		switch {
		case strings.TrimSpace(l.Text) == "":
			faults.add(i, row, "", errors.New("how long is it in truth?"))
		case err != nil:
			faults.add(i, row, "", err)
		case !l.Bar:
			out.Lengths = append(out.Lengths, trace.Length{From: pixelAt(l.From), To: pixelAt(l.To), MM: mm})
		case out.Bar != nil:
			faults.add(i, row, "", errors.New("a scale has one printed bar; measure others as lengths"))
		default:
			out.Bar = &trace.Bar{From: pixelAt(l.From), To: pixelAt(l.To), MM: mm}
		}
	}
	for k, p := range s.Points {
		if strings.TrimSpace(p.X) == "" || strings.TrimSpace(p.Y) == "" {
			faults.add(i, len(s.Lengths)+k, "", errors.New("where is it in truth, to the right and up?"))
			continue
		}
		x, errX := measure.ParseLength(p.X, units)
		y, errY := measure.ParseLength(p.Y, units)
		if err := errors.Join(errX, errY); err != nil {
			faults.add(i, len(s.Lengths)+k, "", fmt.Errorf("its true place: %s", strings.ReplaceAll(err.Error(), "\n", "; ")))
			continue
		}
		out.Points = append(out.Points, trace.Fixed{Pixel: pixelAt(p.At), True: geom.Pt(x, y)})
	}
	return out
}

func pixelAt(p [2]float64) geom.Point { return geom.Pt(p[0], p[1]) }

// wanted reads the section.
func (q scanRequest) wanted(scales []trace.Scale, units measure.Units, faults *scanFaults) trace.Wanted {
	s := q.Section
	w := trace.Wanted{Name: s.Name, Title: s.Title, Units: units, Fraction: q.Fraction, Parts: s.Parts}
	if units == measure.Millimeters {
		w.Fraction = 0
	}
	if strings.TrimSpace(s.Name) == "" || strings.ContainsAny(s.Name, `/\:"`) || strings.HasPrefix(s.Name, ".") {
		faults.add(-1, -1, "name", errors.New("a name of letters, digits and hyphens is needed"))
	}
	if s.Scale >= 0 && s.Scale < len(scales) {
		w.Scale = scales[s.Scale].Name
	}
	var ok bool
	if w.Face, ok = map[string]trace.Side{"": trace.FaceRight, "right": trace.FaceRight, "left": trace.FaceLeft}[s.Face]; !ok {
		faults.add(-1, -1, "face", errors.New("the face is on the right or the left"))
	}
	if w.Ink, ok = map[string]trace.Ink{"": trace.AnyInk, "any": trace.AnyInk, "outlined": trace.Outlined, "filled": trace.Filled}[s.Drawn]; !ok {
		faults.add(-1, -1, "drawn", errors.New("a section is drawn outlined or filled, or any"))
	}
	if s.Crop != nil {
		c := *s.Crop
		w.Crop = image.Rectangle{Min: image.Pt(c[0], c[1]), Max: image.Pt(c[2], c[3])}
	}
	if s.Back != nil {
		at := pixelAt(*s.Back)
		w.Back = &at
	}
	if strings.TrimSpace(s.Tolerance) != "" {
		var err error
		if w.Tolerance, err = measure.ParsePositive(s.Tolerance, units); err != nil {
			faults.add(-1, -1, "tolerance", err)
		}
	}
	for _, p := range s.Points {
		w.Points = append(w.Points, pixelAt(p))
	}
	return w
}

// stemOf returns the name of a picture without its folder and ending.
func stemOf(name string) string {
	name = path.Base("/" + name)
	return strings.TrimSuffix(name, path.Ext(name))
}

// postTrace streams how far the tracing has come, then the profile. Faults come as a line of their own. A page that leaves the stream stops
// the tracing.
func (s *Server) postTrace(w http.ResponseWriter, r *http.Request) error {
	var q scanRequest
	rest, err := readWithPicture(w, r, &q)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	lines := &lineWriter{w: w}
	view, err := s.trace(r.Context(), q, rest, lines)
	var faults scanFaults
	switch {
	case r.Context().Err() != nil:
		return nil
	case errors.As(err, &faults):
		return lines.send(map[string]any{"faults": faults})
	case err != nil:
		return lines.send(map[string]any{"error": err.Error(), "status": statusOf(err)})
	}
	return lines.send(map[string]any{"traced": view})
}

// traceTime is how long one section may be traced.
const traceTime = 60 * time.Second

// trace traces the section that q wants.
func (s *Server) trace(ctx context.Context, q scanRequest, rest []byte, lines *lineWriter) (*tracedView, error) {
	name, data, err := q.file(s, rest)
	if err != nil {
		return nil, err
	}
	t := job.Tracing{}
	if t.Plate, err = q.plate(); err != nil {
		return nil, err
	}
	t.Image, t.Units = name, t.Sections[0].Units
	lengths, err := job.Lengths(t.Units.String(), max(64, q.Fraction), t.Units)
	if err != nil {
		return nil, err
	}
	size, _, err := library.PictureHead(name, bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	if err := t.Validate(image.Rectangle{Max: size}); err != nil {
		return nil, faultsOf(err, q)
	}
	leave, err := s.enterPicture(ctx)
	if err != nil {
		return nil, err
	}
	defer leave()
	ctx, cancel := context.WithTimeout(ctx, traceTime)
	defer cancel()
	_ = lines.send(map[string]any{"stage": "picture", "done": 0, "of": 1}) // a reader that is gone ends the context too
	if t.Picture, err = library.DecodePicture(name, bytes.NewReader(data)); err != nil {
		return nil, err
	}
	found, err := t.Run(ctx, traced(lines))
	switch {
	case errors.Is(err, context.DeadlineExceeded):
		return nil, refused(http.StatusUnprocessableEntity, "it was not traced within %d s; crop closer, or scan at fewer dots an inch", int(traceTime.Seconds()))
	case err != nil:
		return nil, faultsOf(err, q)
	case len(found) == 0:
		return nil, refused(http.StatusUnprocessableEntity, "nothing was found")
	}
	return newTracedView(found[0], lengths)
}

// traced returns what passes progress on to the page, a few times a second.
func traced(lines *lineWriter) func(string, int, int) {
	const often = 100 * time.Millisecond
	var mu sync.Mutex
	var last time.Time
	was := ""
	return func(stage string, done, of int) {
		mu.Lock()
		defer mu.Unlock()
		if stage == was && time.Since(last) < often {
			return
		}
		was, last = stage, time.Now()
		_ = lines.send(map[string]any{"stage": stage, "done": done, "of": of})
	}
}

// faultsOf returns what the tracer says is wrong as the page shows it: each fault at its scale or at a key of the section. Any other error
// comes back as it is.
func faultsOf(err error, q scanRequest) error {
	var all trace.Faults
	if !errors.As(err, &all) {
		return err
	}
	var out scanFaults
	for _, f := range all {
		x := scanFault{Scale: -1, Row: -1, Key: f.Key, Text: f.Err.Error(), Boxes: [][4]int{}}
		if f.Scale != "" {
			x.Scale, x.Key = f.Index, ""
		}
		var several *trace.SeveralError
		if errors.As(f.Err, &several) {
			x.Key = "crop"
			x.Text = fmt.Sprintf("there are %d sections in the crop; choose one of them", len(several.Boxes))
			for _, b := range several.Boxes {
				x.Boxes = append(x.Boxes, [4]int{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y})
			}
		}
		var edge *trace.EdgeError
		if errors.As(f.Err, &edge) {
			x.Key = "crop"
		}
		out = append(out, x)
	}
	return out
}
