package serve

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"listel/library"
	"listel/profile/geom"
)

// withPicture is the body of a request: a line of JSON and a picture.
func withPicture(t testing.TB, q any, picture []byte) []byte {
	t.Helper()
	line, err := json.Marshal(q)
	require.NoError(t, err)
	return append(append(line, '\n'), picture...)
}

// traceLines asks for a trace and returns what came, a map a line.
func traceLines(t testing.TB, s *Server, q map[string]any, picture []byte) []map[string]any {
	t.Helper()
	w := httptest.NewRecorder()
	handler(s.postTrace).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/api/scan/trace", bytes.NewReader(withPicture(t, q, picture))))
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	var out []map[string]any
	lines := bufio.NewScanner(w.Body)
	lines.Buffer(nil, 1<<22)
	for lines.Scan() {
		var v map[string]any
		require.NoError(t, json.Unmarshal(lines.Bytes(), &v), lines.Text())
		out = append(out, v)
	}
	return out
}

// plateRequest is what a reader says of the starter's plate: the places are those of its trace file.
func plateRequest() map[string]any {
	return map[string]any{
		"name": "plate.png", "units": "in", "fraction": 16,
		"scales":  []any{map[string]any{"lengths": []any{map[string]any{"from": []float64{634.5, 1032}, "to": []float64{1234.5, 1026}, "text": "3"}}}},
		"section": map[string]any{"name": "traced-cornice", "title": "Cornice, traced", "crop": []int{690, 250, 1240, 750}},
	}
}

// The plate of the starter is drawn from a known profile: its members come back in order with their sizes, told with what they may be off by,
// and the outline lies on the picture within its crop. The sizes are those of the starter that the plate is drawn from.
func TestTracePlate(t *testing.T) {
	s := serving(t)
	lines := traceLines(t, s, plateRequest(), library.StarterPlate())
	require.Equal(t, "picture", lines[0]["stage"])
	require.Contains(t, lines[1], "of")
	v, ok := lines[len(lines)-1]["traced"].(map[string]any)
	require.True(t, ok, lines[len(lines)-1])
	require.Equal(t, true, v["within"])
	require.Contains(t, strings.Join(texts(v["truth"].([]any)), " "), "in the mean")
	var titles []string
	for _, m := range v["members"].([]any) {
		titles = append(titles, m.(map[string]any)["title"].(string))
		require.Contains(t, m.(map[string]any)["sizes"], "height ")
	}
	require.Equal(t, []string{"1 fillet", "2 cove", "3 fillet", "4 cyma recta", "5 fillet"}, titles)
	require.Contains(t, v["members"].([]any)[1].(map[string]any)["sizes"], "height 5/8")
	p, _, err := library.LoadProfile("traced-cornice.yaml", []byte(v["text"].(string)))
	require.NoError(t, err)
	require.Equal(t, "traced from plate.png", p.Source)
	built, err := p.Section(nil)
	require.NoError(t, err)
	require.InDelta(t, 1.75*25.4, built.Height, 0.3)
	require.True(t, strings.HasPrefix(v["section"].(string), "M"))
	worst := v["worst"].([]any)
	require.True(t, worst[0].(float64) > 690 && worst[0].(float64) < 1240 && worst[1].(float64) > 250 && worst[1].(float64) < 750)

	require.NoError(t, os.WriteFile(filepath.Join(s.folder.dir, "scan.png"), library.StarterPlate(), 0o600))
	q := plateRequest()
	q["path"] = "scan.png"
	lines = traceLines(t, s, q, nil)
	require.Contains(t, lines[len(lines)-1], "traced", "a picture of the folder need not be sent")
}

// What is traced from clicked points is told by its distance from them, and nothing is said of the ink that was not looked at.
func TestTraceClickedIsToldByThePoints(t *testing.T) {
	s := serving(t)
	q := plateRequest()
	q["section"].(map[string]any)["points"] = [][]float64{{700, 900}, {900, 900}, {900, 700}, {700, 700}}
	lines := traceLines(t, s, q, library.StarterPlate())
	v := lines[len(lines)-1]["traced"].(map[string]any)
	words := strings.Join(texts(v["truth"].([]any)), " ")
	require.Contains(t, words, "off the clicked points, at")
	require.Contains(t, words, "How true the points are to the ink was not looked at.")
	require.NotContains(t, words+v["text"].(string), "off the drawing")
	require.NotContains(t, words, "allowed")
	require.Contains(t, v["text"], "off the clicked points at most")
}

