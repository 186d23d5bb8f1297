package library

import (
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

//go:embed profiles/*.yaml examples/*.yaml tools/*.yaml data/*.yaml
var embedded embed.FS

// A Where names the place that a library entry came from.
type Where string

// The places, in the order in which they are looked in.
const (
	Project  Where = "project"  // the folder of the case or profile at hand
	User     Where = "user"     // the user's library
	Embedded Where = "embedded" // what listel brings along
)

// An Origin says where an entry came from.
type Origin struct {
	Where Where  `json:"where"`
	File  string `json:"file"` // path of the file; within the embedded library for Embedded
}

// String returns the origin in words: "project file press.yaml", "your library, press.yaml" or "embedded library".
func (o Origin) String() string {
	switch o.Where {
	case Project:
		return "project file " + o.File
	case User:
		return "your library, " + o.File
	}
	return "embedded library"
}

// A folder is one place to look in.
type folder struct {
	where Where
	fsys  fs.FS
	dir   string               // path before the names of its files
	named map[entryName]string // the files by what they say they are, nil where they are read for it anew
}

// An entryName is a kind of entry and the name that its file gives it.
type entryName struct{ kind, name string }

// indexed returns the library as it is now, its files read for their names once: to look up all that it holds.
func (l *Library) indexed() *Library {
	now := &Library{folders: slices.Clone(l.folders)}
	for i, f := range now.folders {
		named := map[entryName]string{}
		for _, file := range f.yamlNames() {
			data, err := readFile(f.fsys, file)
			h := HeadOf(data)
			e := entryName{h.Kind, h.Name}
			if _, taken := named[e]; err == nil && !taken {
				named[e] = file
			}
		}
		now.folders[i].named = named
	}
	return now
}

func (f folder) file(name string) string {
	if f.where == Embedded {
		return path.Join(f.dir, name)
	}
	return filepath.Join(f.dir, name)
}

// A Library looks names up in the project's folder, then in the user's library, then in the embedded one. It reads the
// folders anew each time, so that it sees edits. Start from Open.
type Library struct{ folders []folder }

// Open returns the library of a project folder and a user's folder; an empty path leaves one out, and a folder that is not there
// is empty.
func Open(project, user string) *Library {
	l := &Library{}
	if project != "" {
		l.folders = append(l.folders, folder{where: Project, fsys: os.DirFS(project), dir: project})
	}
	if user != "" {
		l.folders = append(l.folders, folder{where: User, fsys: os.DirFS(user), dir: user})
	}
	for _, dir := range []string{"profiles", "examples", "tools"} {
		sub, err := fs.Sub(embedded, dir)
		if err != nil {
			panic(err) // the embedded tree always holds it
		}
		l.folders = append(l.folders, folder{where: Embedded, fsys: sub, dir: dir})
	}
	return l
}

// UserFolder returns the folder of the user's library: listel below $XDG_DATA_HOME, which is the machine's own folder for such files when unset or
// relative: %AppData% on Windows, ~/Library/Application Support on macOS, else ~/.local/share. It is empty when the machine names no home.
func UserFolder() string {
	base := os.Getenv("XDG_DATA_HOME")
	if !filepath.IsAbs(base) { // the XDG Base Directory Specification ignores a relative path
		var err error
		if base, err = dataFolder(runtime.GOOS); err != nil {
			return ""
		}
	}
	return filepath.Join(base, "listel")
}

// dataFolder returns where a system of that name keeps what programs hold for their user.
func dataFolder(system string) (string, error) {
	if system == "windows" || system == "darwin" {
		return os.UserConfigDir()
	}
	home, err := os.UserHomeDir()
	return filepath.Join(home, ".local", "share"), err
}

// A NotFoundError says that no entry has a name.
type NotFoundError struct {
	Kind string // "profile", "wood", ...
	Name string
	Near string // a name that may have been meant, or ""
}

// Error returns: no profile named "press-wast"; press-waist?
func (e *NotFoundError) Error() string {
	s := "no " + e.Kind + " named " + quoted(e.Name)
	if e.Near != "" {
		return s + "; " + e.Near + "?"
	}
	if e.Kind == "wood" {
		return s + "; library list shows those there are, and a file of kind woods adds others"
	}
	return s + "; library list shows the names there are"
}

// nameFault says what keeps a text from being a name in the library; empty when nothing does.
func nameFault(s string) string {
	const most = 100
	switch {
	case strings.TrimSpace(s) == "":
		return "a name is needed"
	case len(s) > most:
		return fmt.Sprintf("a name has at most %d characters", most)
	case strings.HasPrefix(s, ".") || strings.TrimSpace(s) != s || strings.ContainsAny(s, "/\\:*?\"<>|\n\r\t"):
		return "a name is made of letters, digits and hyphens: it is no path"
	case strings.HasSuffix(s, ".") || onWindows(s):
		return "Windows takes no file of that name, and files are passed on"
	}
	return ""
}

// onWindows reports whether Windows keeps a file name for a device, whatever ending follows it (Microsoft, Naming Files, Paths, and Namespaces; from
// memory).
func onWindows(name string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	switch stem = strings.TrimSpace(stem); stem {
	case "con", "prn", "aux", "nul":
		return true
	}
	port, digit := strings.CutPrefix(stem, "com")
	if !digit {
		port, digit = strings.CutPrefix(stem, "lpt")
	}
	return digit && len(port) == 1 && port >= "1" && port <= "9"
}

// ReadFile returns the bytes of the file at path, which must be a regular file of at most 4 MiB.
func ReadFile(path string) ([]byte, error) {
	dir, name := filepath.Split(path)
	if dir == "" {
		dir = "."
	}
	data, err := readFile(os.DirFS(dir), name)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, reason(err))
	}
	return data, nil
}

