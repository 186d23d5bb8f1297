package library

import (
	"strings"
	"unicode/utf8"
)

// Folded returns text in lines of most characters at most, a longer word on a line of its own; none for a text without words.
func Folded(text string, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > most {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	if line == "" {
		return lines
	}
	return append(lines, line)
}
