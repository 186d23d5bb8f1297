package template

import "strings"

// stageNoun returns what a stage is called within a sentence: its name, made a noun where it is only a place, as in the lower case.
func stageNoun(name string) string {
	for _, noun := range []string{"case", "stage", "chest", "press", "cabinet", "desk", "stand", "box"} {
		if strings.HasSuffix(name, noun) {
			return name
		}
	}
	return name + " case"
}
