package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/template/sheet/sheettest"
)

// Both examples have a plan proven to cost the least, and their sheets can be drawn.
func TestStockOfTheExamples(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"", "seed-cabinet"} {
		args := []string{"stock", "--out", "s.pdf"}
		if name != "" {
			args = append(args, name)
		}
		r := listel(t, "", args...)
		require.Equal(t, exitDone, r.code, r.err)
		require.Contains(t, r.out, "Proven: no way to rip these boards full length, each strip for one section alone, and cut the strips costs less.")
		require.Contains(t, r.out, "board feet")
		data, err := os.ReadFile("s.pdf")
		require.NoError(t, err)
		f, err := sheettest.ReadPDF(data)
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(f.Pages), 3)
	}
	require.Contains(t, listel(t, "", "stock").out, "B1 20 7/8 > B2 45 3/4 > B3 20 7/8") // the grain runs round
}

// Every field of the contract is there, cuts, kerfs and the rest make up each stick, and what is bought makes up the cost.
func TestStockJSON(t *testing.T) {
	r := listel(t, "", "stock", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var raw map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.out), &raw))
	for _, key := range []string{"sticks", "buy", "cost", "lower_bound", "proven"} {
		require.Contains(t, raw, key)
	}
	var got struct {
		Sticks []struct {
			Item   string  `json:"item"`
			Length float64 `json:"length_mm"`
			Cuts   []struct {
				Mark   string  `json:"mark"`
				Length float64 `json:"length_mm"`
			} `json:"cuts"`
			Kerf float64 `json:"kerf_mm"`
			Trim float64 `json:"trim_mm"`
			Left float64 `json:"left_mm"`
		} `json:"sticks"`
		Buy []struct {
			Item  string  `json:"item"`
			Count int     `json:"count"`
			Cost  float64 `json:"cost"`
		} `json:"buy"`
		Cost  float64 `json:"cost"`
		Lower float64 `json:"lower_bound"`
	}
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	require.NotEmpty(t, got.Sticks)
	for _, s := range got.Sticks {
		sum := s.Kerf + s.Trim + s.Left
		for _, c := range s.Cuts {
			sum += c.Length
		}
		require.InDelta(t, s.Length, sum, 0.01, s.Item)
	}
	cost := 0.0
	for _, b := range got.Buy {
		require.Positive(t, b.Count)
		cost += b.Cost
	}
	require.InDelta(t, got.Cost, cost, 1e-9)
	require.InDelta(t, got.Cost, got.Lower, 1e-9)
	require.Equal(t, r.out, listel(t, "", "stock", "--json").out, "same input, same output")
}

// A plain list: 4 rails of 22 1/2 in and 4 stiles of 30 in take two sticks of 10 ft.
func TestStockPieces(t *testing.T) {
	t.Chdir(t.TempDir())
	list := "kind: pieces\nunits: in\nshop: {kerf: 1/8, trim: 1}\nstock:\n  - {length: 10ft, price: 9}\npieces:\n  - {mark: rail, length: 22 1/2, count: 4}\n  - {mark: stile, length: 30, count: 4}\n"
	require.NoError(t, os.WriteFile("doors.yaml", []byte(list), 0o666))
	r := listel(t, "", "stock", "--pieces", "doors.yaml", "--out", "doors.pdf")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "in all 18.00")
	require.Contains(t, r.out, "20 keep") // 118 - 3 x 22 5/8 - 30 1/8
	require.FileExists(t, "doors.pdf")
	require.Equal(t, exitDone, listel(t, "", "check", "doors.yaml").code)
	require.Equal(t, exitUsage, listel(t, "", "stock", "herb-press", "--pieces", "doors.yaml").code)

	require.NoError(t, os.WriteFile("doors.yaml", []byte(strings.Replace(list, "10ft", "2ft", 1)), 0o666))
	r = listel(t, "", "stock", "--pieces", "doors.yaml")
	require.Equal(t, exitFile, r.code)
	require.Contains(t, r.err, "line 8: length of piece: piece stile is 30 in long, and the longest stick for it (stick, 2 ft long) gives 22 in, 8 in too little")
}

// stockCase is a small case, its stock after it.
const stockCase = `kind: case
name: box
units: in
stages:
  - {name: lower, plan: {width: 36, depth: 16}, height: 34}
wood: black cherry
moldings:
  - {name: base, profile: press-base, at: 0}
shop: {kerf: 1/8, rough: 1}
`

