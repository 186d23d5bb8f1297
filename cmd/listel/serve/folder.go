package serve

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"listel/library"
)

// A folder is the one whose files the page may open and save. Nothing outside of it is reached: os.Root follows no link that leads out.
type folder struct {
	dir  string
	root *os.Root
	mu   sync.Mutex                     // held from the look at a file to its writing
	put  func(write func() error) error // calls what puts a file in its place
}

// openFolder opens the folder at dir; "" is the one at hand.
func openFolder(dir string) (*folder, error) {
	real, err := absolute(dir)
	if err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(real)
	if err != nil {
		return nil, err
	}
	return &folder{dir: real, root: root, put: func(write func() error) error { return write() }}, nil
}

func (f *folder) close() { f.root.Close() }

// The limits of a folder.
const (
	maxFiles = 2000     // that are listed and followed
	maxDeep  = 2        // folders a file may lie in, that which is served counted
	maxImage = 64 << 20 // bytes of an image
)

// The kinds of file by their names' ends.
var (
	yamlEnds  = []string{".yaml", ".yml"}
	imageEnds = []string{".png", ".jpg", ".jpeg", ".gif", ".tif", ".tiff"}
)

func hasEnd(name string, ends []string) bool {
	return slices.Contains(ends, strings.ToLower(path.Ext(name)))
}

// checkPath returns why a path is none of the folder's: it is made of plain names and slashes, and names a file of one of the kinds.
func checkPath(p string, ends []string) error {
	const longest = 200
	switch {
	case p == "":
		return refused(http.StatusBadRequest, "a file needs a name")
	case len(p) > longest:
		return refused(http.StatusBadRequest, "a file's name has at most %d characters", longest)
	case !fs.ValidPath(p) || strings.ContainsAny(p, `\:*?"<>|%`) || strings.ContainsFunc(p, func(r rune) bool { return r < ' ' || r == 0x7f }):
		return refused(http.StatusForbidden, "%q is no file of the folder", p)
	}
	parts := strings.Split(p, "/")
	for _, part := range parts {
		if strings.HasPrefix(part, ".") || strings.TrimSpace(part) != part || strings.HasSuffix(part, ".") {
			return refused(http.StatusForbidden, "%q is no file of the folder", p)
		}
	}
	switch {
	case len(parts) > maxDeep:
		return refused(http.StatusForbidden, "%q lies too deep in folders", p)
	case !hasEnd(p, ends):
		return refused(http.StatusForbidden, "a file's name ends in %s", strings.Join(ends, ", "))
	}
	return nil
}

// errOut is what a file is answered with that a link leads out of the folder to.
var errOut = refused(http.StatusForbidden, "a link there leads out of the folder")

// read returns the bytes of a file of at most so many.
func (f *folder) read(p string, most int64) ([]byte, error) {
	info, err := f.root.Stat(p) // before opening: a pipe would wait
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, refused(http.StatusNotFound, "there is no %s in the folder", p)
	case err != nil && leadsOut(f.root, p):
		return nil, errOut
	case err != nil:
		return nil, refused(http.StatusForbidden, "cannot read %s: %s", p, bare(err))
	case !info.Mode().IsRegular():
		return nil, refused(http.StatusForbidden, "%s is no regular file", p)
	case info.Size() > most:
		return nil, refused(http.StatusRequestEntityTooLarge, "%s is over %d MiB", p, most>>20)
	}
	file, err := f.root.Open(p)
	if err != nil {
		return nil, refused(http.StatusForbidden, "cannot read %s: %s", p, bare(err))
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, most+1))
	if err == nil && int64(len(data)) > most {
		err = refused(http.StatusRequestEntityTooLarge, "%s is over %d MiB", p, most>>20)
	}
	return data, err
}

// leadsOut reports whether a part of the path is a link.
func leadsOut(root *os.Root, p string) bool {
	for at := p; at != "."; at = path.Dir(at) {
		if info, err := root.Lstat(at); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return true
		}
	}
	return false
}

// write writes a text that was made from the one with the hash base, "" for a new file: whole or not at all. It returns the new hash. A *refusal
// with status 409 says that the disk holds another text, and brings it.
func (f *folder) write(p, text, base string) (string, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.placeFor(p); err != nil {
		return "", err
	}
	now, err := f.read(p, library.MaxFileBytes)
	var r *refusal
	gone := errors.As(err, &r) && r.status == http.StatusNotFound
	if err != nil && !gone {
		return "", err
	}
	has := ""
	if !gone {
		has = hashOf(now)
	}
	if has != base && (gone || hashOf([]byte(text)) != has) {
		words := "the file was changed by another program"
		switch {
		case gone:
			words = "the file is gone from the disk"
		case base == "":
			words = "there is a file of that name already"
		}
		return "", &refusal{http.StatusConflict, words, map[string]any{"text": string(now), "hash": has}}
	}
	full := filepath.Join(f.dir, filepath.FromSlash(p))
	err = f.put(func() error {
		return library.WriteFile(full, []byte(text), library.WriteOptions{Force: !gone, Plain: true})
	})
	if err != nil {
		if errors.Is(err, fs.ErrExist) {
			return "", refused(http.StatusConflict, "there is a file of that name already")
		}
		return "", refused(http.StatusUnprocessableEntity, "cannot write %s: %s", p, bare(err))
	}
	return hashOf([]byte(text)), nil
}

// placeFor returns why no file can be put at a path: its folder is not there, or is a link, or the file is one.
func (f *folder) placeFor(p string) error {
	if leadsOut(f.root, p) {
		return refused(http.StatusForbidden, "%s is a link; name the file that it leads to", p)
	}
	info, err := f.root.Stat(path.Dir(p))
	if err != nil || !info.IsDir() {
		return refused(http.StatusNotFound, "there is no folder %s", path.Dir(p))
	}
	return nil
}

// hashOf returns what tells one text of a file from another.
func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:16])
}

// bare returns the cause of a file error without its path, which may be none of the page's business.
func bare(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	var s *os.SyscallError
	switch {
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	case errors.As(err, &s):
		return s.Err
	}
	return err
}

// An entry is a file of the folder as far as the folder tells.
type entry struct {
	path string
	info fs.FileInfo
}

// entries returns the files of the folder that the page knows what to do with, those of its folders after its own, each sorted by name.
func (f *folder) entries() []entry {
	var out []entry
	look := func(dir string) (dirs []string) {
		d, err := f.root.Open(dir)
		if err != nil {
			return nil
		}
		defer d.Close()
		all, _ := d.ReadDir(4 * maxFiles) // what could be read counts
		slices.SortFunc(all, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
		for _, e := range all {
			p := path.Join(dir, e.Name())
			switch {
			case strings.HasPrefix(e.Name(), "."):
			case e.IsDir():
				dirs = append(dirs, p)
			case len(out) < maxFiles && checkPath(p, slices.Concat(yamlEnds, imageEnds)) == nil:
				if info, err := f.root.Stat(p); err == nil && info.Mode().IsRegular() {
					out = append(out, entry{p, info})
				}
			}
		}
		return dirs
	}
	for _, dir := range look(".") {
		if len(out) < maxFiles {
			look(dir)
		}
	}
	return out
}
