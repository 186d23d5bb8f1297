package sheet

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"
)

// finishPDF makes a file of what the drawing library wrote: the clock is taken out of the file and out of its
// fonts, and the catalog gets the language, a table of the sheets, and the wish to print without scaling.
func finishPDF(raw []byte, doc Document) ([]byte, error) {
	objects, err := splitPDF(raw)
	if err != nil {
		return nil, err
	}
	pages := 0
	var kids []int
	for i, body := range objects {
		switch {
		case bytes.Contains(body, []byte("/FontFile2 ")):
			if err := fixFont(objects, body); err != nil {
				return nil, err
			}
		case bytes.HasPrefix(body, []byte("<</Type/Pages")):
			pages = i + 1
			kids = references(body)
		case bytes.HasPrefix(body, []byte("<</Type/Page")):
			objects[i] = bytes.Replace(body, pageGroup, nil, 1)
		}
	}
	if pages == 0 || len(kids) != len(doc.Pages) {
		return nil, errors.New("the page tree was not found")
	}
	objects = addOutline(objects, doc, pages, kids)
	return joinPDF(objects), nil
}

// pageGroup asks for transparency, which makes some printers draw a page as a picture; sheets use none.
var pageGroup = []byte("/Group<</Type/Group/CS/DeviceRGB/I true/S/Transparency>>")

var (
	startXref = regexp.MustCompile(`startxref\s+(\d+)\s+%%EOF\s*$`)
	reference = regexp.MustCompile(`(\d+) 0 R`)
	fontFile  = regexp.MustCompile(`/FontFile2 (\d+) 0 R`)
	length    = regexp.MustCompile(`/Length (\d+)`)
)

// splitPDF returns the bodies of the objects 1, 2, ... by the file's cross-reference table.
func splitPDF(raw []byte) ([][]byte, error) {
	broken := errors.New("the cross-reference table cannot be read")
	m := startXref.FindSubmatch(raw)
	if m == nil {
		return nil, broken
	}
	at, err := strconv.Atoi(string(m[1]))
	if err != nil || at < 0 || at > len(raw) {
		return nil, broken
	}
	lines := strings.Split(string(raw[at:]), "\n")
	var first, count int
	if len(lines) < 2 || lines[0] != "xref" {
		return nil, broken
	}
	if _, err := fmt.Sscanf(lines[1], "%d %d", &first, &count); err != nil || first != 0 || count < 4 || len(lines) < count+2 {
		return nil, broken
	}
	objects := make([][]byte, count-1)
	for i := 1; i < count; i++ {
		offset, err := strconv.Atoi(strings.TrimSpace(lines[2+i][:min(10, len(lines[2+i]))]))
		if err != nil || offset < 0 || offset >= at {
			return nil, broken
		}
		if objects[i-1], err = objectAt(raw[offset:at], i); err != nil {
			return nil, err
		}
	}
	return objects, nil
}

// objectAt returns the body of object n, which starts the bytes. A stream's data is stepped over by its length, since
// it may hold anything.
func objectAt(b []byte, n int) ([]byte, error) {
	broken := fmt.Errorf("object %d cannot be read", n)
	b, ok := bytes.CutPrefix(b, []byte(strconv.Itoa(n)+" 0 obj\n"))
	if !ok {
		return nil, broken
	}
	end := bytes.Index(b, []byte("\nendobj"))
	if s := bytes.Index(b, []byte(">>stream\n")); s >= 0 && s < end {
		m := length.FindSubmatch(b[:s])
		if m == nil {
			return nil, broken
		}
		size, err := strconv.Atoi(string(m[1]))
		if err != nil || s+9+size > len(b) {
			return nil, broken
		}
		if end = bytes.Index(b[s+9+size:], []byte("\nendobj")); end >= 0 {
			end += s + 9 + size
		}
	}
	if end < 0 {
		return nil, broken
	}
	return bytes.Clone(b[:end]), nil
}

// references returns the numbers of the objects that a body refers to, in order.
func references(body []byte) []int {
	var out []int
	for _, m := range reference.FindAllSubmatch(body, -1) {
		n, err := strconv.Atoi(string(m[1]))
		if err == nil {
			out = append(out, n)
		}
	}
	return out
}

