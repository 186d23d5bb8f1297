package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// itself is set for a test binary that is to be listel.
const itself = "LISTEL_TEST_IS_LISTEL"

func TestMain(m *testing.M) {
	if os.Getenv(itself) != "" {
		main()
	}
	os.Exit(withPlans(m.Run))
}

// withPlans runs the tests with a folder for the plans of set-ups, which goes with them.
func withPlans(tests func() int) int {
	dir, err := os.MkdirTemp("", "listel-plans-")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	testPlans = library.OpenCache(dir)
	return tests()
}

// process returns a process of listel's own that works in dir, with nothing kept from before.
func process(tb testing.TB, dir string, args ...string) *exec.Cmd {
	tb.Helper()
	path, err := os.Executable()
	require.NoError(tb, err)
	cmd := exec.Command(path, args...)
	cmd.Dir = dir
	home := tb.TempDir()
	cmd.Env = append(os.Environ(), itself+"=1", "HOME="+home, "XDG_CACHE_HOME="+home, "XDG_DATA_HOME="+home)
	return cmd
}

// namesBelow returns all files and folders below dir.
func namesBelow(t *testing.T, dir string) []string {
	t.Helper()
	names := []string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if path != dir {
			names = append(names, path)
		}
		return err
	}))
	return names
}

// An interrupt, or an order to end, ends a command in the middle of its work: it says so in one line, ends with 1, and has written nothing.
func TestInterrupted(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("signals are not sent there")
	}
	for _, c := range []struct {
		signal os.Signal
		args   []string
	}{
		{os.Interrupt, []string{"packet", "seed-cabinet", "--no-cache", "--out", "p.pdf"}},
		{syscall.SIGTERM, []string{"packet", "seed-cabinet", "--out", "sheets/", "--format", "png"}},
		{os.Interrupt, []string{"setups", "cavetto-cornice", "--no-cache", "--effort", "long", "--out", "s.pdf"}},
		{syscall.SIGTERM, []string{"packet", "--no-setups", "--format", "png", "--out", "sheets/"}},
	} {
		t.Run(strings.Join(c.args, " "), func(t *testing.T) {
			for wait := 200 * time.Millisecond; ; wait *= 2 { // until it came between its start and its end
				require.Less(t, wait, 20*time.Second, "never in the middle")
				dir := t.TempDir()
				cmd := process(t, dir, c.args...)
				var errs bytes.Buffer
				cmd.Stderr = &errs
				require.NoError(t, cmd.Start())
				time.Sleep(wait)
				require.NoError(t, cmd.Process.Signal(c.signal))
				at := time.Now()
				_ = cmd.Wait()
				if state := cmd.ProcessState; !state.Exited() {
					require.Empty(t, namesBelow(t, dir), "before it could listen")
					continue
				}
				require.Less(t, time.Since(at), 30*time.Second)
				require.Equal(t, exitFault, cmd.ProcessState.ExitCode(), errs.String())
				require.Equal(t, "listel: stopped; nothing was written\n", errs.String())
				require.Empty(t, namesBelow(t, dir))
				return
			}
		})
	}
}

// Interrupted at any moment of its end, a command has written all that it tells of, or nothing.
func TestInterruptedWhileWriting(t *testing.T) {
	if runtime.GOOS == "windows" || testing.Short() {
		t.Skip("signals, and seconds")
	}
	start := time.Now()
	require.NoError(t, process(t, t.TempDir(), "packet", "--no-setups", "--format", "svg", "--out", "sheets/").Run())
	took := time.Since(start)
	for i := range 8 {
		dir := t.TempDir()
		cmd := process(t, dir, "packet", "--no-setups", "--format", "svg", "--out", "sheets/")
		var errs bytes.Buffer
		cmd.Stderr = &errs
		require.NoError(t, cmd.Start())
		time.Sleep(took * time.Duration(i+5) / 12)
		_ = cmd.Process.Signal(os.Interrupt) // it may be gone
		_ = cmd.Wait()
		names := namesBelow(t, dir)
		for _, n := range names {
			require.False(t, strings.HasPrefix(filepath.Base(n), "."), n)
		}
		require.Len(t, names, max(0, strings.Count(errs.String(), "wrote ")+min(1, len(names))), errs.String()) // and their folder
		if cmd.ProcessState.ExitCode() != exitDone {
			require.Empty(t, names)
		}
	}
}

// Interrupted after it wrote one of its files, a command says that what it told of is there, and no other is.
func TestInterruptedBetweenFiles(t *testing.T) {
	for _, want := range [][]string{{"plate-cornice.yaml"}, {"plate-cornice.yaml", "plate-base.yaml"}} {
		startPlate(t, "in")
		before := namesBelow(t, ".")
		ctx, cancel := context.WithCancel(t.Context())
		errs := &wroteWatcher{after: len(want), do: cancel}
		code := Main([]string{"trace", "plate.yaml", "--overlay", "ov.png"}, App{Out: io.Discard, Err: errs, Context: ctx, Now: time.Now})
		require.Equal(t, exitFault, code, errs.String())
		require.Equal(t, "listel: stopped; what is told above was written\n", lastLine(errs.String()))
		require.NotContains(t, errs.String(), "nothing was written")
		require.ElementsMatch(t, append(before, want...), namesBelow(t, "."))
		for _, name := range want {
			require.Contains(t, errs.String(), "wrote "+name+"\n")
		}
	}
}

