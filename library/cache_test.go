package library_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
)

func TestCacheKeepsWhatItWasGiven(t *testing.T) {
	c := library.OpenCache(filepath.Join(t.TempDir(), "a", "b"))
	key := library.CacheKey([]byte("section"), []byte("tools"))
	_, ok := c.Get(key)
	require.False(t, ok)
	c.Put(key, []byte("the plan"))
	got, ok := c.Get(key)
	require.True(t, ok)
	require.Equal(t, "the plan", string(got))
	c.Put(key, []byte("another plan"))
	got, _ = c.Get(key)
	require.Equal(t, "another plan", string(got))
}

// Parts are told apart: what moves from one to the next is another key.
func TestCacheKeyTellsPartsApart(t *testing.T) {
	require.NotEqual(t, library.CacheKey([]byte("ab"), []byte("c")), library.CacheKey([]byte("a"), []byte("bc")))
	require.NotEqual(t, library.CacheKey([]byte("ab")), library.CacheKey([]byte("ab"), nil))
	require.Equal(t, library.CacheKey([]byte("ab")), library.CacheKey([]byte("ab")))
}

// An entry that was cut short or changed is ignored.
func TestCacheIgnoresCorruptEntries(t *testing.T) {
	dir := t.TempDir()
	c := library.OpenCache(dir)
	key := library.CacheKey([]byte("x"))
	c.Put(key, []byte("a plan of some length"))
	files, err := filepath.Glob(filepath.Join(dir, "*"))
	require.NoError(t, err)
	require.Len(t, files, 1, "nothing is left beside the entry")
	whole, err := os.ReadFile(files[0])
	require.NoError(t, err)
	for _, bad := range [][]byte{nil, whole[:10], whole[:len(whole)-1], append(bytes.Clone(whole), '!'), bytes.ToUpper(whole)} {
		require.NoError(t, os.WriteFile(files[0], bad, 0o600))
		_, ok := c.Get(key)
		require.False(t, ok)
	}
	c.Put(key, []byte("again"))
	_, ok := c.Get(key)
	require.True(t, ok)
}

func TestCacheIsBounded(t *testing.T) {
	dir := t.TempDir()
	c := library.OpenCache(dir).Bounded(1000)
	var keys []string
	for i := range 8 {
		keys = append(keys, library.CacheKey([]byte{byte(i)}))
		c.Put(keys[i], bytes.Repeat([]byte{1}, 200))
		files, _ := filepath.Glob(filepath.Join(dir, keys[i]+"*"))
		require.Len(t, files, 1)
		at := time.Unix(int64(1000+i), 0)
		require.NoError(t, os.Chtimes(files[0], at, at))
	}
	_, ok := c.Get(keys[0])
	require.False(t, ok, "the oldest went")
	_, ok = c.Get(keys[7])
	require.True(t, ok)
	files, _ := filepath.Glob(filepath.Join(dir, "*"))
	require.Len(t, files, 4)
	c.Put(library.CacheKey([]byte("large")), make([]byte, 900))
	_, ok = c.Get(keys[7])
	require.True(t, ok, "what is too large is not kept, and drives nothing out")
}

func TestCacheWithoutAFolderKeepsNothing(t *testing.T) {
	for _, c := range []library.Cache{{}, library.OpenCache(""), library.OpenCache("/dev/null/nothing")} {
		key := library.CacheKey([]byte("x"))
		c.Put(key, []byte("a plan"))
		_, ok := c.Get(key)
		require.False(t, ok)
	}
	c := library.OpenCache(t.TempDir())
	c.Put("../escape", []byte("x"))
	_, ok := c.Get("../escape")
	require.False(t, ok)
}

// What was left half written a day before the newest entry goes; what may still be written, and what is none of the cache's, stays.
func TestCacheClearsLeftovers(t *testing.T) {
	dir := t.TempDir()
	c := library.OpenCache(dir)
	names := []string{".a.listel1.listel-0", ".b.listel1.listel-3", ".mine.listel-0", "mine"}
	for _, n := range names {
		require.NoError(t, os.WriteFile(filepath.Join(dir, n), []byte("half"), 0o600))
		if n != ".b.listel1.listel-3" {
			old := time.Now().Add(-25 * time.Hour)
			require.NoError(t, os.Chtimes(filepath.Join(dir, n), old, old))
		}
	}
	c.Put(library.CacheKey([]byte("k")), []byte("data"))
	require.NoFileExists(t, filepath.Join(dir, names[0]))
	for _, n := range names[1:] {
		require.FileExists(t, filepath.Join(dir, n))
	}
}
