package library_test

import (
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"listel/library"
)

func named(name, title string) string {
	return "kind: profile\nname: " + name + "\ntitle: " + title + "\nunits: in\nground: 1/2\nelements:\n  - fillet: {height: 1/4}\n"
}

// A text that is not saved stands in front of its file, found by the file's name or by the name in it.
func TestUnsavedInFront(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "waist.yaml"), []byte(named("waist", "on disk")), 0o600))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	for key, name := range map[string]string{"waist.yaml": "waist", "waist": "waist", "sub/waist.yaml": "waist", "x.yml": "other"} {
		l := library.OpenOver(root.FS(), "", "", map[string]string{key: named(name, "being edited")})
		p, o, err := l.Profile(name)
		require.NoError(t, err, key)
		require.Equal(t, "being edited", p.Title)
		require.Equal(t, library.Project, o.Where)
	}
	p, _, err := library.OpenOver(root.FS(), "", "", nil).Profile("waist")
	require.NoError(t, err)
	require.Equal(t, "on disk", p.Title)
	p, o, err := library.OpenOver(root.FS(), "", "", nil).Profile("press-waist")
	require.NoError(t, err)
	require.Equal(t, library.Embedded, o.Where, p.Name)
}

// The list counts what is not saved, once.
func TestUnsavedListed(t *testing.T) {
	l := library.OpenOver(fstest.MapFS{"waist.yaml": {Data: []byte(named("waist", "on disk"))}}, "", "",
		map[string]string{"waist.yaml": named("waist", "being edited"), "new.yaml": named("new", "new")})
	titles := map[string]string{}
	for _, e := range l.List(library.KindProfile) {
		require.NotContains(t, titles, e.Name)
		titles[e.Name] = e.Title
	}
	require.Equal(t, "being edited", titles["waist"])
	require.Equal(t, "new", titles["new"])
}

// A link that leads out of the bounded folder is not followed.
func TestOpenOverStaysInside(t *testing.T) {
	out := filepath.Join(t.TempDir(), "secret.yaml")
	require.NoError(t, os.WriteFile(out, []byte(named("secret", "outside")), 0o600))
	dir := t.TempDir()
	require.NoError(t, os.Symlink(out, filepath.Join(dir, "secret.yaml")))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	_, _, err = library.OpenOver(root.FS(), "", "", nil).Profile("secret")
	require.Error(t, err)
	_, _, err = library.Open(dir, "").Profile("secret")
	require.NoError(t, err) // what a person links in by hand the commands follow
}