// What the stock makes impossible ends with exit code 3 and the line that would mend it, of check too; the packet does without.
func TestStockFaults(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct{ name, file, says string }{
		{"no stock at all", stockCase, "line 1: the case says nothing of stock; write what can be had, as in stock: [{wood: black cherry, thickness: 8/4, width: 6, length: 8ft, price: 54}]"},
		{"too long", stockCase + "stock: [{thickness: 5/4, width: 6, length: 3ft, price: 9}]\n",
			"line 8: profile of molding base: piece B2 is 39 3/4 in long, and the longest stick for it (5/4 black cherry, 6 in wide, 3 ft long) gives 34 in, 5 3/4 in too little"},
		{"none", stockCase + "stock:\n  - {thickness: 5/4, width: 6, length: 8ft, have: 0}\n", "line 11: have of stock is \"0\""},
		{"fewer than none", stockCase + "stock:\n  - {thickness: 5/4, width: 6, length: 8ft, have: -2}\n", "line 11: have of stock is \"-2\""},
		{"kerf", strings.Replace(stockCase, "1/8", "50", 1) + "stock: [{thickness: 5/4, width: 9, length: 8ft}]\n", "kerf of shop is 50; at most 1/2 in"},
		{"wood", stockCase + "stock: [{wood: ash, thickness: 5/4, width: 6, length: 8ft}]\n", "line 8: profile of molding base: no stock is of black cherry"},
		{"thickness", stockCase + "stock: [{thickness: 3/4, width: 4, length: 8ft}]\n", "line 8: profile of molding base: no stock is thick enough for"},
		{"width", stockCase + "stock: [{thickness: 5/4, width: 3, length: 8ft}]\n", "line 8: profile of molding base: no stock is wide enough for"},
		{"prices", stockCase + "stock:\n  - {thickness: 5/4, width: 6, length: 8ft, price: 38}\n  - {thickness: 5/4, width: 8, length: 8ft}\n",
			"line 12: 5/4 black cherry, 8 in wide, 8 ft long has no price, while other stock has one; give all or none"},
		{"too little", stockCase + "stock:\n  - {thickness: 5/4, width: 6, length: 8ft, have: 1}\n", "line 11: stock: the stock that can be had is not enough for press-base"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.NoError(t, os.WriteFile("box.yaml", []byte(c.file), 0o666))
			r := listel(t, "", "stock", "box.yaml", "--out", "no.pdf")
			require.Equal(t, exitFile, r.code, r.err)
			require.Contains(t, r.err, c.says)
			require.Empty(t, r.out)
			require.NoFileExists(t, "no.pdf")
		})
	}
	require.NoError(t, os.WriteFile("box.yaml", []byte(stockCase), 0o666))
	r := listel(t, "", "packet", "box.yaml", "--no-setups", "--force")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.err, "no sheets of what to buy: box.yaml, column 1 of line 1: the case says nothing of stock")
	require.NoError(t, os.WriteFile("box.yaml", []byte(stockCase+"stock: [{wood: ash, thickness: 5/4, width: 6, length: 8ft}]\n"), 0o666))
	r = listel(t, "", "check", "box.yaml")
	require.Equal(t, exitFile, r.code)
	require.Contains(t, r.err, "line 8: profile of molding base: no stock is of black cherry")
	require.NotContains(t, r.out, "nothing wrong")
}

// Without prices the plan takes as little wood as it can; an offcut on the rack counts for nothing.
func TestStockWithoutPrices(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("box.yaml", []byte(stockCase+"stock: [{thickness: 5/4, width: 6, length: 8ft}, {thickness: 5/4, width: 9, length: 8ft}]\n"), 0o666))
	r := listel(t, "", "stock", "box.yaml")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "in all 7.5 board feet") // 8 x 9 x 1 1/4 / 12; two of the narrow ones are 10
	require.Contains(t, r.out, "takes less wood")
}

func TestStockLimits(t *testing.T) {
	for _, c := range []struct {
		effort string
		limit  time.Duration
		want   time.Duration
		fails  bool
	}{
		{"quick", 0, 5 * time.Second, false}, {"usual", 0, 5 * time.Second, false}, {"long", 0, time.Minute, false},
		{"long", time.Second, time.Second, false}, {"lazy", 0, 0, true}, {"usual", -1, 0, true}, {"usual", 2 * time.Hour, 0, true},
	} {
		_, got, err := stockOptions{effort: c.effort, time: c.limit}.limits()
		require.Equal(t, c.fails, err != nil, c.effort)
		require.Equal(t, c.want, got)
	}
}

// The plain list of the README can be planned, and so can the cases that listel starts.
func TestReadmeListAndStarters(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	_, rest, found := strings.Cut(string(text), "```yaml\nkind: pieces\n")
	require.True(t, found)
	list, _, _ := strings.Cut(rest, "```")
	require.NoError(t, os.WriteFile("list.yaml", []byte("kind: pieces\n"+list), 0o666))
	r := listel(t, "", "stock", "--pieces", "list.yaml")
	require.Equal(t, exitDone, r.code, r.err)
	for _, units := range []string{"in", "mm"} {
		require.Equal(t, exitDone, listel(t, "", "new", "case", "box-"+units, "--units", units).code)
		r = listel(t, "", "stock", "box-"+units+".yaml")
		require.Equal(t, exitDone, r.code, r.err)
		require.Contains(t, r.out, "Proven")
	}
}
