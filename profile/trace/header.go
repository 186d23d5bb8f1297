package trace

import (
	"errors"
	"fmt"
	"image"
	"io"
	"math"

	_ "image/gif"  // a scan may be any of these
	_ "image/jpeg" // likewise
	_ "image/png"  // likewise

	_ "golang.org/x/image/tiff" // likewise
)

// MaxPixels is the most that an image may have: 100 megapixels, an A3 page at 600 dots an inch and half again.
const MaxPixels = 100_000_000

// What can be wrong with an image.
var (
	ErrNoImage = errors.New("no image that can be read: PNG, JPEG, GIF and TIFF can")
	ErrTooBig  = fmt.Errorf("image over %d megapixels", MaxPixels/1_000_000)
	ErrLies    = errors.New("image is not what its header says")
)

// CheckHeader reads the header of an image and returns its size in px and its format: png, jpeg, gif or tiff. The error is ErrNoImage or
// ErrTooBig; nothing but the header is read then.
func CheckHeader(r io.Reader) (width, height int, format string, err error) {
	c, format, err := image.DecodeConfig(r)
	if err != nil {
		return 0, 0, "", fmt.Errorf("%w (%v)", ErrNoImage, err)
	}
	if err := checkSize(c.Width, c.Height); err != nil {
		return 0, 0, "", err
	}
	return c.Width, c.Height, format, nil
}

// checkSize refuses images without pixels and with too many.
func checkSize(w, h int) error {
	switch {
	case w <= 0 || h <= 0:
		return fmt.Errorf("%w (%d x %d px)", ErrNoImage, w, h)
	case w > MaxPixels/h:
		return fmt.Errorf("%w: %d x %d px are %.0f; scan the section alone, or at fewer dots an inch", ErrTooBig, w, h, math.Ceil(float64(w)*float64(h)/1e6))
	}
	return nil
}

// Decode reads an image whose header is checked first. The error is ErrNoImage, ErrTooBig, or ErrLies where the file ends before its
// picture does or the picture is another size than its header says.
func Decode(r io.ReadSeeker) (image.Image, error) {
	w, h, _, err := CheckHeader(r)
	if err != nil {
		return nil, err
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	img, _, err := image.Decode(r)
	if err != nil {
		return nil, fmt.Errorf("%w: %d x %d px (%v)", ErrLies, w, h, err)
	}
	if b := img.Bounds(); b.Dx() != w || b.Dy() != h {
		return nil, fmt.Errorf("%w: %d x %d px, but it has %d x %d", ErrLies, w, h, b.Dx(), b.Dy())
	}
	return img, nil
}
