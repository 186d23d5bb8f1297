package library

import (
	"strings"
	"unicode/utf8"
)

// Near returns the one of names that word most likely was meant to be, "" when none is near: at most one letter wrong
// in three, a pair of letters exchanged counting as one, capitals, spaces and underscores aside. The first of
// equally near ones is taken.
func Near(word string, names []string) string {
	word = plainName(word)
	best, least := "", 1+max(1, utf8.RuneCountInString(word)/3)
	for _, n := range names {
		if d := editDistance(word, plainName(n)); d < least {
			best, least = n, d
		}
	}
	return best
}

// plainName returns a name as Near compares it.
func plainName(s string) string {
	return strings.NewReplacer("_", "-", " ", "-").Replace(strings.ToLower(strings.TrimSpace(s)))
}

// maxNear bounds the length of the words that are compared, in characters: longer ones are no misspelled names.
const maxNear = 64

// editDistance returns the least number of letters to insert, drop, change or exchange with their neighbor that turns a
// into b (optimal string alignment).
func editDistance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > maxNear || len(t) > maxNear {
		return maxNear
	}
	rows := make([][]int, len(s)+1)
	for i := range rows {
		rows[i] = make([]int, len(t)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(s); i++ {
		for j := 1; j <= len(t); j++ {
			change := rows[i-1][j-1]
			if s[i-1] != t[j-1] {
				change++
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(s)][len(t)]
}

// nearOr returns "NAME?" for the name near word, else the whole list after lead.
func nearOr(word string, names []string, lead string) string {
	if n := Near(word, names); n != "" {
		return n + "?"
	}
	return lead + " " + strings.Join(names, ", ")
}
