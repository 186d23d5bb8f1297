package library

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// folderNames returns what is in a folder, hidden files too.
func folderNames(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestWriteFileReplacesOnlyItsOwn(t *testing.T) {
	var img bytes.Buffer
	require.NoError(t, png.Encode(&img, image.NewGray(image.Rect(0, 0, 3, 3))))
	cases := []struct {
		name, ours, foreign string
	}{
		{"a.pdf", "%PDF-1.7\n<</Producer(listel)>> 1", "%PDF-1.7\n<</Producer(another)>>"},
		{"a.svg", "<svg>1</svg>\n", "<svg>mine</svg>"},
		{"a.png", img.String(), img.String()},
		{"a.yaml", "kind: profile\n", "kind: profile\nname: mine\n"},
		{"a.yml", "kind: case", "kind: case"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, c.name)
			require.NoError(t, WriteFile(path, []byte(c.ours), WriteOptions{}))
			require.NoError(t, WriteFile(path, []byte(c.ours+"2"), WriteOptions{}), "our own file")
			got, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, string(Marked(path, []byte(c.ours+"2"))), string(got))

			require.NoError(t, os.WriteFile(path, []byte(c.foreign), 0o666))
			require.NoError(t, os.Chmod(path, 0o640))
			err = WriteFile(path, []byte(c.ours), WriteOptions{})
			require.ErrorIs(t, err, fs.ErrExist)
			require.ErrorContains(t, err, "--force")
			got, err = os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, c.foreign, string(got), "kept")

			require.NoError(t, WriteFile(path, []byte(c.ours), WriteOptions{Force: true}))
			info, err := os.Stat(path)
			require.NoError(t, err)
			require.Equal(t, fs.FileMode(0o640), info.Mode().Perm(), "permissions stay")
			require.Equal(t, []string{c.name}, folderNames(t, dir), "nothing else is left")
		})
	}
}

// A YAML file changed by hand is the user's own; put back as it was, it is ours again.
func TestWriteFileYAMLChangedByHand(t *testing.T) {
	path := filepath.Join(t.TempDir(), "press.yaml")
	require.NoError(t, WriteFile(path, []byte("kind: profile\n"), WriteOptions{}))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	changed := bytes.Replace(data, []byte("profile\n"), []byte("profile # mine\n"), 1)
	require.NoError(t, os.WriteFile(path, changed, 0o666))
	require.ErrorIs(t, WriteFile(path, []byte("kind: case\n"), WriteOptions{}), fs.ErrExist)
	require.NoError(t, os.WriteFile(path, data, 0o666))
	require.NoError(t, WriteFile(path, []byte("kind: case\n"), WriteOptions{}))
	require.NoError(t, WriteFile(path, []byte("kind: case\n"), WriteOptions{Plain: true}))
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "kind: case\n", string(got))
}

// The same bytes are no replacing.
func TestWriteFileSameBytes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list.csv")
	require.NoError(t, WriteFile(path, []byte("a,b\n"), WriteOptions{}))
	require.NoError(t, WriteFile(path, []byte("a,b\n"), WriteOptions{}))
	require.ErrorIs(t, WriteFile(path, []byte("a,c\n"), WriteOptions{}), fs.ErrExist)
}

func TestWriteFileRefusals(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "target.svg")
	require.NoError(t, os.WriteFile(target, []byte("mine"), 0o666))
	require.NoError(t, os.Symlink(target, filepath.Join(dir, "link.svg")))
	require.NoError(t, os.Symlink("nowhere", filepath.Join(dir, "dead.svg")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder.svg"), 0o777))
	piped := makePipe(t, filepath.Join(dir, "pipe.svg"))
	before := folderNames(t, dir)
	for name, want := range map[string]string{
		"link.svg":         "symbolic link",
		"dead.svg":         "symbolic link",
		"folder.svg":       "it is a folder",
		"pipe.svg":         "no regular file",
		"no/such/x.svg":    "no such file or directory",
		"target.svg/x.svg": "not a directory",
	} {
		if name == "pipe.svg" && !piped {
			continue
		}
		err := WriteFile(filepath.Join(dir, name), []byte("<svg></svg>"), WriteOptions{Force: true})
		require.ErrorContains(t, err, want, name)
		require.ErrorContains(t, err, "cannot write "+filepath.Join(dir, name))
	}
	require.Equal(t, before, folderNames(t, dir))
	got, err := os.ReadFile(target)
	require.NoError(t, err)
	require.Equal(t, "mine", string(got))
	require.NoError(t, WriteFile(filepath.Join(dir, "made/here/x.svg"), []byte("<svg></svg>"), WriteOptions{MakeFolder: true}))
}

// A folder that nothing can be written to: /proc is one for root, too.
func TestWriteFileReadOnlyFolder(t *testing.T) {
	if _, err := os.Stat("/proc/self"); err != nil {
		t.Skip("this machine has no /proc")
	}
	require.ErrorContains(t, WriteFile("/proc/listel-test.svg", []byte("<svg></svg>"), WriteOptions{}), "cannot write /proc/listel-test.svg: ")
}

// A disk that fills up while writing leaves the old file and nothing else.
func TestWriteWholeFullDisk(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.svg")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o666))
	err := writeWhole(path, &presentFile{mode: 0o666}, func(w io.Writer) error {
		_, err := w.Write([]byte("half"))
		require.NoError(t, err)
		require.Len(t, folderNames(t, dir), 2)
		return syscall.ENOSPC
	})
	require.ErrorIs(t, err, syscall.ENOSPC)
	require.Equal(t, []string{"a.svg"}, folderNames(t, dir))
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "old", string(got))
}

