package miter

import (
	"fmt"
	"strings"
)

// choose says what a misspelled name could have been: "NAME?" when one of names is near it, else all of them.
func choose(word string, names []string) string {
	best, least := "", len(word)/3+1
	for _, n := range names {
		if d := distance(word, n); d <= least {
			best, least = n, d-1
		}
	}
	if best != "" {
		return fmt.Sprintf("%q; %s?", word, best)
	}
	return fmt.Sprintf("%q; it has %s", word, strings.Join(names, ", "))
}

// distance returns the fewest letters to insert, drop or change to turn a into b.
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	row := make([]int, len(t)+1)
	for j := range row {
		row[j] = j
	}
	for i := range s {
		diagonal := row[0]
		row[0] = i + 1
		for j := range t {
			change := diagonal
			if s[i] != t[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, diagonal+1)
		}
	}
	return row[len(t)]
}
