package library

import (
	"bufio"
	"encoding/binary"
	"image/color"
	"io"
)

// decodingBytes returns how many bytes of memory reading a picture takes for each of its pixels, at most: those of the pixels as they
// are decoded, of what the decoder holds beside them, and of the gray copy.
func decodingBytes(h pictureHead, progressive bool) float64 {
	const copied = 1
	pixel, raw := 4.0, 3.0 // decoded; in the file
	switch h.ColorModel {
	case color.GrayModel:
		pixel, raw = 1, 1
	case color.Gray16Model:
		pixel, raw = 2, 2
	case color.YCbCrModel:
		pixel, raw = 3, 3
	case color.RGBA64Model, color.NRGBA64Model:
		pixel, raw = 8, 8
	}
	if _, ok := h.ColorModel.(color.Palette); ok {
		pixel, raw = 1, 1
	}
	switch {
	case h.kind == "png":
		return pixel*1.5 + copied // an interlaced one holds half of it twice
	case h.kind == "tiff":
		return pixel + 2.25*raw + copied // a single strip is read whole into a slice that grows
	case progressive:
		return pixel + 4*raw + copied // coefficients of 32 bits are held to the end
	}
	return pixel + copied
}

// jpegHead reads the segments of a JPEG file up to its frame and returns whether that is progressive, and the orientation that a
// camera noted in an EXIF segment, 1 when there is none. Markers are those of ITU-T T.81, table B.1; the orientation is tag 274 of
// TIFF 6.0 in an APP1 segment that begins with "Exif" (CIPA DC-008; all from memory).
func jpegHead(f io.ReadSeeker) (progressive bool, turn int, err error) {
	if _, err := f.Seek(2, io.SeekStart); err != nil {
		return false, 1, err
	}
	r := bufio.NewReader(f)
	turn = 1
	for {
		marker, err := nextMarker(r)
		if err != nil {
			return false, turn, notEOF(err)
		}
		const app1, sof0, sof15, dht, jpg, dac, sos = 0xe1, 0xc0, 0xcf, 0xc4, 0xc8, 0xcc, 0xda
		switch {
		case marker >= sof0 && marker <= sof15 && marker != dht && marker != jpg && marker != dac:
			return marker != sof0 && marker != sof0+1, turn, nil
		case marker == sos:
			return false, turn, nil
		}
		var size [2]byte
		if _, err := io.ReadFull(r, size[:]); err != nil {
			return false, turn, notEOF(err)
		}
		n := int(binary.BigEndian.Uint16(size[:])) - 2
		if n < 0 {
			return false, turn, nil
		}
		data := make([]byte, n)
		if _, err := io.ReadFull(r, data); err != nil {
			return false, turn, notEOF(err)
		}
		if marker == app1 {
			turn = exifTurn(data)
		}
	}
}

// notEOF returns err, but nil for a file that ends early: its decoder says so.
func notEOF(err error) error {
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		return nil
	}
	return err
}

// nextMarker returns the next marker of a JPEG file, fill bytes before it left out.
func nextMarker(r *bufio.Reader) (byte, error) {
	for {
		b, err := r.ReadByte()
		if err != nil {
			return 0, err
		}
		if b != 0xff {
			continue
		}
		for b == 0xff {
			if b, err = r.ReadByte(); err != nil {
				return 0, err
			}
		}
		if b != 0 {
			return b, nil
		}
	}
}

// exifTurn returns the orientation in the data of an APP1 segment, 1 when it holds none.
func exifTurn(data []byte) int {
	const head, orientation = "Exif\x00\x00", 274
	if len(data) < len(head)+8 || string(data[:len(head)]) != head {
		return 1
	}
	data = data[len(head):]
	var order binary.ByteOrder = binary.BigEndian
	if string(data[:2]) == "II" {
		order = binary.LittleEndian
	}
	at := int64(order.Uint32(data[4:]))
	if at+2 > int64(len(data)) {
		return 1
	}
	entries := data[at+2:]
	for range order.Uint16(data[at:]) {
		const size = 12
		if len(entries) < size {
			break
		}
		if order.Uint16(entries) == orientation {
			if turn := int(order.Uint16(entries[8:])); turn >= 1 && turn <= 8 {
				return turn
			}
			return 1
		}
		entries = entries[size:]
	}
	return 1
}
