package library

import (
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// OpenOver is Open with the project's folder as a file system, which bounds what is read of it, and with texts in front of its
// files that are not saved yet. dir is what the paths of its files begin with in messages, "" for none. The keys of unsaved name the files,
// press.yaml; the name of an entry stands for its file, press for press.yaml, and of a path the last part counts.
func OpenOver(project fs.FS, dir, user string, unsaved map[string]string) *Library {
	l := &Library{}
	if len(unsaved) > 0 {
		files := draftFiles{}
		for name, text := range unsaved {
			name = path.Base(strings.ReplaceAll(name, `\`, "/"))
			if ext := path.Ext(name); ext != ".yaml" && ext != ".yml" {
				name += ".yaml"
			}
			files[name] = text
		}
		l.folders = append(l.folders, folder{where: Project, fsys: files, dir: dir})
	}
	if project != nil {
		l.folders = append(l.folders, folder{where: Project, fsys: project, dir: dir})
	}
	l.folders = append(l.folders, Open("", user).folders...)
	return l
}

// draftFiles is a flat file system of texts by their names.
type draftFiles map[string]string

// Open returns the text of that name as a file.
func (t draftFiles) Open(name string) (fs.File, error) {
	text, ok := t[name]
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return openText{strings.NewReader(text), textInfo{name, int64(len(text))}}, nil
}

// ReadDir returns the names of the texts, sorted.
func (t draftFiles) ReadDir(string) ([]fs.DirEntry, error) {
	var out []fs.DirEntry
	for name, text := range t {
		out = append(out, fs.FileInfoToDirEntry(textInfo{name, int64(len(text))}))
	}
	slices.SortFunc(out, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return out, nil
}

// An openText is a text that is being read.
type openText struct {
	io.Reader
	info textInfo
}

func (o openText) Stat() (fs.FileInfo, error) { return o.info, nil }
func (o openText) Close() error               { return nil }

// A textInfo is what is known of a text as a file.
type textInfo struct {
	name string
	size int64
}

func (i textInfo) Name() string       { return i.name }
func (i textInfo) Size() int64        { return i.size }
func (i textInfo) Mode() fs.FileMode  { return 0o444 }
func (i textInfo) ModTime() time.Time { return time.Time{} }
func (i textInfo) IsDir() bool        { return false }
func (i textInfo) Sys() any           { return nil }
