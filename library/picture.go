package library

import (
	"bufio"
	"errors"
	"fmt"
	"image"
	_ "image/gif" // the kinds of pictures that are read
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"os"
	"slices"

	"golang.org/x/image/tiff"
)

// The limits of a picture.
const (
	MaxPixels      = 100_000_000
	maxDecoding    = 800 << 20 // bytes that the reading of one picture may take, so that tracing it stays under 1 GB in all
	maxPictureFile = 1 << 30   // bytes
)

// pictureKinds are the kinds of pictures that are read, as package image calls them.
var pictureKinds = []string{"png", "jpeg", "tiff", "gif"}

// A PictureError says why a file that is there is not taken as a picture.
type PictureError struct{ Path, Reason string }

// Error returns the path and the reason.
func (e *PictureError) Error() string { return e.Path + ": " + e.Reason }

// PictureSize returns the width and the height in pixels that the picture at path says it has, a photograph upright. The pixels are not read. The error is a
// *PictureError when the file is no picture or is over the limits, or why it cannot be read.
func PictureSize(path string) (image.Point, error) {
	f, err := openPicture(path)
	if err != nil {
		return image.Point{}, err
	}
	defer f.Close()
	size, _, err := PictureHead(path, f)
	return size, err
}

// ReadPicture returns the picture at path, a PNG, JPEG, TIFF or GIF file, in gray on white: of a GIF its first picture, and a photograph
// upright as its camera notes it. Its head is looked at before anything else, so that a picture over the limits costs no memory. The errors are those of PictureSize; a
// picture that is broken, or of another size than its head says, is a *PictureError.
func ReadPicture(path string) (*image.Gray, error) {
	f, err := openPicture(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return DecodePicture(path, f)
}

// PictureHead returns the size of a picture that r reads, as PictureSize does, and its kind: png, jpeg, tiff or gif. name names it in errors.
func PictureHead(name string, r io.ReadSeeker) (size image.Point, kind string, err error) {
	h, err := headOf(name, r)
	if err != nil {
		return image.Point{}, "", err
	}
	return h.size(), h.kind, nil
}

// DecodePicture returns the picture that r reads, as ReadPicture does. name names it in errors.
func DecodePicture(name string, r io.ReadSeeker) (*image.Gray, error) {
	h, err := headOf(name, r)
	if err != nil {
		return nil, err
	}
	fault := func(format string, a ...any) error { return &PictureError{name, fmt.Sprintf(format, a...)} }
	img, _, err := image.Decode(bufio.NewReader(r))
	var pe *fs.PathError
	switch {
	case errors.As(err, &pe):
		return nil, fmt.Errorf("cannot read %s: %w", name, reason(err))
	case errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF):
		return nil, fault("the picture breaks off before its %d x %d pixels are there", h.Width, h.Height)
	case isUnsupported(err):
		return nil, fault("the picture is packed in a way that is not read (%v); save it as PNG", err)
	case err != nil:
		return nil, fault("the picture is broken, or lies about its %d x %d pixels (%v)", h.Width, h.Height, err)
	}
	all := image.Rect(0, 0, h.Width, h.Height)
	if b := img.Bounds(); h.kind == "gif" && !b.In(all) || h.kind != "gif" && b.Size() != all.Size() {
		return nil, fault("the picture says it has %d x %d pixels and has %d x %d", h.Width, h.Height, b.Dx(), b.Dy())
	}
	return upright(grayOf(img, all, h.kind == "gif"), h.turn), nil
}

// isUnsupported reports whether a decoder knows the file as a good one of its kind and does not read its variety, such as a TIFF file that holds
// JPEG data.
func isUnsupported(err error) bool {
	var inTIFF tiff.UnsupportedError
	var inJPEG jpeg.UnsupportedError
	var inPNG png.UnsupportedError
	return errors.As(err, &inTIFF) || errors.As(err, &inJPEG) || errors.As(err, &inPNG)
}

// A pictureHead is what the beginning of a picture tells.
type pictureHead struct {
	image.Config
	kind string
	turn int // EXIF orientation, 1 to 8, as the pixels lie; 1 upright
}

// size returns width and height of the picture upright.
func (h pictureHead) size() image.Point {
	if h.turn >= 5 { // it lies on its side
		return image.Pt(h.Height, h.Width)
	}
	return image.Pt(h.Width, h.Height)
}

// openPicture opens the file of a picture.
func openPicture(path string) (*os.File, error) {
	info, err := os.Stat(path) // before opening: a pipe would wait
	switch {
	case err != nil:
		return nil, fmt.Errorf("cannot read %s: %w", path, reason(err))
	case !info.Mode().IsRegular():
		return nil, &PictureError{path, "it is no regular file"}
	case info.Size() > maxPictureFile:
		return nil, &PictureError{path, "the file is over 1 GiB; the limit of a picture is 100 megapixels"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, reason(err))
	}
	return f, nil
}

// headOf reads the head of a picture and goes back to its start.
func headOf(name string, f io.ReadSeeker) (h pictureHead, err error) {
	fault := func(format string, a ...any) error { return &PictureError{name, fmt.Sprintf(format, a...)} }
	h.Config, h.kind, err = image.DecodeConfig(bufio.NewReader(f))
	switch {
	case err != nil || !slices.Contains(pictureKinds, h.kind):
		return h, fault("this is no picture that can be read; a PNG, JPEG, TIFF or GIF file is needed")
	case h.Width <= 0 || h.Height <= 0:
		return h, fault("the picture has no pixels")
	case int64(h.Width)*int64(h.Height) > MaxPixels:
		return h, fault("the picture has %d x %d pixels, %d megapixels; the limit is 100", h.Width, h.Height, (int64(h.Width)*int64(h.Height)+999_999)/1_000_000)
	}
	progressive := false
	if h.turn = 1; h.kind == "jpeg" {
		if progressive, h.turn, err = jpegHead(f); err != nil {
			return h, fmt.Errorf("cannot read %s: %w", name, reason(err))
		}
	}
	if need := float64(h.Width) * float64(h.Height) * decodingBytes(h, progressive); need > maxDecoding {
		return h, fault("reading the picture would take %.0f MB of memory; the limit is %d: save it in gray with 8 bits a pixel", need/(1<<20), maxDecoding>>20)
	}
	if _, err = f.Seek(0, io.SeekStart); err != nil {
		return h, fmt.Errorf("cannot read %s: %w", name, reason(err))
	}
	return h, nil
}
