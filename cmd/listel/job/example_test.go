package job_test

import (
	"fmt"

	"listel/cmd/listel/job"
	"listel/library"
)

// A text that is not saved yet is built as its file would be: 1/4 + 5/8 + 1/8 in high.
func Example() {
	text := "kind: profile\nname: shelf\ntitle: Edge of a shelf\nunits: in\nground: 1/2\nelements:\n" +
		"  - fillet: {height: 1/4}\n  - cove: {height: 5/8}\n  - fillet: {height: 1/8}\n"
	p, err := job.LoadProfile(library.Open("", ""), "shelf.yaml", text)
	if err == nil {
		p, err = p.Built()
	}
	fmt.Printf("%s, from %s: %.1f mm high %v\n", p.Title(), p.From(), p.Section.Height, err)
	// Output: Edge of a shelf, from shelf.yaml: 25.4 mm high <nil>
}
