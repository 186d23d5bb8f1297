package trace_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"listel/profile/trace"
)

func TestDecode(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 30, 20))
	for name, write := range map[string]func(*bytes.Buffer) error{
		"png":  func(b *bytes.Buffer) error { return png.Encode(b, img) },
		"jpeg": func(b *bytes.Buffer) error { return jpeg.Encode(b, img, nil) },
		"gif":  func(b *bytes.Buffer) error { return gif.Encode(b, img, nil) },
		"tiff": func(b *bytes.Buffer) error { return tiff.Encode(b, img, nil) },
	} {
		var b bytes.Buffer
		require.NoError(t, write(&b))
		w, h, format, err := trace.CheckHeader(bytes.NewReader(b.Bytes()))
		require.NoError(t, err)
		require.Equal(t, [2]int{30, 20}, [2]int{w, h})
		require.Equal(t, name, format)
		got, err := trace.Decode(bytes.NewReader(b.Bytes()))
		require.NoError(t, err)
		require.Equal(t, 30, got.Bounds().Dx())
	}
}

// sized returns a PNG whose header says that it is w x h px, whatever it holds.
func sized(t *testing.T, w, h uint32) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 30, 20))))
	out := b.Bytes()
	binary.BigEndian.PutUint32(out[16:], w)
	binary.BigEndian.PutUint32(out[20:], h)
	binary.BigEndian.PutUint32(out[29:], crc32.ChecksumIEEE(out[12:29]))
	return out
}

func TestDecodeRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		data []byte
		want error
	}{
		{"nothing", nil, trace.ErrNoImage},
		{"text", []byte("kind: trace\n"), trace.ErrNoImage},
		{"a page too large", sized(t, 20000, 5001), trace.ErrTooBig},
		{"a size that overflows", sized(t, 1<<31-1, 1<<31-1), trace.ErrNoImage},
		{"larger than it is", sized(t, 9000, 9000), trace.ErrLies},
		{"cut off", sized(t, 30, 20)[:60], trace.ErrLies},
	} {
		_, err := trace.Decode(bytes.NewReader(c.data))
		require.ErrorIs(t, err, c.want, c.name)
	}
	_, _, _, err := trace.CheckHeader(bytes.NewReader(sized(t, 20000, 5000)))
	require.NoError(t, err, "100 megapixels are allowed")
}
