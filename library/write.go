package library

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// WriteOptions say how WriteFile treats what is there.
type WriteOptions struct {
	Force      bool // replace a file that listel did not write
	Plain      bool // write data as it is, without listel's mark: for a change to a user's own file
	MakeFolder bool // make the folder when it is not there

	// Stopped is asked before each file is made ready; its error ends the writing, none being written. nil is not asked.
	Stopped func() error
}

// An ExistsError says that a file is there already which listel did not write, or which was changed since.
type ExistsError struct{ Path string }

// Error returns the reason and what would do.
func (e *ExistsError) Error() string {
	why := "and was not written by listel"
	if isYAML(e.Path) {
		why += ", or was changed since"
	}
	return e.Path + " is there already " + why + "; --force replaces it"
}

// Is makes an ExistsError match fs.ErrExist.
func (e *ExistsError) Is(target error) bool { return target == fs.ErrExist }

// WriteFile writes data, with listel's mark where the format has one, to the file at path: whole or not at all, by way of a
// temporary file in the same folder. A file that is there is replaced only when it holds the same bytes, when listel wrote it, or
// with Force; else the error is an *ExistsError. A link, a folder or a device is never replaced. After an error
// nothing is left behind.
func WriteFile(path string, data []byte, o WriteOptions) error {
	return WriteFiles([]File{{path, data}}, o)
}

// A File is one file to write.
type File struct {
	Path string
	Data []byte
}

// WriteFiles is WriteFile for several files. It makes all of them ready beside their places before it puts the first there: none is written
// when one may not be replaced, when the disk has no room for one, or when the work is stopped.
func WriteFiles(files []File, o WriteOptions) (err error) {
	var all []*writing
	defer func() {
		for _, w := range all {
			w.clear()
		}
		if err == nil {
			return
		}
		for _, w := range slices.Backward(all) {
			w.unmake()
		}
	}()
	for _, f := range files {
		w, err := newWriting(f, o)
		all = append(all, w)
		if err != nil {
			return err
		}
	}
	for _, w := range all {
		if o.Stopped != nil {
			if err := o.Stopped(); err != nil {
				return err
			}
		}
		if err := w.words(w.ready()); err != nil {
			return err
		}
	}
	folders := map[string]bool{}
	for _, w := range all {
		if err := w.words(w.place()); err != nil {
			return err
		}
		folders[filepath.Dir(w.path)] = true
	}
	for dir := range folders {
		syncFolder(dir)
	}
	return nil
}

// A writing is a file on its way to its place.
type writing struct {
	path string
	data []byte
	old  *presentFile // what it replaces, nil for nothing
	temp string       // where it stands until then, "" before and after
	made []string     // the folders that were made for it, the outermost first
}

// newWriting looks at what is at a file's path. The error says why nothing may be written there.
func newWriting(f File, o WriteOptions) (*writing, error) {
	w := &writing{path: f.Path, data: f.Data}
	if !o.Plain {
		w.data = Marked(f.Path, f.Data)
	}
	var err error
	if dir := filepath.Dir(f.Path); o.MakeFolder {
		if w.made, err = makeFolders(dir); err != nil {
			return w, fmt.Errorf("cannot make the folder %s: %w", dir, reason(err))
		}
	}
	w.old, err = present(f.Path)
	if err == nil && w.old != nil && !w.same() && !o.Force && !byListel(f.Path, w.old.data) {
		return w, &ExistsError{f.Path}
	}
	return w, w.words(err)
}

// same reports whether the file is there already as it shall be.
func (w *writing) same() bool { return w.old != nil && bytes.Equal(w.old.data, w.data) }

// words returns what kept the file from being written, with its path.
func (w *writing) words(err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return &ExistsError{w.path}
	}
	return fmt.Errorf("cannot write %s: %w", w.path, reason(err))
}

// ready writes the file beside its place.
func (w *writing) ready() (err error) {
	if !w.same() {
		w.temp, err = writeBeside(w.path, w.old, func(to io.Writer) error {
			_, err := to.Write(w.data)
			return err
		})
	}
	return err
}

// place puts the file in its place.
func (w *writing) place() error {
	if w.same() {
		return nil
	}
	return putInPlace(w.temp, w.path, w.old)
}

