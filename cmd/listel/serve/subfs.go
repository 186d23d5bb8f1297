package serve

import (
	"io/fs"
	"path"
)

// A subFS is a folder of a file system. Unlike fs.Sub it goes through the outer system's Stat and ReadDir, which os.Root bounds.
type subFS struct {
	outer fs.FS
	dir   string
}

// Open opens a file of the folder.
func (s subFS) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	return s.outer.Open(path.Join(s.dir, name))
}

// Stat returns what is known of a file of the folder.
func (s subFS) Stat(name string) (fs.FileInfo, error) {
	return fs.Stat(s.outer, path.Join(s.dir, name))
}

// ReadDir returns the entries of a folder in the folder.
func (s subFS) ReadDir(name string) ([]fs.DirEntry, error) {
	return fs.ReadDir(s.outer, path.Join(s.dir, name))
}
