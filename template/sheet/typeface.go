package sheet

import (
	"bytes"
	"strings"
	"sync"
	"unicode"

	"github.com/tdewolff/canvas"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// A Weight is how heavy text is.
type Weight int

// The weights of the one type family that sheets are lettered in.
const (
	Regular Weight = iota
	Bold
)

// mmPerPoint is the size of a printer's point: 72 to the inch.
const mmPerPoint = 25.4 / 72

// Proportions of the type family, as parts of its size.
const (
	capHeight  = 1480. / 2048 // of capitals and figures over the baseline
	descent    = 432. / 2048  // of g, j, p and the like below it
	lineHeight = 1.3          // baseline to baseline
)

// A typeface is one weight of the family, read once and never changed after.
type typeface struct {
	font  *canvas.Font
	em    float64      // font units to the em
	ascii *[128]int    // advances of the plain letters, in font units: nearly all that is measured
	usual map[rune]int // those of the usual signs
}

// usualSigns are the characters beside the plain letters that sheets are full of. The family has them all.
const usualSigns = "″′°×–½¼¾⅛⅜⅝⅞⁄…•·"

var (
	regularFace = sync.OnceValue(Regular.load)
	boldFace    = sync.OnceValue(Bold.load)
)

// load reads the font, which is built into the program, so that an error is a bug.
func (w Weight) load() typeface {
	ttf, style := goregular.TTF, canvas.FontRegular
	if w == Bold {
		ttf, style = gobold.TTF, canvas.FontBold
	}
	font, err := canvas.LoadFont(bytes.Clone(ttf), 0, style)
	if err != nil {
		panic("sheet: built-in font: " + err.Error())
	}
	f := typeface{font: font, em: float64(font.SFNT.Head.UnitsPerEm), ascii: new([128]int), usual: map[rune]int{}}
	for r := range f.ascii {
		f.ascii[r] = f.advance(rune(r))
	}
	for _, r := range usualSigns {
		f.usual[r] = f.advance(r)
	}
	return f
}

func (w Weight) face() typeface {
	if w == Bold {
		return boldFace()
	}
	return regularFace()
}

// units returns the width of s in font units. The family has no kerning, so advances simply add up.
func (f typeface) units(s string) int {
	n := 0
	for _, r := range s {
		if r < rune(len(f.ascii)) {
			n += f.ascii[r]
		} else if w, ok := f.usual[r]; ok {
			n += w
		} else {
			n += f.advance(r)
		}
	}
	return n
}

func (f typeface) advance(r rune) int {
	return int(f.font.SFNT.GlyphAdvance(f.font.SFNT.GlyphIndex(r)))
}

// TextWidth returns how wide s is in mm at a size in points.
func TextWidth(s string, size float64, weight Weight) float64 {
	f := weight.face()
	return f.wide(f.units(printable(s, f)), size)
}

// wide returns the width in mm of so many font units at a size in points.
func (f typeface) wide(units int, size float64) float64 {
	return float64(units) / f.em * size * mmPerPoint
}

// CapHeight returns the height in mm of capitals and figures at a size in points.
func CapHeight(size float64) float64 { return capHeight * size * mmPerPoint }

// LineHeight returns the distance in mm from baseline to baseline at a size in points.
func LineHeight(size float64) float64 { return lineHeight * size * mmPerPoint }

// Wrap returns s broken at spaces into lines no wider than width mm; a word that is wider is broken between
// letters. Line ends in s are kept. An empty s gives one empty line.
func Wrap(s string, size float64, weight Weight, width float64) []string {
	f := weight.face()
	var lines []string
	for _, para := range strings.Split(s, "\n") {
		line, units := "", 0 // and how long it is
		for _, word := range wholeNumbers(strings.FieldsFunc(para, breaks)) {
			word = strings.ReplaceAll(word, noBreak, " ")
			n := f.units(printable(word, f))
			if line != "" && f.wide(units+f.ascii[' ']+n, size) <= width {
				line, units = line+" "+word, units+f.ascii[' ']+n
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			if line, units = word, n; f.wide(n, size) > width {
				var full []string
				full, line = breakWord(word, size, weight, width)
				lines, units = append(lines, full...), f.units(printable(line, f))
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// noBreak is a blank that no line ends at; it is drawn as any other.
const noBreak = "\u00a0"

func breaks(r rune) bool { return unicode.IsSpace(r) && string(r) != noBreak }

// wholeNumbers returns the words with those joined that are one number: no line ends within 4 3/16.
func wholeNumbers(words []string) []string {
	var out []string
	for _, w := range words {
		if n := len(out); n > 0 && isDigits(out[n-1]) && w[0] >= '0' && w[0] <= '9' && strings.ContainsAny(w, "/\u2044") {
			out[n-1] += noBreak + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func isDigits(s string) bool {
	return strings.Trim(s, "0123456789") == ""
}

// breakWord splits a word into full lines and the rest.
func breakWord(word string, size float64, weight Weight, width float64) (full []string, rest string) {
	for _, r := range word {
		if rest != "" && TextWidth(rest+string(r), size, weight) > width {
			full = append(full, rest)
			rest = ""
		}
		rest += string(r)
	}
	return full, rest
}

// spelledOut are characters that the family lacks, and what is printed in their place.
var spelledOut = strings.NewReplacer(
	"\u2153", "1\u20443", "\u2154", "2\u20443", "\u2159", "1\u20446", "\u215a", "5\u20446",
	"\u2009", " ", "\u202f", " ", "\u200a", "", "\u2007", " ", "\u2212", "\u2013",
)

// printable returns s as it can be printed on one line: control characters become spaces, and what the font
// lacks is spelled out or becomes a question mark.
func printable(s string, f typeface) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' && f.usual[r] == 0 }) {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r):
			return ' '
		case f.font.SFNT.GlyphIndex(r) == 0:
			return '?'
		}
		return r
	}, spelledOut.Replace(s))
}
