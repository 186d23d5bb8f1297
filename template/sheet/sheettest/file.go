package sheettest

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"strconv"
	"unicode/utf16"
)

// PointsPerMM is the PDF unit, 1/72 in.
const PointsPerMM = 72 / 25.4

// A File is a PDF file that was read.
type File struct {
	Objects map[Ref]any // by number
	Trailer Dict
	Pages   []Page
}

// ReadPDF reads a file by its cross-reference table, follows the page tree, and runs each page's content. Any fault in
// the file is an error.
func ReadPDF(data []byte) (*File, error) {
	if !bytes.HasPrefix(data, []byte("%PDF-1.")) {
		return nil, errors.New("no PDF header")
	}
	f := &File{Objects: map[Ref]any{}}
	at := bytes.LastIndex(data, []byte("startxref"))
	if at < 0 {
		return nil, errors.New("no startxref")
	}
	s := &scanner{b: data, at: at + len("startxref")}
	v, err := s.next()
	offset, ok := v.(float64)
	if err != nil || !ok || offset < 0 || int(offset) >= len(data) || !bytes.HasPrefix(data[int(offset):], []byte("xref\n")) {
		return nil, errors.New("startxref does not lead to the table")
	}
	if err := f.readObjects(data, int(offset)+len("xref\n")); err != nil {
		return nil, err
	}
	pages, ok := f.dict(f.Catalog()["Pages"])
	if !ok {
		return nil, errors.New("no page tree")
	}
	kids, _ := f.get(pages["Kids"]).([]any)
	if count, _ := f.get(pages["Count"]).(float64); int(count) != len(kids) {
		return nil, fmt.Errorf("page count %v, but %d pages", count, len(kids))
	}
	for i, k := range kids {
		p, err := f.readPage(k)
		if err != nil {
			return nil, fmt.Errorf("page %d: %w", i+1, err)
		}
		f.Pages = append(f.Pages, p)
	}
	return f, nil
}

func (f *File) readObjects(data []byte, at int) error {
	s := &scanner{b: data, at: at}
	first, err1 := s.next()
	count, err2 := s.next()
	n, ok := count.(float64)
	if err1 != nil || err2 != nil || !ok || first != 0.0 {
		return errors.New("the cross-reference table is broken")
	}
	s.at++ // the line end; entries are 20 bytes each
	if n < 1 || s.at+20*int(n) > len(data) {
		return errors.New("the cross-reference table is cut off")
	}
	for i := 0; i < int(n); i++ {
		entry := string(data[s.at+20*i : s.at+20*i+20])
		if entry[18:] != " \n" {
			return fmt.Errorf("cross-reference entry %d is not 20 bytes", i)
		}
		if entry[17] == 'f' {
			continue
		}
		offset, err := strconv.Atoi(entry[:10])
		if err != nil {
			return err
		}
		if f.Objects[Ref(i)], err = readObject(data, offset, i); err != nil {
			return fmt.Errorf("object %d: %w", i, err)
		}
	}
	s.at += 20 * int(n)
	if v, err := s.next(); err != nil || v != Operator("trailer") {
		return errors.New("no trailer")
	}
	t, err := s.next()
	if err != nil {
		return err
	}
	f.Trailer, _ = t.(Dict)
	return nil
}

func readObject(data []byte, offset, n int) (any, error) {
	s := &scanner{b: data, at: offset}
	for _, want := range []any{float64(n), 0.0, Operator("obj")} {
		if v, err := s.next(); err != nil || v != want {
			return nil, fmt.Errorf("found %v where %v should be", v, want)
		}
	}
	v, err := s.next()
	if err != nil {
		return nil, err
	}
	d, ok := v.(Dict)
	s.skip()
	if ok && bytes.HasPrefix(data[s.at:], []byte("stream\n")) {
		size, ok := d["Length"].(float64)
		from := s.at + len("stream\n")
		if !ok || size < 0 || from+int(size) > len(data) {
			return nil, errors.New("stream without its length")
		}
		s.at = from + int(size)
		if e, err := s.next(); err != nil || e != Operator("endstream") {
			return nil, errors.New("stream does not end at its length")
		}
		v = Stream{d, data[from : from+int(size)]}
	}
	if e, err := s.next(); err != nil || e != Operator("endobj") {
		return nil, errors.New("no endobj")
	}
	return v, nil
}

// get follows a reference.
func (f *File) get(v any) any {
	if r, ok := v.(Ref); ok {
		return f.Objects[r]
	}
	return v
}

func (f *File) dict(v any) (Dict, bool) {
	switch d := f.get(v).(type) {
	case Dict:
		return d, true
	case Stream:
		return d.Dict, true
	}
	return nil, false
}

// Catalog returns the document's root dictionary.
func (f *File) Catalog() Dict {
	d, _ := f.dict(f.Trailer["Root"])
	return d
}

// Info returns an entry of the document's information, "" when it has none.
func (f *File) Info(key string) string {
	d, _ := f.dict(f.Trailer["Info"])
	return TextString(d[Name(key)])
}

// TextString decodes a string object: ASCII, or UTF-16 with its mark.
func TextString(v any) string {
	b, ok := v.([]byte)
	if !ok {
		return ""
	}
	if !bytes.HasPrefix(b, []byte{0xFE, 0xFF}) {
		return string(b)
	}
	var u []uint16
	for i := 2; i+1 < len(b); i += 2 {
		u = append(u, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(u))
}

// Unpack returns a stream's data, inflated.
func (f *File) Unpack(v any) ([]byte, error) {
	s, ok := f.get(v).(Stream)
	if !ok {
		return nil, errors.New("no stream")
	}
	if s.Dict["Filter"] == nil {
		return s.Data, nil
	}
	if s.Dict["Filter"] != Name("FlateDecode") {
		return nil, fmt.Errorf("filter %v", s.Dict["Filter"])
	}
	r, err := zlib.NewReader(bytes.NewReader(s.Data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}
