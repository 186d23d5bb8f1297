package serve

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"
)

// A part is a file of the page as it is sent.
type part struct {
	kind   string // media type
	tag    string // of its bytes; packed, the tag is another, since the bytes are
	plain  []byte
	packed []byte // by gzip (RFC 1952)
}

// parts returns the files of the page but for the page itself by their names. They are made once, when the first is asked for.
var parts = sync.OnceValues(func() (map[string]part, error) {
	names, err := fs.ReadDir(assets, "page")
	if err != nil {
		return nil, err
	}
	out := map[string]part{}
	for _, n := range names {
		if n.Name() == "index.html" {
			continue
		}
		if out[n.Name()], err = newPart(n.Name()); err != nil {
			return nil, err
		}
	}
	return out, nil
})

// newPart returns a file of the page.
func newPart(name string) (part, error) {
	data, err := asset(name)
	if err != nil {
		return part{}, err
	}
	var b bytes.Buffer
	zip, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err == nil {
		_, err = zip.Write(data)
	}
	if err == nil {
		err = zip.Close()
	}
	kind := types[path.Ext(name)]
	if kind == "" {
		kind = mime.TypeByExtension(path.Ext(name))
	}
	sum := sha256.Sum256(data)
	return part{kind: kind, tag: hex.EncodeToString(sum[:8]), plain: data, packed: b.Bytes()}, err
}

// asset returns a file of the page before it is packed: lines of comment in a module or a style sheet are for those who read its source. Its lines
// keep their numbers.
func asset(name string) ([]byte, error) {
	data, err := fs.ReadFile(assets, path.Join("page", name))
	if err != nil {
		return nil, err
	}
	if ext := path.Ext(name); ext != ".js" && ext != ".css" {
		return data, nil
	}
	lines := bytes.Split(data, []byte("\n"))
	for i, line := range lines {
		line = bytes.TrimSpace(line)
		if bytes.HasPrefix(line, []byte("//")) || bytes.HasPrefix(line, []byte("/*")) && bytes.HasSuffix(line, []byte("*/")) {
			lines[i] = nil
		}
	}
	return bytes.Join(lines, []byte("\n")), nil
}

// getAsset answers with one of the page's files, packed where the browser takes it so; a browser that has it still asks, and is told so.
func (s *Server) getAsset(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	all, err := parts()
	if err != nil {
		answerError(w, refused(http.StatusInternalServerError, "the page cannot be made: %s", err))
		return
	}
	p, ok := all[name]
	if !ok {
		answerError(w, refused(http.StatusNotFound, "the page has no %q", name))
		return
	}
	head := w.Header()
	head.Set("Content-Type", p.kind)
	head.Set("Cache-Control", "no-cache")
	head.Set("Vary", "Accept-Encoding")
	data, tag, coding := p.plain, `"`+p.tag+`"`, ""
	if takesGzip(r.Header.Values("Accept-Encoding")) {
		data, tag, coding = p.packed, `"`+p.tag+`-gzip"`, "gzip"
	}
	head.Set("ETag", tag)
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	if coding != "" {
		head.Set("Content-Encoding", coding)
	}
	head.Set("Content-Length", strconv.Itoa(len(data)))
	_, _ = w.Write(data)
}

// takesGzip tells whether a browser that sent these lines of Accept-Encoding takes gzip: it names it, or all codings, at a weight over nothing
// (RFC 9110, section 12.5.3). What names gzip holds over what names all.
func takesGzip(lines []string) bool {
	takes, named := false, false
	for item := range strings.SplitSeq(strings.Join(lines, ","), ",") {
		coding, weight, _ := strings.Cut(item, ";")
		coding = strings.ToLower(strings.TrimSpace(coding))
		if coding != "gzip" && (coding != "*" || named) {
			continue
		}
		named = coding == "gzip"
		takes = true
		if _, v, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(weight), " ", ""), "q="); ok {
			q, err := strconv.ParseFloat(v, 64)
			takes = err == nil && q > 0
		}
	}
	return takes
}
