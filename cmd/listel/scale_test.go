package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// A growth is one thing that a user may have more of: its sizes, the least of them about that of the example; the files of one size, all
// invented; and the commands that read them.
type growth struct {
	what     string
	sizes    []int
	files    func(tb testing.TB, dir, home string, n int)
	commands []string
}

// growths are those of the benchmark. The largest sizes are at the limits of what is read.
var growths = []growth{
	{"members of a section", []int{5, 50, 500}, manyMembers, []string{"check many.yaml", "section many.yaml --json", "section many.yaml --out s.svg", "template many.yaml --paper A0 --out t.pdf",
		"scraper many.yaml --json", "scraper many.yaml --paper A0 --out b.pdf"}},
	{"members, with set-ups", []int{3, 10, 30}, manyMembers, []string{"setups many.yaml --no-cache --effort quick --json", "setups many.yaml --no-cache --json"}},
	{"moldings of a case", []int{2, 20, 60}, manyMoldings, []string{"check case.yaml", "miter case.yaml --json", "stock case.yaml --json", "packet case.yaml --no-setups --paper A3 --out p.pdf"}},
	{"corners of a case", []int{6, 60, 200}, manyCorners, []string{"check case.yaml", "miter case.yaml --json"}},
	{"drawers of a case", []int{8, 80, 800}, manyDrawers, []string{"check case.yaml", "miter case.yaml --json", "packet case.yaml --no-setups --out p.pdf"}},
	{"pieces in a list", []int{10, 100, 1000}, manyPieces, []string{"check pieces.yaml", "stock --pieces pieces.yaml --json", "stock --pieces pieces.yaml --out p.pdf"}},
	{"entries of stock", []int{2, 20, 200}, manyStock, []string{"check pieces.yaml", "stock --pieces pieces.yaml --json"}},
	{"profiles of the user's own", []int{10, 100, 1000}, manyProfiles, []string{"library list", "library find cove fillet", "section own-7", "packet --no-setups --out p.pdf"}},
	{"megapixels of a plate", []int{2, 10, 100}, manyPixels, []string{"trace plate.yaml"}},
}

// BenchmarkScale runs every command over files from the size of an example to the limits, as processes of their own, and prints the processor's time and
// the memory each took, and the power of the size that the last step grew with, that of the process's own start taken off.
//
//	go test -run - -bench Scale -benchtime 1x ./cmd/listel
func BenchmarkScale(b *testing.B) {
	program := built(b)
	start := runs(b, program, b.TempDir(), b.TempDir(), "library", "list", "paper")
	fmt.Printf("\n| what grows | command | sizes | time of the processor and memory | power |\n| --- | --- | --- | --- | --- |\n")
	for _, g := range growths {
		b.Run(g.what, func(b *testing.B) {
			for b.Loop() {
				g.grow(b, program, start)
			}
		})
	}
}

// grow prints the rows of a growth.
func (g growth) grow(b *testing.B, program string, start use) {
	uses := make([][]string, len(g.commands))
	last := make([][]float64, len(g.commands))
	var sizes []string
	for _, n := range g.sizes {
		dir, home := b.TempDir(), b.TempDir()
		g.files(b, dir, home, n)
		sizes = append(sizes, fmt.Sprint(n))
		for i, command := range g.commands {
			u := runs(b, program, dir, home, strings.Fields(command)...)
			if u.code != exitDone {
				fmt.Printf("%s, %d: %s: %d %.300s\n", g.what, n, command, u.code, u.errs)
			}
			uses[i] = append(uses[i], u.String())
			last[i] = append(last[i], math.Max(0.001, (u.cpu-start.cpu).Seconds()))
		}
	}
	for i, command := range g.commands {
		k := len(g.sizes) - 1
		power := math.Log(last[i][k]/last[i][k-1]) / math.Log(float64(g.sizes[k])/float64(g.sizes[k-1]))
		fmt.Printf("| %s | `%s` | %s | %s | %.1f |\n", g.what, command, strings.Join(sizes, ", "), strings.Join(uses[i], "; "), power)
	}
}

// put writes a file of the benchmark.
func put(tb testing.TB, path, text string) {
	tb.Helper()
	require.NoError(tb, os.MkdirAll(filepath.Dir(path), 0o777))
	require.NoError(tb, os.WriteFile(path, []byte(text), 0o666))
}

// manyMembers writes a molding of n members, the steps outward and back by turns.
func manyMembers(tb testing.TB, dir, _ string, n int) {
	members := []string{"fillet: {height: 3, set: 1}", "cove: {height: 4}", "astragal: {height: 4, set: 1}", "fillet: {height: 3, set: -2}", "ovolo: {height: 4}", "thumb: {height: 4, projection: -4}", "fillet: {height: 3, set: -3}"}
	var b strings.Builder
	b.WriteString("kind: profile\nname: many\nunits: mm\nground: 40\nelements:\n")
	for i := range n - 1 {
		b.WriteString("  - " + members[i%len(members)] + "\n")
	}
	b.WriteString("  - fillet: {height: 6, set: 1}\n")
	put(tb, filepath.Join(dir, "many.yaml"), b.String())
}

