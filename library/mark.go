package library

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"path/filepath"
	"regexp"
	"strings"
)

// The marks that tell a file written by listel. A PDF has its own, from the sheets. A YAML file is meant to be changed by hand, so its
// mark holds a sum of what stands above it: once it is changed, it is the user's own. Other formats have no mark.
var (
	pdfMark  = []byte("/Producer(listel)")
	svgMark  = []byte("<!-- written by listel -->")
	pngMark  = []byte("Software\x00listel")
	manMark  = []byte(".\\\" written by listel\n")
	yamlMark = regexp.MustCompile(`(?m)^# written by listel, sum ([0-9a-f]{8})\b.*\n?\z`)
)

const pngHead = "\x89PNG\r\n\x1a\n"

// Marked returns data with the mark that lets WriteFile replace the file later, after the ending of path and what data is. Data that
// has its mark, or is of a format without one, is returned as it is.
func Marked(path string, data []byte) []byte {
	switch {
	case byListel(path, data):
		return data
	case isSVG(data):
		return fmt.Appendf(bytes.Clone(data), "%s\n", svgMark)
	case bytes.HasPrefix(data, []byte(pngHead)):
		return markPNG(data)
	case isManual(path):
		return append(bytes.Clone(data), manMark...)
	case isYAML(path):
		body := yamlMark.ReplaceAll(bytes.Clone(data), nil)
		if len(body) > 0 && body[len(body)-1] != '\n' {
			body = append(body, '\n')
		}
		return fmt.Appendf(body, "# written by listel, sum %08x: once you change this file, listel no longer replaces it\n", crc32.ChecksumIEEE(body))
	}
	return data
}

// isManual reports whether the file at path is a manual page.
func isManual(path string) bool { return filepath.Ext(path) == ".1" }

// byListel reports whether the file at path, holding data, was written by listel and, if it is meant to be changed, not changed since.
func byListel(path string, data []byte) bool {
	const near = 4096 // bytes at the beginning or the end that hold a mark
	head, tail := data[:min(near, len(data))], data[max(0, len(data)-near):]
	switch {
	case bytes.HasPrefix(data, []byte("%PDF-")):
		return bytes.Contains(head, pdfMark)
	case isSVG(data):
		return bytes.Contains(tail, svgMark)
	case bytes.HasPrefix(data, []byte(pngHead)):
		return bytes.Contains(head, pngMark)
	case isManual(path):
		return bytes.HasSuffix(tail, manMark)
	case isYAML(path):
		m := yamlMark.FindSubmatchIndex(data)
		return m != nil && fmt.Sprintf("%08x", crc32.ChecksumIEEE(data[:m[0]])) == string(data[m[2]:m[3]])
	}
	return false
}

func isYAML(path string) bool {
	ext := strings.ToLower(filepath.Ext(path))
	return ext == ".yaml" || ext == ".yml"
}

func isSVG(data []byte) bool {
	head := bytes.TrimSpace(data[:min(1024, len(data))])
	return bytes.HasPrefix(head, []byte("<svg")) || bytes.HasPrefix(head, []byte("<?xml")) && bytes.Contains(head, []byte("<svg"))
}

// markPNG returns data with a text chunk after its header chunk, which is 25 bytes long (ISO/IEC 15948, from memory).
func markPNG(data []byte) []byte {
	const at = len(pngHead) + 25
	if len(data) < at {
		return data
	}
	body := append([]byte("tEXt"), pngMark...)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(pngMark)))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	out := append(bytes.Clone(data[:at]), chunk...)
	return append(out, data[at:]...)
}
