package measure

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A LengthError says why a text is no length.
type LengthError struct {
	Text   string // as it was given
	Reason string // why it will not do and what would
}

// Error quotes the text and gives the reason.
func (e *LengthError) Error() string { return quote(e.Text) + " is not a length: " + e.Reason }

// A ValueError says why a text is not what was asked for: an angle, a temperature, a per cent, a number or a unit.
type ValueError struct {
	What   string // what was asked for, such as "angle"
	Text   string // as it was given
	Reason string // why it will not do
	Want   string // examples of what would
}

// Error quotes the text, gives the reason and says what would do.
func (e *ValueError) Error() string {
	article := "a "
	if strings.ContainsAny(e.What[:min(1, len(e.What))], "aeio") {
		article = "an "
	}
	return quote(e.Text) + " is not " + article + e.What + ": " + e.Reason + "; write " + e.Want
}

// quote returns text as an error may show it: whole when short, control characters escaped, and in back quotes
// when it holds an inch mark, which would read badly behind a backslash.
func quote(text string) string {
	if utf8.RuneCountInString(text) > maxRunes {
		text = string([]rune(text)[:maxRunes]) + "..."
	}
	if strings.Contains(text, `"`) && strconv.CanBackquote(text) {
		return "`" + text + "`"
	}
	return strconv.Quote(text)
}
