package serve

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"listel/cmd/listel/job"
)

// Options say what is served.
type Options struct {
	Folder string    // whose files the page opens and saves
	User   string    // the user's library and measured printers, "" for none
	Cache  job.Cache // keeps finished plans of set-ups, nil for nowhere
	Port   int       // 0 for a free one

	// Write is called with what puts a saved file in its place, and calls it: a process that is to end does not end in the middle of it. nil calls it at once.
	Write func(put func() error) error
}

// A Server serves the page of one folder. Start from New; it must be closed, or run to its end.
type Server struct {
	user   string
	cache  job.Cache
	folder *folder
	guard  guard
	listen net.Listener
	http   *http.Server
	news   *newsroom
	stop   context.CancelFunc
	slots  chan struct{} // one for each plan of set-ups that may be searched for at once
	// pictures is entered while a picture is held in memory: one at a time, since it may take most of it.
	pictures chan struct{}
}

// The limits of one server.
const (
	maxPlans  = 2                // plans that may be searched for at once
	planTime  = 60 * time.Second // that one may take
	maxStream = 32               // pages that may listen for news
	headTime  = 5 * time.Second  // to send the head of a request
	bodyTime  = 30 * time.Second // to send its body
	idleTime  = 2 * time.Minute
	maxHead   = 16 << 10
)

// New returns a server that listens on a port of this machine's loopback and serves nothing yet. The error says what is wrong with the folder or
// the port.
func New(o Options) (*Server, error) {
	f, err := openFolder(o.Folder)
	if err != nil {
		return nil, err
	}
	if o.Write != nil {
		f.put = o.Write
	}
	listen, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(o.Port)))
	if err != nil {
		f.close()
		return nil, fmt.Errorf("cannot listen on port %d: %w", o.Port, errors.Unwrap(err))
	}
	ctx, stop := context.WithCancel(context.Background())
	s := &Server{
		user: o.User, cache: o.Cache, folder: f, listen: listen, stop: stop,
		guard: newGuard(listen.Addr().(*net.TCPAddr).Port, rand.Text()),
		slots: make(chan struct{}, maxPlans), pictures: make(chan struct{}, 1),
	}
	s.news = newNewsroom(f)
	s.http = &http.Server{
		Handler:           s.guard.around(s.routes()),
		ReadHeaderTimeout: headTime, IdleTimeout: idleTime, MaxHeaderBytes: maxHead,
		ErrorLog:    log.New(silence{}, "", 0),
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	return s, nil
}

// silence drops what the HTTP library would print about a client's faults.
type silence struct{}

func (silence) Write(b []byte) (int, error) { return len(b), nil }

// URL returns the address of the page.
func (s *Server) URL() string { return "http://" + s.listen.Addr().String() + "/" }

// Folder returns the absolute path of the folder that is served.
func (s *Server) Folder() string { return s.folder.dir }

// Run serves until ctx ends, then stops what is going on and returns nil; any other end is an error. The server is closed then.
func (s *Server) Run(ctx context.Context) error {
	watching := make(chan struct{})
	watch, quit := context.WithCancel(ctx)
	go func() {
		defer close(watching)
		s.news.watch(watch)
	}()
	served := make(chan error, 1)
	go func() { served <- s.http.Serve(s.listen) }()
	var err error
	select {
	case <-ctx.Done():
	case err = <-served:
	}
	quit()
	<-watching
	s.Close()
	return err
}

// Close stops what is going on and frees port and folder.
func (s *Server) Close() {
	s.stop()
	const grace = 2 * time.Second // for a file that is being written
	ctx, cancel := context.WithTimeout(context.Background(), grace)
	defer cancel()
	if s.http.Shutdown(ctx) != nil {
		s.http.Close()
	}
	s.listen.Close()
	s.folder.close()
}

// routes returns what answers which request.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.getIndex)
	mux.HandleFunc("GET /page/{name...}", s.getAsset)
	for pattern, h := range map[string]handler{
		"GET /api/files":         s.getFiles,
		"GET /api/file":          s.getFile,
		"PUT /api/file":          s.putFile,
		"GET /api/events":        s.getEvents,
		"GET /api/library":       s.getLibrary,
		"GET /api/library/text":  s.getLibraryText,
		"GET /api/kinds":         s.getKinds,
		"POST /api/section":      s.postSection,
		"POST /api/edit":         s.postEdit,
		"POST /api/case":         s.postCase,
		"POST /api/length":       s.postLength,
		"POST /api/setups":       s.postSetups,
		"POST /api/scan/picture": s.postPicture,
		"POST /api/scan/trace":   s.postTrace,
		"POST /api/sheets":       s.postSheets,
		"POST /api/packet":       s.postPacket,
		"GET /api/papers":        s.getPapers,
	} {
		mux.Handle(pattern, h)
	}
	return mux
}

// absolute returns the real path of a folder, its links followed, or why it cannot be served.
func absolute(dir string) (string, error) {
	if dir == "" {
		dir = "."
	}
	real, err := filepath.EvalSymlinks(dir)
	if err == nil {
		real, err = filepath.Abs(real)
	}
	if err != nil {
		return "", fmt.Errorf("cannot serve %s: %w", dir, bare(err))
	}
	info, err := os.Stat(real)
	switch {
	case err != nil:
		return "", fmt.Errorf("cannot serve %s: %w", dir, bare(err))
	case !info.IsDir():
		return "", fmt.Errorf("cannot serve %s: it is no folder", dir)
	}
	return real, nil
}
