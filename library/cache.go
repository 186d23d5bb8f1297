package library

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// A Cache keeps the results of long searches in a folder, each under a key that says all that it was made from. What it holds may go at any
// time: an entry that is missing, cut short or changed is as good as none. The zero value keeps nothing.
type Cache struct {
	dir  string
	most int64 // bytes of all entries
}

// cacheBytes is how much a cache keeps, about a thousand plans; the oldest entries go first.
const cacheBytes = 32 << 20

// cacheEnding tells the cache's entries from other files, and from those of another format.
const cacheEnding = ".listel1"

// OpenCache returns the cache in a folder, which is made when something is kept; an empty one keeps nothing.
func OpenCache(dir string) Cache { return Cache{dir, cacheBytes} }

// Bounded returns the cache with another limit, in bytes, to all that it keeps.
func (c Cache) Bounded(most int64) Cache {
	c.most = most
	return c
}

// CacheFolder returns the folder of listel's cache: listel below the machine's folder for caches ($XDG_CACHE_HOME or ~/.cache on Linux). It is
// empty when the machine names none.
func CacheFolder() string {
	base, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return filepath.Join(base, "listel")
}

// CacheKey returns the key of something made from these parts: a hash of them and of where each ends.
func CacheKey(parts ...[]byte) string {
	h := sha256.New()
	for _, p := range parts {
		sum := sha256.Sum256(p)
		h.Write(sum[:])
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Get returns what was kept under a key; ok is false when there is nothing whole.
func (c Cache) Get(key string) (data []byte, ok bool) {
	path, ok := c.path(key)
	if !ok {
		return nil, false
	}
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() || info.Size() > c.most {
		return nil, false
	}
	data, err := os.ReadFile(path)
	if err != nil || len(data) < sha256.Size {
		return nil, false
	}
	sum := sha256.Sum256(data[sha256.Size:])
	if !bytes.Equal(sum[:], data[:sha256.Size]) {
		return nil, false
	}
	return data[sha256.Size:], true
}

// Put keeps data under a key, whole or not at all. A cache that cannot be written is no fault: it keeps nothing.
func (c Cache) Put(key string, data []byte) {
	path, ok := c.path(key)
	if !ok || int64(len(data)) > c.most/4 {
		return
	}
	if err := os.MkdirAll(c.dir, 0o700); err != nil {
		return
	}
	sum := sha256.Sum256(data)
	err := writeWhole(path, &presentFile{mode: 0o600}, func(w io.Writer) error {
		_, err := w.Write(append(sum[:], data...))
		return err
	})
	if err == nil {
		c.trim(filepath.Base(path))
	}
}

// path returns the file of a key; ok is false when nothing is kept, or the key is none of CacheKey's.
func (c Cache) path(key string) (string, bool) {
	if _, err := hex.DecodeString(key); err != nil || c.dir == "" || len(key) != 2*sha256.Size {
		return "", false
	}
	return filepath.Join(c.dir, key+cacheEnding), true
}

// forgotten is how long a temporary file lies in the cache before it is one that nobody is writing any more: the machine stopped, or the process was ended.
const forgotten = 24 * time.Hour

// trim removes the oldest entries, but not the one just kept, until the rest is within the limit, and what was left half written long before.
func (c Cache) trim(newest string) {
	entries, err := os.ReadDir(c.dir)
	if err != nil {
		return
	}
	kept, err := os.Stat(filepath.Join(c.dir, newest))
	if err != nil {
		return
	}
	var infos []fs.FileInfo
	total := kept.Size()
	for _, e := range entries {
		info, err := e.Info()
		switch {
		case err != nil || e.Name() == newest:
		case strings.HasSuffix(e.Name(), cacheEnding):
			total += info.Size()
			infos = append(infos, info)
		case isTemporary(e.Name(), cacheEnding) && kept.ModTime().Sub(info.ModTime()) > forgotten:
			os.Remove(filepath.Join(c.dir, e.Name()))
		}
	}
	slices.SortFunc(infos, func(a, b fs.FileInfo) int {
		return cmp.Or(a.ModTime().Compare(b.ModTime()), cmp.Compare(a.Name(), b.Name()))
	})
	for _, info := range infos {
		if total <= c.most {
			return
		}
		if os.Remove(filepath.Join(c.dir, info.Name())) == nil {
			total -= info.Size()
		}
	}
}
