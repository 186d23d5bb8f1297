package sheet

import (
	"bytes"
	"encoding/binary"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas/renderers/pdf"
	"golang.org/x/image/font/gofont/goregular"

	"listel/profile/geom"
)

// rawPDF is a page as the drawing library writes it.
func rawPDF(t testing.TB) ([]byte, Document) {
	t.Helper()
	var b bytes.Buffer
	out := pdf.New(&b, 100, 100, nil)
	Drawing{Text{At: geom.Pt(10, 10), S: "stream endobj (x"}, Dot(geom.Pt(50, 50), 3)}.render(newWrapper(out))
	require.NoError(t, out.Close())
	return b.Bytes(), Document{Pages: []Page{{Frame: Frame{Title: "x"}}}}
}

// Damaged input is an error or a file, never a panic: the library may change what it writes.
func TestFinishPDFNeverPanics(t *testing.T) {
	raw, doc := rawPDF(t)
	_, err := finishPDF(raw, doc)
	require.NoError(t, err)
	for _, damaged := range [][]byte{nil, []byte("x"), raw[:len(raw)/2], raw[1:], bytes.ReplaceAll(raw, []byte("endobj"), []byte("endobs"))} {
		_, err := finishPDF(damaged, doc)
		assert.Error(t, err)
	}
	_, err = finishPDF(raw, Document{Pages: make([]Page, 2)})
	assert.Error(t, err, "another number of pages")
	rng := rand.New(rand.NewPCG(7, 8))
	for range 3000 {
		b := bytes.Clone(raw)
		for range 1 + rng.IntN(6) {
			b[rng.IntN(len(b))] = byte(rng.IntN(256))
		}
		_, _ = finishPDF(b, doc) // must return
	}
}

// No page asks for transparency, and what finishPDF writes it can read again.
func TestFinishPDF(t *testing.T) {
	raw, doc := rawPDF(t)
	require.Contains(t, string(raw), "/Transparency")
	got, err := finishPDF(raw, doc)
	require.NoError(t, err)
	assert.NotContains(t, string(got), "/Transparency")
	objects, err := splitPDF(got)
	require.NoError(t, err)
	assert.Equal(t, got, joinPDF(objects))
}

// After the date is changed the font's checksums hold: by the OpenType specification the sum of the whole font is
// 0xB1B0AFBA, and the head table's own sum, its adjustment counted as 0, is in the table of tables.
func TestFontChecksums(t *testing.T) {
	font := bytes.Clone(goregular.TTF)
	for i := range int(binary.BigEndian.Uint16(font[4:])) {
		record := font[12+16*i:]
		if string(record[:4]) != "head" {
			continue
		}
		at := binary.BigEndian.Uint32(record[8:])
		copy(font[at+28:], "changed!") // the date of change
		require.NoError(t, fixFontDate(font))
		assert.Equal(t, uint32(0xB1B0AFBA), fontSum(font))
		assert.Equal(t, font[at+20:at+28], font[at+28:at+36])
		head := bytes.Clone(font[at : at+54])
		copy(head[8:], []byte{0, 0, 0, 0})
		assert.Equal(t, fontSum(head), binary.BigEndian.Uint32(record[4:]))
	}
	assert.Error(t, fixFontDate(nil))
	assert.Error(t, fixFontDate(make([]byte, 100)))
}