// Where a file takes its time to come to the disk, longer than a command that is interrupted has to end, it is there and told of; and nobody says that it is not.
func TestInterruptedInSlowFile(t *testing.T) {
	for _, c := range []struct {
		args, files string
		code        int
		last        string
	}{
		{"trace plate.yaml --only plate-base", "plate-base.yaml", exitDone, ""},
		{"trace plate.yaml", "plate-cornice.yaml", exitFault, "listel: stopped; what is told above was written\n"},
	} {
		startPlate(t, "in")
		before := namesBelow(t, ".")
		ctx, cancel := context.WithCancel(t.Context())
		wait := patience{stop: 100 * time.Millisecond, end: 500 * time.Millisecond}
		errs := &wroteWatcher{after: 1, do: func() {
			cancel()
			time.Sleep(3 * wait.stop)
		}}
		code := untilStopped(strings.Fields(c.args), App{Out: io.Discard, Err: errs, Context: ctx, Now: time.Now}, wait)
		require.Equal(t, c.code, code, errs.String())
		require.Contains(t, errs.String(), "wrote "+c.files+"\n")
		require.NotContains(t, errs.String(), "nothing was written")
		if c.last != "" {
			require.Equal(t, c.last, lastLine(errs.String()))
		}
		require.ElementsMatch(t, append(before, c.files), namesBelow(t, "."))
	}
}

// Whatever a command writes for its user waits while other files are being written, and is noted as written.
func TestWritesOneAtATime(t *testing.T) {
	for _, args := range []string{"new profile mine", "man", "template press-base", "printer record shop --across 99.4mm --up 99.8mm"} {
		dir := t.TempDir()
		t.Chdir(dir)
		app := App{Out: io.Discard, Err: io.Discard, UserFolder: filepath.Join(dir, "user"), Now: time.Now, files: new(writingState)}
		app.files.Lock()
		ended := make(chan int, 1)
		go func() { ended <- Main(strings.Fields(args), app) }()
		time.Sleep(100 * time.Millisecond)
		require.Empty(t, namesBelow(t, dir), args)
		require.False(t, app.files.some.Load(), args)
		app.files.Unlock()
		require.Equal(t, exitDone, <-ended, args)
		require.NotEmpty(t, namesBelow(t, dir), args)
		require.True(t, app.files.some.Load(), args)
	}
}

// A wroteWatcher does something in the middle of telling of the file of that number.
type wroteWatcher struct {
	mu    sync.Mutex
	b     bytes.Buffer
	after int
	do    func()
}

// Write keeps p.
func (w *wroteWatcher) Write(p []byte) (int, error) {
	w.mu.Lock()
	n, err := w.b.Write(p)
	if bytes.HasPrefix(p, []byte("wrote ")) {
		w.after--
	}
	now := w.after == 0
	if now {
		w.after = -1
	}
	w.mu.Unlock()
	if now {
		w.do()
	}
	return n, err
}

// String returns what was written.
func (w *wroteWatcher) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.b.String()
}

// A limit to the size of files, like a disk that is full in the middle of one, leaves nothing behind.
func TestFullDiskWhileWriting(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil || runtime.GOOS == "windows" {
		t.Skip("no shell to set a limit with")
	}
	for _, args := range []string{"packet --no-setups --out p.pdf", "packet --no-setups --format svg --out a/b/", "new trace plate", "template press-base"} {
		dir := t.TempDir()
		cmd := process(t, dir)
		limited := exec.Command(sh, append([]string{"-c", `ulimit -f 8 && exec "$0" "$@"`, cmd.Path}, strings.Fields(args)...)...) // blocks of 512 or 1024 bytes
		limited.Dir, limited.Env = dir, cmd.Env
		var errs bytes.Buffer
		limited.Stderr = &errs
		require.Error(t, limited.Run(), args)
		require.Equal(t, exitFault, limited.ProcessState.ExitCode(), "%s: %s", args, errs.String())
		require.Regexp(t, `^listel: cannot write \S+: file too large\n$`, errs.String(), args)
		require.Empty(t, namesBelow(t, dir), args)
	}
}

// A full disk behind what is printed is told, whatever the command.
func TestFullDiskBehindOutput(t *testing.T) {
	t.Chdir(t.TempDir())
	require.Equal(t, exitDone, listel(t, "", "new", "profile", "mine").code)
	for _, args := range []string{"check mine.yaml", "check mine.yaml --json", "section mine.yaml", "miter", "stock --json", "scraper mine.yaml", "printer list", "library list",
		"library show ash", "completion bash", "--help"} {
		var errs bytes.Buffer
		code := Main(strings.Fields(args), App{Out: fullDisk{}, Err: &errs, Now: func() time.Time { return time.Time{} }})
		require.Equal(t, exitFault, code, args)
		require.Equal(t, "listel: no space left on device\n", errs.String(), args)
	}
}

// A fullDisk takes nothing.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errNoSpace }

var errNoSpace = errors.New("no space left on device")

// Stock that is stopped is not told as a plan.
func TestStockStops(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, errs bytes.Buffer
	code := Main([]string{"stock"}, App{Out: &out, Err: &errs, Context: ctx, Now: time.Now})
	require.Equal(t, exitFault, code)
	require.Empty(t, out.String())
	require.Equal(t, "listel: stopped; nothing was written\n", errs.String())
}