// Of several files none is written, and no folder made, when the work is stopped before the last is ready, or when the last may not be replaced.
func TestWriteFilesTogether(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "a.svg")
	require.NoError(t, WriteFile(old, []byte("<svg>old</svg>"), WriteOptions{}))
	was, err := os.ReadFile(old)
	require.NoError(t, err)
	files := []File{{old, []byte("<svg>new</svg>")}, {filepath.Join(dir, "b/c/b.svg"), []byte("<svg>b</svg>")}, {filepath.Join(dir, "b/c/c.svg"), []byte("<svg>c</svg>")}}
	asked := 0
	stop := errors.New("stopped")
	err = WriteFiles(files, WriteOptions{MakeFolder: true, Stopped: func() error {
		if asked++; asked == 3 {
			require.Len(t, folderNames(t, filepath.Join(dir, "b/c")), 1, "the second is ready by now")
			return stop
		}
		return nil
	}})
	require.ErrorIs(t, err, stop)
	require.Equal(t, []string{"a.svg"}, folderNames(t, dir))
	now, err := os.ReadFile(old)
	require.NoError(t, err)
	require.Equal(t, was, now)

	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.svg"), []byte("<svg/>"), 0o666))
	require.ErrorIs(t, WriteFiles(append(files, File{filepath.Join(dir, "mine.svg"), []byte("x")}), WriteOptions{MakeFolder: true}), fs.ErrExist)
	require.Equal(t, []string{"a.svg", "mine.svg"}, folderNames(t, dir))

	require.NoError(t, WriteFiles(files, WriteOptions{MakeFolder: true}))
	require.Equal(t, []string{"a.svg", "b", "mine.svg"}, folderNames(t, dir))
	require.Equal(t, []string{"b.svg", "c.svg"}, folderNames(t, filepath.Join(dir, "b/c")))
}

// What fails on the way to a file leaves none of the folders that were made for it, however far it came, and takes none that were there.
func TestWriteFilesUnmakesFolders(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "empty"), 0o777))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.svg"), []byte("mine"), 0o666))
	before := folderNames(t, dir)
	long := strings.Repeat("x", 300) // longer than the name of a folder may be
	for _, paths := range [][]string{
		{"nd/" + long + "/a.svg"},
		{"nd/of/" + long + "/more/a.svg"},
		{"empty/" + long + "/a.svg"},
		{"mine.svg/nd/a.svg"},
		{"nd/b/a.svg", "nd/c/a.svg", "mine.svg"},
		{"nd/b/a.svg", "nd/c/" + long + "/a.svg"},
	} {
		var files []File
		for _, p := range paths {
			files = append(files, File{filepath.Join(dir, p), []byte("<svg/>")})
		}
		require.Error(t, WriteFiles(files, WriteOptions{MakeFolder: true}), paths)
		require.Equal(t, before, folderNames(t, dir), paths)
		require.Empty(t, folderNames(t, filepath.Join(dir, "empty")), paths)
	}
}

// A file that appears while ours is being written is kept.
func TestWriteWholeRace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.svg")
	err := writeWhole(path, nil, func(w io.Writer) error { return os.WriteFile(path, []byte("theirs"), 0o666) })
	require.True(t, errors.Is(err, fs.ErrExist), "%v", err)
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "theirs", string(got))
}

// A marked PNG is still a picture that reads.
func TestMarkedPNG(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 5, 4))))
	marked := Marked("a.png", b.Bytes())
	img, err := png.Decode(bytes.NewReader(marked))
	require.NoError(t, err)
	require.Equal(t, 5, img.Bounds().Dx())
	require.True(t, byListel("a.png", marked))
	require.Equal(t, marked, Marked("a.png", marked), "marked once")
}