// reason returns the bare cause of a file error, without its operation and path.
func reason(err error) error {
	var pe *fs.PathError
	var le *os.LinkError
	if errors.As(err, &pe) {
		return pe.Err
	}
	if errors.As(err, &le) {
		return le.Err
	}
	return err
}

// readFile reads one more byte than the limit at most, so that the reader sees that a file is over it.
func readFile(fsys fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(fsys, name) // before opening: a pipe would wait
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, errors.New("it is a folder")
	case !info.Mode().IsRegular():
		return nil, errors.New("it is no regular file")
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, MaxFileBytes+1))
}

// yamlNames returns the names of the YAML files of a folder, sorted.
func (f folder) yamlNames() []string {
	entries, err := fs.ReadDir(f.fsys, ".")
	if err != nil {
		return nil
	}
	const most = 2000
	var names []string
	for _, e := range entries {
		if ext := path.Ext(e.Name()); (ext == ".yaml" || ext == ".yml") && !e.IsDir() && len(names) < most {
			names = append(names, e.Name())
		}
	}
	slices.Sort(names)
	return names
}

// find returns the first folder that holds an entry of this kind and name, the name of its file, and its bytes. The error is a *NotFoundError
// when none does.
func (l *Library) find(kind, name string) (folder, string, []byte, error) {
	if nameFault(name) == "" {
		for _, f := range l.folders {
			if file, data, err := f.find(kind, name); err != nil || file != "" {
				return f, file, data, err
			}
		}
	}
	return folder{}, "", nil, &NotFoundError{kind, name, Near(name, l.namesOf(kind))}
}

// find returns the file in f that holds the entry of this kind and name, and its bytes: the file of that name unless it
// says that it is of another kind, else one whose name key it is. It returns "" when there is none.
func (f folder) find(kind, name string) (string, []byte, error) {
	for _, file := range []string{name + ".yaml", name + ".yml"} {
		data, err := readFile(f.fsys, file)
		if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrInvalid) {
			continue
		}
		if err != nil {
			return "", nil, fmt.Errorf("cannot read %s: %w", f.file(file), reason(err))
		}
		if h := HeadOf(data); h.Kind == kind || !slices.Contains(fileKinds, h.Kind) {
			return file, data, nil
		}
	}
	if f.where == Embedded {
		return "", nil, nil
	}
	files := f.yamlNames
	if f.named != nil {
		files = func() []string { return f.filesNamed(entryName{kind, name}) }
	}
	for _, file := range files() {
		if data, err := readFile(f.fsys, file); err == nil {
			if h := HeadOf(data); h.Kind == kind && h.Name == name {
				return file, data, nil
			}
		}
	}
	return "", nil, nil
}

// filesNamed returns the file of an indexed folder that says it is e, none when there is none.
func (f folder) filesNamed(e entryName) []string {
	if file, ok := f.named[e]; ok {
		return []string{file}
	}
	return nil
}

// A Head is what a file says of itself: its kind, its name and its title, each "" when it says none.
type Head struct{ Kind, Name, Title string }

// HeadOf returns what the file holding data says it is, without judging the rest; nothing when it cannot be read.
func HeadOf(data []byte) Head {
	root, err := parseDocument("", data)
	if err != nil {
		return Head{}
	}
	text := func(key string) string {
		if n := (value{node: root}).child(key); n != nil && n.Kind == yaml.ScalarNode {
			return n.Value
		}
		return ""
	}
	return Head{text("kind"), text("name"), text("title")}
}

// namesOf returns the names of all entries of a kind that has a file each, the project's first.
func (l *Library) namesOf(kind string) []string {
	var names []string
	for _, f := range l.folders {
		for _, file := range f.yamlNames() {
			data, err := readFile(f.fsys, file)
			h := HeadOf(data)
			if err != nil || h.Kind != kind {
				continue
			}
			if h.Name == "" {
				h.Name = baseName(file)
			}
			if !slices.Contains(names, h.Name) {
				names = append(names, h.Name)
			}
		}
	}
	return names
}
