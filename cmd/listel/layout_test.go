package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mayImport is the dependency rule: for each package of ours, the others of ours that it may import. A package that is not
// listed here may not exist.
var mayImport = map[string][]string{
	"profile/geom":             {},
	"profile/measure":          {"profile/geom"},
	"profile":                  {"profile/geom", "profile/measure"},
	"profile/trace":            {"profile/geom", "profile/measure", "profile"},
	"miter/stock":              {},
	"miter":                    {"profile/geom", "profile/measure", "profile", "miter/stock"},
	"template/cutter":          {"profile/geom", "profile/measure", "profile"},
	"template/cutter/replay":   {},
	"template/scraper":         {"profile/geom", "profile/measure", "profile"},
	"template/sheet":           {"profile/geom", "profile/measure"},
	"template/sheet/sheettest": {"profile/geom"},
	"template": {"profile/geom", "profile/measure", "profile", "profile/trace", "miter", "miter/stock",
		"template/cutter", "template/scraper", "template/sheet"},
	"library": {"profile/geom", "profile/measure", "profile", "profile/trace", "miter", "miter/stock",
		"template/cutter", "template/scraper"},
	"cmd/listel": {"profile/geom", "profile/measure", "profile", "profile/trace", "miter", "miter/stock",
		"template/cutter", "template/cutter/replay", "template/scraper", "template/sheet", "template", "library", "cmd/listel/job", "cmd/listel/serve"},
	"cmd/listel/job": {"profile/geom", "profile/measure", "profile", "profile/trace", "miter", "miter/stock",
		"template/cutter", "template/cutter/replay", "template/scraper", "template/sheet", "template", "library"},
	"cmd/listel/serve": {"profile/geom", "profile/measure", "profile", "profile/trace", "miter", "miter/stock",
		"template/cutter", "template/scraper", "template/sheet", "template", "library", "cmd/listel/job"},
}

// onlyIn names what may be imported in some places alone: a path or its prefix, and the packages that may.
var onlyIn = map[string][]string{
	"github.com/tdewolff/canvas": {"template/sheet"},
	"github.com/spf13/cobra":     {"cmd/"},
	"gopkg.in/yaml.v3":           {"library"},
	"os":                         {"library", "cmd/", "template/sheet"},
	"flag":                       {"cmd/"},
	"net":                        {"cmd/listel/serve"}, // and net/http: nothing else listens or asks
	"github.com/fsnotify":        {"cmd/listel/serve"},
}

func TestLayout(t *testing.T) {
	faults, err := layoutFaults("../..")
	require.NoError(t, err)
	require.Empty(t, faults)
}

// TestLayoutCatches proves that the rule can fail: each of these files breaks it once.
func TestLayoutCatches(t *testing.T) {
	cases := []struct{ pkg, source, want string }{
		{"profile/geom", `package geom; import _ "listel/profile"`, "may not import listel/profile"},
		{"profile/geom", `package geom; import _ "github.com/stretchr/testify/require"`, "standard library only"},
		{"miter", `package miter; import _ "listel/template"`, "may not import listel/template"},
		{"miter", `package miter; import _ "os"`, `"os" is for`},
		{"template", `package template; import _ "github.com/tdewolff/canvas"`, "canvas"},
		{"profile", `package profile; import _ "gopkg.in/yaml.v3"`, "yaml"},
		{"library", `package library; import _ "github.com/spf13/cobra"`, "cobra"},
		{"library", `package library; import _ "net/http"`, "net"},
		{"template", `package template; import _ "listel/cmd/listel/serve"`, "may not import listel/cmd"},
		{"template/sheet", `package sheet; import "time"; var x = time.Now()`, "clock"},
		{"helpers", `package helpers`, "no such package"},
	}
	for _, c := range cases {
		f, err := parser.ParseFile(token.NewFileSet(), "x.go", c.source, 0)
		require.NoError(t, err)
		require.Contains(t, strings.Join(fileFaults(c.pkg, "x.go", f), "\n"), c.want)
	}
}

// layoutFaults reads every Go file that is no test under root and returns what breaks the dependency rule.
func layoutFaults(root string) ([]string, error) {
	var faults []string
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata" || d.Name() == "node_modules") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		faults = append(faults, fileFaults(filepath.ToSlash(filepath.Dir(rel)), filepath.ToSlash(rel), f)...)
		return nil
	})
	return faults, err
}

// fileFaults returns what in one file of the package pkg breaks the rule.
func fileFaults(pkg, name string, f *ast.File) []string {
	allowed, ok := mayImport[pkg]
	if !ok {
		return []string{name + ": no such package in the layout: " + pkg}
	}
	var faults []string
	for _, spec := range f.Imports {
		path, _ := strconv.Unquote(spec.Path.Value)
		if ours, is := strings.CutPrefix(path, "listel/"); is && !slices.Contains(allowed, ours) {
			faults = append(faults, name+": "+pkg+" may not import "+path)
		}
		if pkg == "profile/geom" && strings.Contains(path, ".") {
			faults = append(faults, name+": geom uses the standard library only, not "+path)
		}
		for what, where := range onlyIn {
			if (path == what || strings.HasPrefix(path, what+"/")) && !allowedIn(pkg, where) {
				faults = append(faults, name+": "+strconv.Quote(path)+" is for "+strings.Join(where, ", ")+" alone")
			}
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && x.Name == "time" && sel.Sel.Name == "Now" && !strings.HasPrefix(pkg, "cmd/") {
				faults = append(faults, name+": the clock is read in cmd alone")
			}
		}
		return true
	})
	return faults
}

func allowedIn(pkg string, where []string) bool {
	return slices.ContainsFunc(where, func(w string) bool {
		return pkg == w || strings.HasPrefix(pkg, w) && strings.HasSuffix(w, "/")
	})
}