// What is wrong is said with its place: lengths that are none, no scale, a crop with several sections and where they are.
func TestTraceFaults(t *testing.T) {
	s := serving(t)
	fault := func(change func(q map[string]any)) map[string]any {
		q := plateRequest()
		change(q)
		lines := traceLines(t, s, q, library.StarterPlate())
		last := lines[len(lines)-1]
		require.Contains(t, last, "faults", "%v", last)
		return last["faults"].([]any)[0].(map[string]any)
	}
	length := func(text string, bar bool) []any {
		one := map[string]any{"from": []float64{634.5, 1032}, "to": []float64{1234.5, 1026}, "text": text, "bar": bar}
		return []any{map[string]any{"lengths": []any{one}}}
	}
	f := fault(func(q map[string]any) { q["scales"] = length("3 ells", false) })
	require.EqualValues(t, 0, f["scale"])
	require.EqualValues(t, 0, f["row"])
	require.Contains(t, f["text"], "3 ells")
	f = fault(func(q map[string]any) { q["scales"] = length(" ", false) })
	require.Equal(t, "how long is it in truth?", f["text"])
	f = fault(func(q map[string]any) { q["scales"] = []any{} })
	require.Contains(t, f["text"], "scale")
	f = fault(func(q map[string]any) { q["section"].(map[string]any)["crop"] = []int{120, 180, 1240, 1000} })
	require.Equal(t, "crop", f["key"])
	require.GreaterOrEqual(t, len(f["boxes"].([]any)), 2)
	require.Contains(t, f["text"], "choose one")
	f = fault(func(q map[string]any) { q["section"].(map[string]any)["crop"] = []int{0, 0, 9000, 9000} })
	require.Equal(t, "crop", f["key"])
	f = fault(func(q map[string]any) { q["section"].(map[string]any)["name"] = "../x" })
	require.Equal(t, "name", f["key"])
	for _, bad := range []map[string]any{{"path": "../plate.png"}, {"path": "no.png"}, {"units": "ells"}, {"path": "x.yaml"}} {
		q := plateRequest()
		for k, v := range bad {
			q[k] = v
		}
		lines := traceLines(t, s, q, library.StarterPlate())
		require.NotEmpty(t, lines[len(lines)-1]["error"], "%v", bad)
	}
}

// A printed bar is found in the ink, and clicked corners need no ink: both give the section its size.
func TestTraceBarAndPoints(t *testing.T) {
	s := serving(t)
	q := plateRequest()
	q["scales"] = []any{map[string]any{"lengths": []any{map[string]any{"from": []float64{630, 1030}, "to": []float64{1240, 1028}, "text": "3in", "bar": true}}}}
	lines := traceLines(t, s, q, library.StarterPlate())
	v := lines[len(lines)-1]["traced"].(map[string]any)
	require.InDelta(t, 1.75*25.4, v["box"].([]any)[3], 0.4)

	q = plateRequest() // three known places: the bar's ends, and 2 in square above the first
	q["scales"] = []any{map[string]any{"points": []any{
		map[string]any{"at": []float64{634.5, 1032}, "x": "0", "y": "0"}, map[string]any{"at": []float64{1234.5, 1026}, "x": "3", "y": "0"},
		map[string]any{"at": []float64{630.5, 632}, "x": "0", "y": "2in"}}}}
	lines = traceLines(t, s, q, library.StarterPlate())
	v, ok := lines[len(lines)-1]["traced"].(map[string]any)
	require.True(t, ok, lines[len(lines)-1])
	require.InDelta(t, 1.75*25.4, v["box"].([]any)[3], 0.4)
	q["scales"].([]any)[0].(map[string]any)["points"].([]any)[2].(map[string]any)["y"] = "two"
	lines = traceLines(t, s, q, library.StarterPlate())
	require.EqualValues(t, 2, lines[len(lines)-1]["faults"].([]any)[0].(map[string]any)["row"])

	q = plateRequest()
	q["section"].(map[string]any)["points"] = [][]float64{{700, 900}, {900, 900}, {900, 700}, {700, 700}} // a square of 200 px, an inch
	lines = traceLines(t, s, q, library.StarterPlate())
	v, ok = lines[len(lines)-1]["traced"].(map[string]any)
	require.True(t, ok, lines[len(lines)-1])
	require.InDelta(t, 25.4, v["box"].([]any)[3], 0.3)
}

