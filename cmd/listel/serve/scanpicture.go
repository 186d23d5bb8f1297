package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/png"
	"net/http"
	"path"
	"strconv"
	"time"

	"golang.org/x/image/draw"

	"listel/library"
)

// A pictureRequest names a picture: a file of the folder, or the bytes that follow the line of the request, under the name that they have at
// the page. Nothing of it is kept: the page sends it again when it is traced.
type pictureRequest struct {
	Path string `json:"path"` // in the folder; "" for the bytes that follow
	Name string `json:"name"` // of the bytes that follow
}

// The limits of a picture that is shown as it is; a larger one is shown smaller, and traced in full.
const (
	shownPixels = 24_000_000
	maxLine     = 1 << 20          // bytes of the line before a picture
	pictureWait = 20 * time.Second // for another picture to be read or traced
)

// file returns the bytes of the picture, rest being those that followed the request, and the name that errors call it by.
func (q pictureRequest) file(s *Server, rest []byte) (name string, data []byte, err error) {
	if q.Path == "" {
		if len(rest) == 0 {
			return "", nil, refused(http.StatusBadRequest, "a picture is needed")
		}
		return path.Base("/" + q.Name), rest, nil
	}
	if err := checkPath(q.Path, imageEnds); err != nil {
		return "", nil, err
	}
	data, err = s.folder.read(q.Path, maxImage)
	return q.Path, data, err
}

// readWithPicture reads a request whose body is a line of JSON and, after it, the bytes of a picture.
func readWithPicture(w http.ResponseWriter, r *http.Request, v any) (rest []byte, err error) {
	data, err := body(w, r, maxImage+maxLine)
	if err != nil {
		return nil, err
	}
	line, rest, _ := bytes.Cut(data, []byte("\n"))
	if len(line) > maxLine {
		return nil, refused(http.StatusRequestEntityTooLarge, "what is said of a picture is over %d MiB", maxLine>>20)
	}
	if err := json.Unmarshal(line, v); err != nil {
		return nil, refused(http.StatusBadRequest, "the request is not understood: %s", err)
	}
	return rest, nil
}

// enterPicture waits until no other picture is held in memory; leave lets the next one in. The error says that one is, or that the page has
// left.
func (s *Server) enterPicture(ctx context.Context) (leave func(), err error) {
	wait := time.NewTimer(pictureWait)
	defer wait.Stop()
	select {
	case s.pictures <- struct{}{}:
		return func() { <-s.pictures }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-wait.C:
		return nil, refused(http.StatusTooManyRequests, "another picture is being traced; stop it, or wait for it")
	}
}

// postPicture answers with a picture that a browser shows: the file itself, or a PNG of it. The heads X-Width and X-Height are its own size
// in pixels, upright. Only its head is looked at unless a PNG has to be made.
func (s *Server) postPicture(w http.ResponseWriter, r *http.Request) error {
	var q pictureRequest
	rest, err := readWithPicture(w, r, &q)
	if err != nil {
		return err
	}
	name, data, err := q.file(s, rest)
	if err != nil {
		return err
	}
	size, kind, err := library.PictureHead(name, bytes.NewReader(data))
	if err != nil {
		return err
	}
	head := w.Header()
	head.Set("X-Width", strconv.Itoa(size.X))
	head.Set("X-Height", strconv.Itoa(size.Y))
	if kind != "tiff" && size.X*size.Y <= shownPixels {
		head.Set("Content-Type", "image/"+kind)
		_, _ = w.Write(data) // the client may be gone
		return nil
	}
	leave, err := s.enterPicture(r.Context())
	if err != nil {
		return err
	}
	defer leave()
	full, err := library.DecodePicture(name, bytes.NewReader(data))
	if err != nil {
		return err
	}
	head.Set("Content-Type", "image/png")
	quick := png.Encoder{CompressionLevel: png.BestSpeed}
	_ = quick.Encode(w, smaller(full, shownPixels)) // the client may be gone
	return nil
}

// smaller returns a picture with at most so many pixels.
func smaller(full *image.Gray, most int) *image.Gray {
	b := full.Bounds()
	by := 1
	for (b.Dx()/by)*(b.Dy()/by) > most {
		by++
	}
	if by == 1 {
		return full
	}
	out := image.NewGray(image.Rect(0, 0, max(1, b.Dx()/by), max(1, b.Dy()/by)))
	draw.ApproxBiLinear.Scale(out, out.Bounds(), full, b, draw.Src, nil)
	return out
}
