package library

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteOptions say how WriteFile treats what is there.
type WriteOptions struct {
	Force      bool // replace a file that listel did not write
	Plain      bool // write data as it is, without listel's mark: for a change to a user's own file
	MakeFolder bool // make the folder when it is not there
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

// WriteFiles is WriteFile for several files: it writes none of them when one may not be replaced.
func WriteFiles(files []File, o WriteOptions) error {
	var writes []func() error
	for _, f := range files {
		write, err := readyToWrite(f.Path, f.Data, o)
		if err != nil {
			return err
		}
		writes = append(writes, write)
	}
	for _, write := range writes {
		if err := write(); err != nil {
			return err
		}
	}
	return nil
}

// readyToWrite looks at what is at path and returns the writing of data there, or why it may not be.
func readyToWrite(path string, data []byte, o WriteOptions) (func() error, error) {
	if !o.Plain {
		data = Marked(path, data)
	}
	dir := filepath.Dir(path)
	if o.MakeFolder {
		if err := os.MkdirAll(dir, 0o777); err != nil {
			return nil, fmt.Errorf("cannot make the folder %s: %w", dir, reason(err))
		}
	}
	old, err := present(path)
	switch {
	case err != nil:
		return nil, fmt.Errorf("cannot write %s: %w", path, err)
	case old != nil && bytes.Equal(old.data, data):
		return func() error { return nil }, nil
	case old != nil && !o.Force && !byListel(path, old.data):
		return nil, &ExistsError{path}
	}
	return func() error {
		err := writeWhole(path, old, func(w io.Writer) error {
			_, err := w.Write(data)
			return err
		})
		if errors.Is(err, fs.ErrExist) {
			return &ExistsError{path}
		}
		if err != nil {
			return fmt.Errorf("cannot write %s: %w", path, reason(err))
		}
		return nil
	}, nil
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
	f, err := temporary(path)
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // it is gone when all went well
	defer f.Close()
	if err := fill(f); err != nil {
		return err
	}
	if old != nil {
		if err := f.Chmod(old.mode); err != nil {
			return err
		}
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	defer syncFolder(filepath.Dir(path))
	if old == nil {
		err := os.Link(f.Name(), path) // unlike a renaming it never replaces
		if err == nil || errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	return os.Rename(f.Name(), path)
}

// temporary makes a new file beside path, with the permissions of a new file.
func temporary(path string) (*os.File, error) {
	const tries = 1000
	dir, base := filepath.Split(path)
	for i := 0; ; i++ {
		f, err := os.OpenFile(filepath.Join(dir, fmt.Sprintf(".%s.listel-%d", base, i)), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
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
