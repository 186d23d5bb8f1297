package library

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// A Printer is a printer whose error was measured: how long it prints a bar divided by how long the bar should be, across
// and up a sheet that stands on its short side.
type Printer struct {
	Name   string  `json:"name"`
	Across float64 `json:"across"` // 0.5 to 2
	Up     float64 `json:"up"`     // 0.5 to 2
}

const printersFile = "printers.yaml"

// LoadPrinters reads a file of measured printers. The error is Mistakes.
func LoadPrinters(file string, data []byte) ([]Printer, *Source, error) {
	v, err := open(file, data, "printers")
	if err != nil {
		return nil, nil, err
	}
	var all []Printer
	v.mapping("printers",
		optional("kind", ignore),
		required("printers", "a list of measured printers", func(v value) {
			v.list(maxEntries, func(i int) string { return ordinal("printer", i) }, func(_ int, item value) {
				p := Printer{}
				item.mapping(item.name,
					required("name", "shop", text(&p.Name)),
					required("across", "0.994", number(&p.Across, 0.5, 2)),
					required("up", "0.998", number(&p.Up, 0.5, 2)))
				all = append(all, p)
			})
		}))
	return all, v.d.source, v.d.err()
}

// Printers returns the printers recorded in the user's folder, by name; none when nothing is recorded.
func Printers(user string) ([]Printer, error) {
	path := filepath.Join(user, printersFile)
	data, err := readFile(os.DirFS(cmp.Or(user, ".")), printersFile)
	if user == "" || errors.Is(err, fs.ErrNotExist) {
		return []Printer{}, nil
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, reason(err))
	}
	all, _, err := LoadPrinters(path, data)
	return all, err
}

// RecordPrinter keeps p in the user's folder, in place of one of the same name.
func RecordPrinter(user string, p Printer) error {
	if why := nameFault(p.Name); why != "" {
		return errors.New(why)
	}
	all, err := Printers(user)
	if err != nil {
		return err
	}
	all = slices.DeleteFunc(all, func(q Printer) bool { return q.Name == p.Name })
	all = append(all, p)
	slices.SortFunc(all, func(a, b Printer) int { return strings.Compare(a.Name, b.Name) })
	var b bytes.Buffer
	b.WriteString("# Measured printers: how long each prints a bar, divided by how long the bar should be.\nkind: printers\nprinters:\n")
	for _, q := range all {
		fmt.Fprintf(&b, "  - {name: %s, across: %s, up: %s}\n", strconv.Quote(q.Name), decimal(q.Across), decimal(q.Up))
	}
	return WriteFile(filepath.Join(user, printersFile), b.Bytes(), WriteOptions{Force: true, MakeFolder: true})
}

// decimal writes a factor to a hundred-thousandth.
func decimal(v float64) string {
	return strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 5, 64), "0"), ".")
}