// manyMoldings writes a case with n moldings round three sides, one above the other, and the stock for them.
func manyMoldings(tb testing.TB, dir, _ string, n int) {
	var b strings.Builder
	b.WriteString("kind: case\nname: case\nunits: mm\nwood: black cherry\nplan: {width: 900, depth: 400}\nheight: 18000\nmoldings:\n")
	for i := range n {
		fmt.Fprintf(&b, "  - {name: m%d, profile: edge-bead, at: %d, ends: wall, reach: {left: %g}}\n", i, 20+i*85, 2+float64(i%7)/4)
	}
	b.WriteString("stock:\n  - {wood: black cherry, thickness: 4/4, width: 150, length: 2400, price: 30}\n  - {wood: black cherry, thickness: 4/4, width: 190, length: 3000, price: 45}\n")
	put(tb, filepath.Join(dir, "case.yaml"), b.String())
}

// manyCorners writes a case on a plan of n sides with a molding round all of them.
func manyCorners(tb testing.TB, dir, _ string, n int) {
	var points, edges []string
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		points, edges = append(points, fmt.Sprintf("[%.6f, %.6f]", 5000*math.Cos(a), 5000*math.Sin(a))), append(edges, fmt.Sprintf("e%d", i))
	}
	put(tb, filepath.Join(dir, "case.yaml"), fmt.Sprintf("kind: case\nname: case\nunits: mm\nwood: black cherry\nplan: {outline: [%s], edges: [%s], freestanding: true}\nheight: 900\nmoldings:\n  - {name: base, profile: press-base, at: 0, runs: all}\n",
		strings.Join(points, ", "), strings.Join(edges, ", ")))
}

// manyDrawers writes a case of n drawers, eight in a row, with beads round each.
func manyDrawers(tb testing.TB, dir, _ string, n int) {
	rows := make([]string, n/8)
	for i := range rows {
		rows[i] = "{height: 60, drawers: 8}"
	}
	put(tb, filepath.Join(dir, "case.yaml"), fmt.Sprintf("kind: case\nname: case\nunits: mm\nwood: black cherry\nplan: {width: 3000, depth: 400}\nheight: 9000\n"+
		"moldings:\n  - {name: base, profile: press-base, at: 0, ends: wall}\nopenings:\n  area: {left: 20, right: 20, bottom: 150, top: %d}\n  divider: 18\n  graduate: {rows: [%s]}\nbeads: {profile: edge-bead}\n",
		150+len(rows)*60+(len(rows)-1)*18, strings.Join(rows, ", ")))
}

// manyPieces writes a list of n pieces in lengths that a maker's would have.
func manyPieces(tb testing.TB, dir, _ string, n int) { pieceList(tb, dir, n, 4) }

// manyStock writes a list of 20 pieces, and n lengths to cut them from.
func manyStock(tb testing.TB, dir, _ string, n int) { pieceList(tb, dir, 20, n) }

func pieceList(tb testing.TB, dir string, pieces, lengths int) {
	var b strings.Builder
	b.WriteString("kind: pieces\nname: pieces\nunits: in\nstock:\n")
	for i := range lengths {
		length := 96 + 24*i
		if i > 3 {
			length = 20 + i*7%180
		}
		fmt.Fprintf(&b, "  - {length: %d, price: %.2f}\n", length, float64(length)/8+float64(i%5)/4)
	}
	b.WriteString("pieces:\n")
	for i := range pieces {
		fmt.Fprintf(&b, "  - {mark: P%d, length: %d %d/8}\n", i+1, 10+i*37%60, 1+i%7)
	}
	put(tb, filepath.Join(dir, "pieces.yaml"), b.String())
}

// manyProfiles writes n profiles into the user's library.
func manyProfiles(tb testing.TB, _, home string, n int) {
	for i := range n {
		put(tb, filepath.Join(home, "listel", fmt.Sprintf("own-%d.yaml", i)),
			fmt.Sprintf("kind: profile\nname: own-%d\nunits: mm\nground: 20\nelements:\n  - fillet: {height: 5}\n  - cove: {height: %d}\n  - fillet: {height: 4, set: 2}\n", i, 8+i%20))
	}
}

// manyPixels writes a page of n megapixels with the plate that comes with listel on it, and the file that traces it.
func manyPixels(tb testing.TB, dir, _ string, n int) {
	plate, err := png.Decode(bytes.NewReader(library.StarterPlate()))
	require.NoError(tb, err)
	side := int(math.Sqrt(float64(n) * 1e6))
	page := image.NewGray(image.Rect(0, 0, max(side, plate.Bounds().Dx()), max(side, plate.Bounds().Dy())))
	draw.Draw(page, page.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(page, plate.Bounds(), plate, image.Point{}, draw.Src)
	var b bytes.Buffer
	require.NoError(tb, (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, page))
	put(tb, filepath.Join(dir, "plate.png"), b.String())
	text, err := os.ReadFile("../../library/starters/trace-mm.yaml")
	require.NoError(tb, err)
	put(tb, filepath.Join(dir, "plate.yaml"), strings.ReplaceAll(string(text), "NAME", "plate"))
}
