package library_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"listel/library"
)

// wedge is a picture without any symmetry: dark at its left, darker toward its top.
func wedge(w, h int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := byte(255 * x / w)
			if y < h/4 {
				v /= 2
			}
			img.SetNRGBA(x, y, color.NRGBA{v, v, v, 255})
		}
	}
	return img
}

func encoded(t *testing.T, encode func(io.Writer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, encode(&b))
	return b.Bytes()
}

func pngOf(t *testing.T, img image.Image) []byte {
	return encoded(t, func(w io.Writer) error { return png.Encode(w, img) })
}

// TestReadPicture reads the same picture in every kind that is read, and gets the same grays but for what the kind loses.
func TestReadPicture(t *testing.T) {
	img := wedge(64, 40)
	grays := image.NewGray(img.Bounds())
	deep := image.NewNRGBA64(img.Bounds())
	for y := range 40 {
		for x := range 64 {
			grays.Set(x, y, img.At(x, y))
			deep.Set(x, y, img.At(x, y))
		}
	}
	kinds := map[string][]byte{
		"a.png":      pngOf(t, img),
		"gray.png":   pngOf(t, grays),
		"deep.png":   pngOf(t, deep),
		"a.jpg":      encoded(t, func(w io.Writer) error { return jpeg.Encode(w, img, &jpeg.Options{Quality: 98}) }),
		"a.gif":      encoded(t, func(w io.Writer) error { return gif.Encode(w, img, nil) }),
		"a.tif":      encoded(t, func(w io.Writer) error { return tiff.Encode(w, img, nil) }),
		"packed.tif": encoded(t, func(w io.Writer) error { return tiff.Encode(w, grays, &tiff.Options{Compression: tiff.Deflate}) }),
	}
	dir := t.TempDir()
	for name, data := range kinds {
		path := write(t, dir, name, string(data))
		size, err := library.PictureSize(path)
		require.NoError(t, err, name)
		require.Equal(t, image.Pt(64, 40), size, name)
		got, err := library.ReadPicture(path)
		require.NoError(t, err, name)
		require.Equal(t, img.Bounds(), got.Bounds(), name)
		lost := map[string]float64{"a.jpg": 6, "a.gif": 20}[name]
		for _, p := range []image.Point{{2, 2}, {30, 3}, {30, 30}, {62, 38}} {
			require.InDelta(t, float64(grays.GrayAt(p.X, p.Y).Y), float64(got.GrayAt(p.X, p.Y).Y), lost, "%s at %v", name, p)
		}
	}
}

// TestPictureIsOnWhite: what is clear is paper, and a GIF's first picture lies where it says.
func TestPictureIsOnWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	img.SetNRGBA(1, 2, color.NRGBA{0, 0, 0, 255})
	img.SetNRGBA(2, 2, color.NRGBA{0, 0, 0, 128})
	got, err := library.ReadPicture(write(t, t.TempDir(), "clear.png", string(pngOf(t, img))))
	require.NoError(t, err)
	require.Equal(t, [4]byte{255, 0, 127, 255}, [4]byte(got.Pix[2*got.Stride:]))

	frame := image.NewPaletted(image.Rect(2, 1, 4, 3), color.Palette{color.Black, color.White})
	data := encoded(t, func(w io.Writer) error {
		return gif.EncodeAll(w, &gif.GIF{Image: []*image.Paletted{frame}, Delay: []int{0}, Config: image.Config{Width: 6, Height: 4, ColorModel: frame.Palette}})
	})
	got, err = library.ReadPicture(write(t, t.TempDir(), "placed.gif", string(data)))
	require.NoError(t, err)
	require.Equal(t, image.Rect(0, 0, 6, 4), got.Bounds())
	require.Equal(t, [6]byte{255, 255, 0, 0, 255, 255}, [6]byte(got.Pix[1*got.Stride:]))
}

// exif returns a JPEG file with the orientation noted as a camera does.
func exif(data []byte, turn byte) []byte {
	segment := []byte("\xff\xe1\x00\x22Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00\x00\x00")
	segment[29] = turn
	return append(append(append([]byte{}, data[:2]...), segment...), data[2:]...)
}