// clear takes the temporary file away; it is gone when all went well.
func (w *writing) clear() {
	if w.temp != "" {
		os.Remove(w.temp)
	}
}

// unmake takes away the folders that were made for the file, unless something else is in them by now.
func (w *writing) unmake() {
	for _, dir := range slices.Backward(w.made) {
		os.Remove(dir)
	}
}

// makeFolders makes the folder dir and those on the way to it that are not there. It returns those that it made, the outermost first, after an error too.
func makeFolders(dir string) (made []string, err error) {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil, nil
	}
	if up := filepath.Dir(dir); up != dir {
		if made, err = makeFolders(up); err != nil {
			return made, err
		}
	}
	if os.Mkdir(dir, 0o777) == nil {
		return append(made, dir), nil
	}
	return made, os.MkdirAll(dir, 0o777) // which takes one that another made just now, and else says what is in the way
}

// maxOwn bounds the files that are looked into for listel's mark: it writes none so large.
const maxOwn = 1 << 28

// A presentFile is one that is there before the writing.
type presentFile struct {
	data []byte
	mode fs.FileMode
}

// present returns the regular file at path, nil when nothing is there.
func present(path string) (*presentFile, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(filepath.Dir(path)); err != nil {
			return nil, fmt.Errorf("its folder %s cannot be used: %w", filepath.Dir(path), reason(err))
		}
		return nil, nil
	case err != nil:
		return nil, reason(err)
	case info.Mode()&fs.ModeSymlink != 0:
		return nil, errors.New("it is a symbolic link; name the file that it leads to")
	case info.IsDir():
		return nil, errors.New("it is a folder; name a file in it")
	case !info.Mode().IsRegular():
		return nil, errors.New("it is no regular file")
	}
	f := &presentFile{mode: info.Mode().Perm()}
	if info.Size() > maxOwn {
		return f, nil
	}
	if f.data, err = os.ReadFile(path); errors.Is(err, fs.ErrPermission) {
		return f, nil // not readable, so not known as ours; Force may replace it
	}
	return f, reason(err)
}

// writeWhole lets fill write a temporary file beside path and puts it in its place. A file that is not old and appears in the
// meantime is kept: the error is then fs.ErrExist.
func writeWhole(path string, old *presentFile, fill func(io.Writer) error) error {
	temp, err := writeBeside(path, old, fill)
	if err != nil {
		return err
	}
	defer os.Remove(temp) // it is gone when all went well
	defer syncFolder(filepath.Dir(path))
	return putInPlace(temp, path, old)
}

// writeBeside lets fill write a new temporary file beside path, on the disk when it returns, and returns where it is. After an error nothing is left.
func writeBeside(path string, old *presentFile, fill func(io.Writer) error) (temp string, err error) {
	f, err := temporary(path)
	if err != nil {
		return "", err
	}
	defer func() {
		if f.Close(); err != nil {
			os.Remove(f.Name())
		}
	}()
	if err := fill(f); err != nil {
		return "", err
	}
	if old != nil {
		if err := f.Chmod(old.mode); err != nil {
			return "", err
		}
	}
	if err := f.Sync(); err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}

// putInPlace renames a temporary file to path. One that is not old and has appeared there is kept: the error is then fs.ErrExist.
func putInPlace(temp, path string, old *presentFile) error {
	if old == nil {
		err := os.Link(temp, path) // unlike a renaming it never replaces
		if err == nil || errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	return os.Rename(temp, path)
}

// temporaryEnding stands between the name that a temporary file is for and a number.
const temporaryEnding = ".listel-"

// isTemporary reports whether a name is that of a temporary file for one with that ending.
func isTemporary(name, ending string) bool {
	return strings.HasPrefix(name, ".") && strings.Contains(name, ending+temporaryEnding)
}

// temporary makes a new file beside path, with the permissions of a new file.
func temporary(path string) (*os.File, error) {
	const tries = 1000
	dir, base := filepath.Split(path)
	for i := 0; ; i++ {
		f, err := os.OpenFile(filepath.Join(dir, fmt.Sprintf(".%s%s%d", base, temporaryEnding, i)), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err == nil || !errors.Is(err, fs.ErrExist) || i == tries {
			return f, err
		}
	}
}

// syncFolder asks the machine to put the folder's new entry on the disk. Not all machines can; the file itself is there already.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}