// fixFont takes the clock out of the font program that a font's object refers to.
func fixFont(objects [][]byte, body []byte) error {
	m := fontFile.FindSubmatch(body)
	if m == nil {
		return errors.New("a font program was not found")
	}
	n, err := strconv.Atoi(string(m[1]))
	if err != nil || n < 1 || n > len(objects) {
		return errors.New("a font program was not found")
	}
	stream := objects[n-1]
	at := bytes.Index(stream, []byte(">>stream\n")) + len(">>stream\n")
	end := bytes.LastIndex(stream, []byte("\nendstream"))
	if at < len(">>stream\n") || end < at {
		return errors.New("a font program cannot be read")
	}
	r, err := zlib.NewReader(bytes.NewReader(stream[at:end]))
	if err != nil {
		return fmt.Errorf("font program: %w", err)
	}
	font, err := io.ReadAll(r)
	if err != nil {
		return fmt.Errorf("font program: %w", err)
	}
	if err := fixFontDate(font); err != nil {
		return err
	}
	var packed bytes.Buffer
	z, err := zlib.NewWriterLevel(&packed, zlib.BestCompression)
	if err != nil {
		return err
	}
	_, _ = z.Write(font) // a bytes.Buffer does not fail
	_ = z.Close()
	objects[n-1] = fmt.Appendf(nil, "<</Filter/FlateDecode/Length %d/Length1 %d>>stream\n%s\nendstream", packed.Len(), len(font), packed.Bytes())
	return nil
}

// fixFontDate sets the date of change in a TrueType font's head table to its date of making, and the checksums of
// the table and the font with it.
func fixFontDate(font []byte) error {
	broken := errors.New("a font program has no head table")
	if len(font) < 12 {
		return broken
	}
	tables := int(binary.BigEndian.Uint16(font[4:]))
	for i := range tables {
		record := 12 + 16*i
		if record+16 > len(font) {
			return broken
		}
		if string(font[record:record+4]) != "head" {
			continue
		}
		at := int(binary.BigEndian.Uint32(font[record+8:]))
		if at+54 > len(font) {
			return broken
		}
		head := font[at : at+54]
		binary.BigEndian.PutUint32(head[8:], 0)
		copy(head[28:36], head[20:28])
		binary.BigEndian.PutUint32(font[record+4:], fontSum(font[at:min(at+56, len(font))]))
		binary.BigEndian.PutUint32(head[8:], 0xB1B0AFBA-fontSum(font))
		return nil
	}
	return broken
}

// fontSum is the checksum of the OpenType specification: the sum of the big-endian words, the last filled up with zeros.
func fontSum(b []byte) uint32 {
	var sum uint32
	for len(b) >= 4 {
		sum += binary.BigEndian.Uint32(b)
		b = b[4:]
	}
	var last [4]byte
	copy(last[:], b)
	return sum + binary.BigEndian.Uint32(last[:])
}

// addOutline writes the catalog and the information anew, and adds one bookmark for each sheet.
func addOutline(objects [][]byte, doc Document, pages int, kids []int) [][]byte {
	lang := doc.Lang
	if lang == "" {
		lang = "en-US"
	}
	root := len(objects) + 1
	objects[0] = fmt.Appendf(nil, "<</Type/Catalog/Pages %d 0 R/Lang%s/Outlines %d 0 R"+
		"/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>>>", pages, pdfString(lang), root)
	objects[1] = fmt.Appendf(nil, "<</Title%s/Creator(listel)/Producer(listel)>>", pdfString(doc.title()))
	objects = append(objects, fmt.Appendf(nil, "<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", root+1, root+len(kids), len(kids)))
	for i, page := range kids {
		item := fmt.Appendf(nil, "<</Title%s/Parent %d 0 R/Dest[%d 0 R/Fit]", pdfString(doc.Pages[i].bookmark(i+1)), root, page)
		if i > 0 {
			item = fmt.Appendf(item, "/Prev %d 0 R", root+i)
		}
		if i < len(kids)-1 {
			item = fmt.Appendf(item, "/Next %d 0 R", root+i+2)
		}
		objects = append(objects, append(item, ">>"...))
	}
	return objects
}

// pdfString writes s as a text string: ASCII in parentheses, else UTF-16 in hexadecimal.
func pdfString(s string) string {
	for _, r := range s {
		if r < ' ' || r > '~' {
			out := "<FEFF"
			for _, u := range utf16.Encode([]rune(s)) {
				out += fmt.Sprintf("%04X", u)
			}
			return out + ">"
		}
	}
	return "(" + strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(s) + ")"
}

// joinPDF writes the objects with a new cross-reference table. The file's identifier is a sum of its content.
func joinPDF(objects [][]byte) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	offsets := make([]int, len(objects))
	for i, body := range objects {
		offsets[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, body)
	}
	id := sha256.Sum256(b.Bytes())
	at := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, offset := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", offset)
	}
	fmt.Fprintf(&b, "trailer\n<</Root 1 0 R/Info 2 0 R/Size %d/ID[<%X><%X>]>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, id[:16], id[:16], at)
	return b.Bytes()
}