// TestPhotographUpright: the eight orientations of EXIF (CIPA DC-008, from memory) name the side where the first row of pixels lies, and where the
// first column. The dark left side and the darker top are then where that says.
func TestPhotographUpright(t *testing.T) {
	data := encoded(t, func(w io.Writer) error { return jpeg.Encode(w, wedge(64, 40), &jpeg.Options{Quality: 98}) })
	for turn, sides := range map[byte][2]string{ // of the first row, of the first column
		1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
	} {
		path := write(t, t.TempDir(), "a.jpg", string(exif(data, turn)))
		got, err := library.ReadPicture(path)
		require.NoError(t, err)
		b := got.Bounds()
		size, err := library.PictureSize(path)
		require.NoError(t, err)
		require.Equal(t, b.Size(), size)
		require.Equal(t, turn >= 5, b.Dx() == 40, "%d", turn)
		mean := func(side string) float64 {
			r := map[string]image.Rectangle{
				"left": image.Rect(0, 0, 4, b.Max.Y), "right": image.Rect(b.Max.X-4, 0, b.Max.X, b.Max.Y),
				"top": image.Rect(0, 0, b.Max.X, 4), "bottom": image.Rect(0, b.Max.Y-4, b.Max.X, b.Max.Y),
			}[side]
			sum := 0.0
			for y := r.Min.Y; y < r.Max.Y; y++ {
				for x := r.Min.X; x < r.Max.X; x++ {
					sum += float64(got.GrayAt(x, y).Y)
				}
			}
			return sum / float64(r.Dx()*r.Dy())
		}
		across := map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
		require.Less(t, mean(sides[0]), mean(across[sides[0]])-20, "%d: the first row", turn)
		require.Less(t, mean(sides[1]), 20.0, "%d: the first column", turn)
	}
}

// relabeled returns a PNG file whose head says another size.
func relabeled(data []byte, w, h uint32) []byte {
	out := bytes.Clone(data)
	binary.BigEndian.PutUint32(out[16:], w)
	binary.BigEndian.PutUint32(out[20:], h)
	binary.BigEndian.PutUint32(out[29:], crc32.ChecksumIEEE(out[12:29]))
	return out
}

// TestWrongPictures: each is refused with words that say why, those over a limit before a pixel is read.
func TestWrongPictures(t *testing.T) {
	small := pngOf(t, wedge(64, 40))
	grayscale := encoded(t, func(w io.Writer) error { return jpeg.Encode(w, image.NewGray(image.Rect(0, 0, 64, 40)), nil) })
	dir := t.TempDir()
	for _, c := range []struct{ name, data, want string }{
		{"notes.png", "a molding, 2 in high", "this is no picture that can be read; a PNG, JPEG, TIFF or GIF file is needed"},
		{"empty.png", "", "this is no picture"},
		{"head.png", string(small[:40]), "breaks off before its 64 x 40 pixels"},
		{"half.png", string(small[:len(small)/2]), "the picture is broken, or lies about its 64 x 40 pixels"},
		{"half.jpg", string(grayscale[:len(grayscale)-20]), "its 64 x 40 pixels"},
		{"liar.png", string(relabeled(small, 9000, 9000)), "its 9000 x 9000 pixels"},
		{"large.png", string(relabeled(small, 10001, 10000)), "10001 x 10000 pixels, 101 megapixels; the limit is 100"},
		{"huge.png", string(relabeled(small, 1<<24, 1<<24)), "the limit is 100"},
	} {
		path := write(t, dir, c.name, c.data)
		_, err := library.ReadPicture(path)
		var wrong *library.PictureError
		require.ErrorAs(t, err, &wrong, c.name)
		require.Equal(t, path, wrong.Path)
		require.ErrorContains(t, err, c.want, c.name)
	}
	_, err := library.ReadPicture(filepath.Join(dir, "none.png"))
	require.ErrorIs(t, err, os.ErrNotExist)
	_, err = library.ReadPicture(dir)
	require.ErrorContains(t, err, "no regular file")
}

// TestPictureMemory: a picture of 98 megapixels with 16 bits a color would take more memory than tracing may, and says what would do.
func TestPictureMemory(t *testing.T) {
	deep := pngOf(t, image.NewNRGBA64(image.Rect(0, 0, 8, 8)))
	_, err := library.PictureSize(write(t, t.TempDir(), "deep.png", string(relabeled(deep, 9900, 9900))))
	require.ErrorContains(t, err, "save it in gray with 8 bits a pixel")
	gray := pngOf(t, image.NewGray(image.Rect(0, 0, 8, 8)))
	_, err = library.PictureSize(write(t, t.TempDir(), "gray.png", string(relabeled(gray, 9900, 9900))))
	require.NoError(t, err)
}

// FuzzReadPicture: nothing panics, and what is read has the size that its head says.
func FuzzReadPicture(f *testing.F) {
	img := wedge(16, 8)
	for _, encode := range []func(io.Writer) error{
		func(w io.Writer) error { return png.Encode(w, img) },
		func(w io.Writer) error { return jpeg.Encode(w, img, nil) },
		func(w io.Writer) error { return gif.Encode(w, img, nil) },
		func(w io.Writer) error { return tiff.Encode(w, img, nil) },
	} {
		var b bytes.Buffer
		require.NoError(f, encode(&b))
		f.Add(b.Bytes())
		f.Add(exif(b.Bytes(), 6))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		path := filepath.Join(t.TempDir(), "x")
		require.NoError(t, os.WriteFile(path, data, 0o666))
		size, err := library.PictureSize(path)
		if err != nil || size.X*size.Y > 1<<20 {
			return // the fuzzer has little memory
		}
		if got, err := library.ReadPicture(path); err == nil {
			require.Equal(t, size, got.Bounds().Size())
		}
	})
}
