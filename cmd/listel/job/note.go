package job

// A Note tells of what is odd but possible. It knows which key of the file it asks for, so that whoever shows it can name what their reader
// sets that by: on a terminal the key, on the page its field.
type Note struct {
	Key   string // stock or blank; "" when it asks for none
	Found string // what is so
	Do    string // what to write in the file, as the end of the sentence; "" when that needs no saying
}

// String returns the note in the words of the file.
func (n Note) String() string { return n.Found + n.Do }

// told returns notes that ask for nothing.
func told(words []string) []Note {
	out := make([]Note, len(words))
	for i, w := range words {
		out[i].Found = w
	}
	return out
}
