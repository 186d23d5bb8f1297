package serve

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"net/http"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/fsnotify/fsnotify"

	"listel/library"
)

// How the folder is followed.
const (
	settle    = 150 * time.Millisecond // after the last sign of a change: editors write in several steps
	poll      = 2 * time.Second        // between looks where the machine gives no signs
	pollSlow  = 30 * time.Second       // and where it does, for signs that are lost
	heartbeat = 15 * time.Second
	backlog   = 256 // news that a page may be behind
)

// A newsFile tells that a file of the folder is another than before.
type newsFile struct {
	Path string `json:"path"`
	Hash string `json:"hash"` // "" when it is gone
}

// A newsroom follows the files of a folder and tells the pages that listen.
type newsroom struct {
	folder *folder
	signs  chan struct{}
	mu     sync.Mutex
	known  map[string]seen
	pages  map[chan newsFile]bool
}

// A seen is a file as it was when it was last looked at.
type seen struct {
	at   time.Time
	size int64
	hash string
}

func newNewsroom(f *folder) *newsroom {
	n := &newsroom{folder: f, signs: make(chan struct{}, 1), pages: map[chan newsFile]bool{}}
	n.known = n.now(nil)
	return n
}

// look asks for a look at the folder soon.
func (n *newsroom) look() {
	select {
	case n.signs <- struct{}{}:
	default:
	}
}

// watch follows the folder until ctx ends.
func (n *newsroom) watch(ctx context.Context) {
	every := poll
	if w, err := fsnotify.NewWatcher(); err == nil {
		defer w.Close()
		if w.Add(n.folder.dir) == nil {
			every = pollSlow
			n.watchInner(w)
			go n.follow(ctx, w)
		}
	}
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		case <-n.signs:
			n.settled(ctx)
		}
		n.tell()
	}
}

// watchInner adds the folders within the folder to a watcher; one that cannot be added is looked at now and then all the same.
func (n *newsroom) watchInner(w *fsnotify.Watcher) {
	for _, e := range n.folder.entries() {
		if dir := filepath.Dir(filepath.FromSlash(e.path)); dir != "." {
			_ = w.Add(filepath.Join(n.folder.dir, dir))
		}
	}
}

// follow turns what a watcher says into signs.
func (n *newsroom) follow(ctx context.Context, w *fsnotify.Watcher) {
	for {
		select {
		case <-ctx.Done():
			return
		case e, ok := <-w.Events:
			if !ok {
				return
			}
			if e.Has(fsnotify.Create) {
				if info, err := n.folder.root.Lstat(filepath.Base(e.Name)); err == nil && info.IsDir() && !strings.HasPrefix(info.Name(), ".") && filepath.Dir(e.Name) == n.folder.dir {
					_ = w.Add(e.Name)
				}
			}
			if e.Op != fsnotify.Chmod {
				n.look()
			}
		case _, ok := <-w.Errors:
			if !ok {
				return
			}
			n.look()
		}
	}
}

// settled waits until no sign has come for a while, at most ten times that long.
func (n *newsroom) settled(ctx context.Context) {
	last := time.After(10 * settle)
	for {
		select {
		case <-ctx.Done():
			return
		case <-last:
			return
		case <-time.After(settle):
			return
		case <-n.signs:
		}
	}
}

// now returns the files as they are; one that has the time and size that before has is taken to be the same, unless it is quite new.
func (n *newsroom) now(before map[string]seen) map[string]seen {
	out := map[string]seen{}
	for _, e := range n.folder.entries() {
		s := seen{at: e.info.ModTime(), size: e.info.Size()}
		if old, ok := before[e.path]; ok && old.at.Equal(s.at) && old.size == s.size && time.Since(s.at) > poll {
			out[e.path] = old
			continue
		}
		s.hash = fileHash(n.folder, e.path, e.info)
		out[e.path] = s
	}
	return out
}

// fileHash returns the hash of a text, and of an image what its time and size say.
func fileHash(f *folder, p string, info fs.FileInfo) string {
	if hasEnd(p, imageEnds) {
		return hashOf(fmt.Appendf(nil, "%d %d", info.ModTime().UnixNano(), info.Size()))
	}
	data, err := f.read(p, library.MaxFileBytes)
	if err != nil {
		return ""
	}
	return hashOf(data)
}

// tell looks at the folder and tells every page what has changed.
func (n *newsroom) tell() {
	n.mu.Lock()
	defer n.mu.Unlock()
	now := n.now(n.known)
	var news []newsFile
	for p, s := range now {
		if old, ok := n.known[p]; !ok || old.hash != s.hash {
			news = append(news, newsFile{p, s.hash})
		}
	}
	for p := range n.known {
		if _, ok := now[p]; !ok {
			news = append(news, newsFile{p, ""})
		}
	}
	n.known = now
	for _, item := range news {
		n.send(item)
	}
}

// wrote tells that the server itself has written a file. That must be known before the next look: a program that puts back
// at once what stood there before would else seem to have changed nothing.
func (n *newsroom) wrote(path, hash string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.known[path] = seen{hash: hash}
	n.send(newsFile{path, hash})
	n.look()
}

// send passes an item to every page; the caller holds the lock.
func (n *newsroom) send(item newsFile) {
	for page := range n.pages {
		select {
		case page <- item:
		default: // it is not listening: its connection is closed, and it asks anew
			delete(n.pages, page)
			close(page)
		}
	}
}

// join returns the news from now on, nil when too many listen already.
func (n *newsroom) join() chan newsFile {
	n.mu.Lock()
	defer n.mu.Unlock()
	if len(n.pages) >= maxStream {
		return nil
	}
	page := make(chan newsFile, backlog)
	n.pages[page] = true
	return page
}

func (n *newsroom) leave(page chan newsFile) {
	n.mu.Lock()
	defer n.mu.Unlock()
	delete(n.pages, page)
}

// getEvents tells a page of every file that changes, until it leaves.
func (s *Server) getEvents(w http.ResponseWriter, r *http.Request) error {
	page := s.news.join()
	if page == nil {
		return refused(http.StatusTooManyRequests, "%d pages are open already; close one", maxStream)
	}
	defer s.news.leave(page)
	control := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	send := func(text string) bool {
		_ = control.SetWriteDeadline(time.Now().Add(bodyTime)) // a recorder of a test has none
		_, err := w.Write([]byte(text))
		return err == nil && control.Flush() == nil
	}
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for ok := send(": here\n\n"); ok; {
		select {
		case <-r.Context().Done():
			return nil
		case <-beat.C:
			ok = send(": here\n\n")
		case item, open := <-page:
			if !open {
				return nil
			}
			data, _ := json.Marshal(item) // two texts
			ok = send(fmt.Sprintf("event: file\ndata: %s\n\n", data))
		}
	}
	return nil
}