// A picture that a browser shows comes as it is, a TIFF as a PNG of the same size, one too large smaller; the heads tell its own size.
func TestScanPicture(t *testing.T) {
	s := serving(t)
	show := func(name string, data []byte) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		handler(s.postPicture).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/api/scan/picture", bytes.NewReader(withPicture(t, map[string]any{"name": name}, data))))
		return w
	}
	img := image.NewPaletted(image.Rect(0, 0, 40, 30), color.Palette{color.White, color.Black})
	img.SetColorIndex(3, 4, 1)
	for _, kind := range []string{"png", "jpeg", "gif", "tiff"} {
		var b bytes.Buffer
		require.NoError(t, map[string]func() error{
			"png": func() error { return png.Encode(&b, img) }, "jpeg": func() error { return jpeg.Encode(&b, img, nil) },
			"gif": func() error { return gif.Encode(&b, img, nil) }, "tiff": func() error { return tiff.Encode(&b, img, nil) },
		}[kind]())
		w := show("x."+kind, b.Bytes())
		require.Equal(t, http.StatusOK, w.Code, w.Body.String())
		require.Equal(t, []string{"40", "30"}, []string{w.Header().Get("X-Width"), w.Header().Get("X-Height")})
		if kind != "tiff" {
			require.Equal(t, "image/"+kind, w.Header().Get("Content-Type"))
			require.Equal(t, b.Bytes(), w.Body.Bytes())
			continue
		}
		require.Equal(t, "image/png", w.Header().Get("Content-Type"))
		shown, err := png.Decode(w.Body)
		require.NoError(t, err)
		require.Equal(t, img.Bounds(), shown.Bounds())
		require.Equal(t, color.Gray{Y: 0}, color.GrayModel.Convert(shown.At(3, 4)))
	}
	var large bytes.Buffer
	require.NoError(t, png.Encode(&large, image.NewGray(image.Rect(0, 0, 6000, 4100))))
	w := show("large.png", large.Bytes())
	require.Equal(t, "6000", w.Header().Get("X-Width"))
	shown, err := png.DecodeConfig(w.Body)
	require.NoError(t, err)
	require.Equal(t, 3000, shown.Width)

	require.Equal(t, http.StatusUnprocessableEntity, show("x.png", []byte("no picture")).Code)
	w = show("huge.png", []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x01\x86\xa0\x00\x01\x86\xa0\x08\x00\x00\x00\x00"))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code, "its head alone says that it is over the limit")
	require.Equal(t, http.StatusBadRequest, show("x.png", nil).Code)
	require.Equal(t, http.StatusRequestEntityTooLarge, show("x.png", make([]byte, maxImage+maxLine+1)).Code)
	w = httptest.NewRecorder()
	handler(s.postPicture).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/api/scan/picture", strings.NewReader("no line\n")))
	require.Equal(t, http.StatusBadRequest, w.Code)
}

// A page that leaves stops its trace, and lets the next picture in.
func TestTraceLeaving(t *testing.T) {
	s := serving(t)
	ctx, leave := context.WithCancel(t.Context())
	r := httptest.NewRequestWithContext(ctx, http.MethodPost, "/api/scan/trace", bytes.NewReader(withPicture(t, plateRequest(), library.StarterPlate())))
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		_ = s.postTrace(httptest.NewRecorder(), r)
	}()
	require.Eventually(t, func() bool { return len(s.pictures) == 1 }, 5*time.Second, time.Millisecond)
	leave()
	select {
	case <-ended:
	case <-time.After(2 * time.Second):
		require.Fail(t, "it goes on")
	}
	require.Empty(t, s.pictures)
}

func texts(all []any) []string {
	out := make([]string, len(all))
	for i, a := range all {
		out[i] = a.(string)
	}
	return out
}

// A length is read as the commands read it, in the units of the page; what is none is told in their words.
func TestLength(t *testing.T) {
	s := serving(t)
	for _, c := range []struct{ text, units, words string }{
		{"3", "", "3 in, 76.2 mm"}, {"3", "mm", "3.0 mm, 1/8- in"}, {"1 1/2in", "mm", "38.1 mm, 1 1/2 in"}, {"2' 3\"", "in", "27 in, 685.8 mm"},
	} {
		w := asked(t, s.postLength, "/api/length", map[string]string{"text": c.text, "units": c.units})
		require.Equal(t, 200, w.Code, w.Body)
		require.Contains(t, w.Body.String(), `"words":"`+c.words+`"`)
	}
	w := asked(t, s.postLength, "/api/length", map[string]string{"text": "3 ells"})
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "3 ells")
	w = asked(t, s.postLength, "/api/length", map[string]string{"text": "3", "units": "ells"})
	require.Equal(t, 400, w.Code)
}

// The back that is pressed and the wish for parts come to the tracer.
func TestScanBackAndParts(t *testing.T) {
	q := scanRequest{Section: scanSection{Name: "a", Parts: true, Back: &[2]float64{12, 34}}}
	p, err := q.plate()
	require.NoError(t, err)
	require.True(t, p.Sections[0].Parts)
	require.Equal(t, geom.Pt(12, 34), *p.Sections[0].Back)
}
