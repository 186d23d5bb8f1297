package library_test

import (
	"bytes"
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

// FuzzLoadTrace: nothing panics, every error is Mistakes, and a plate that loads is checked without a panic whatever its picture's size.
func FuzzLoadTrace(f *testing.F) {
	seeds(f)
	for _, pattern := range []string{"starters/trace-*.yaml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(data)
		}
	}
	for _, scale := range []string{
		"{bar: {from: [10, 20], to: [400, 22], length: 3in, divisions: 3}, level: {from: [0, 0], to: [9, 0]}}",
		"{points: [{pixel: [1, 2], true: [0, 0]}, {pixel: [900, 2], true: [3 1/2, 0]}, {pixel: [1, 800], true: [0, 2]}, {pixel: [880, 790], true: [3.5in, 2]}]}",
		"{lengths: [{from: [1, 2], to: [300, 2], length: 60mm}, {from: [1, 2], to: [1, 500], length: 64}]}",
	} {
		f.Add([]byte("kind: trace\nimage: p.png\nunits: mm\nscales:\n  - " + scale + "\nsections:\n  - {name: a, crop: [1, 2, 300, 400], face: left, drawn: filled, tolerance: 1/64in, units: in, fraction: 16, parts: yes, back: [3, 4]}\n" +
			"  - {name: b, points: [[1, 2], [300, 2], [300, 400], [1, 380]]}\n"))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, source, err := library.LoadTrace("x.yaml", data)
		if err != nil {
			mistakesOf(t, err)
			return
		}
		for _, size := range []image.Rectangle{{}, image.Rect(0, 0, 640, 480)} {
			if err := p.Validate(size); err != nil {
				mistakesOf(t, source.Mistakes(err))
			}
		}
	})
}

// FuzzDecodePicture: nothing panics; a picture has the size that its head says, and no more pixels than the limit.
func FuzzDecodePicture(f *testing.F) {
	img := image.NewNRGBA(image.Rect(0, 0, 13, 9))
	for i := range img.Pix {
		img.Pix[i] = uint8(i * 37)
	}
	grays := image.NewGray(img.Rect)
	for y := range 9 {
		for x := range 13 {
			grays.Set(x, y, img.At(x, y))
		}
	}
	deep := image.NewGray16(img.Rect)
	deep.Set(3, 4, color.Gray16{Y: 9999})
	for _, encode := range []func(w io.Writer) error{
		func(w io.Writer) error { return png.Encode(w, img) }, func(w io.Writer) error { return png.Encode(w, grays) }, func(w io.Writer) error { return png.Encode(w, deep) },
		func(w io.Writer) error { return jpeg.Encode(w, img, nil) }, func(w io.Writer) error { return jpeg.Encode(w, grays, &jpeg.Options{Quality: 40}) },
		func(w io.Writer) error { return gif.Encode(w, img, nil) },
		func(w io.Writer) error { return tiff.Encode(w, img, nil) },
		func(w io.Writer) error {
			return tiff.Encode(w, grays, &tiff.Options{Compression: tiff.Deflate, Predictor: true})
		},
	} {
		var b bytes.Buffer
		require.NoError(f, encode(&b))
		f.Add(b.Bytes())
	}
	var b bytes.Buffer
	require.NoError(f, jpeg.Encode(&b, grays, nil))
	f.Add(exif(b.Bytes(), 6))
	f.Fuzz(func(t *testing.T, data []byte) {
		size, _, err := library.PictureHead("x", bytes.NewReader(data))
		if err != nil {
			return
		}
		if size.X*size.Y > 1_000_000 {
			return // reading the pixels is slow, not another matter
		}
		p, err := library.DecodePicture("x", bytes.NewReader(data))
		if err != nil {
			return
		}
		require.Equal(t, size, p.Rect.Size())
		require.GreaterOrEqual(t, len(p.Pix), (size.Y-1)*p.Stride+size.X)
	})
}
