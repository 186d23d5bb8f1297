package main

import (
	"bytes"
	"sync"
	"testing"
	"time"
)

// A ran is what a command printed and how it ended.
type ran struct {
	code     int
	out, err string
}

// listel runs a command line in a new App whose user folder is user.
func listel(t *testing.T, user string, args ...string) ran {
	t.Helper()
	var out, errs bytes.Buffer
	app := App{Out: &out, Err: &errs, UserFolder: user, Now: func() time.Time { return time.Time{} }, Plans: testPlans}
	code := Main(args, app)
	return ran{code, out.String(), errs.String()}
}

// testPlans keeps the plans of set-ups of one run of the tests, so that each is searched for once.
var testPlans = &keptPlans{plans: map[string][]byte{}}

// keptPlans is a planCache in memory.
type keptPlans struct {
	mu    sync.Mutex
	plans map[string][]byte
}

func (k *keptPlans) Get(key string) ([]byte, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	data, ok := k.plans[key]
	return data, ok
}

func (k *keptPlans) Put(key string, data []byte) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.plans[key] = data
}
