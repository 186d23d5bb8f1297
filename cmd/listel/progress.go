package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// planStages are the stages that a plan passes, in their order.
var planStages = []string{"candidates", "cover", "order"}

// A progress is a bar on a terminal for work that takes over a second. It may be told from several goroutines.
type progress struct {
	mu    sync.Mutex
	out   io.Writer // nil: nothing is shown
	now   func() time.Time
	words string
	start time.Time
	last  time.Time
	done  []int // stages, by job
	share float64
	shown bool
}

// newProgress returns the bar for so many jobs.
func (app App) newProgress(words string, jobs int) *progress {
	p := &progress{words: words, done: make([]int, jobs), now: app.Now}
	if app.Terminal && app.Now != nil {
		p.out, p.start = app.Err, app.Now()
	}
	return p
}

// begin sets how many jobs there are, and returns at.
func (p *progress) begin(jobs int) func(job int, stage string) {
	p.done = make([]int, jobs)
	return p.at
}

// at notes the stage that a job is at; "" is its end.
func (p *progress) at(job int, stage string) {
	if p.out == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if stage == "" {
		p.done[job] = len(planStages)
	}
	for i, s := range planStages {
		if s == stage {
			p.done[job] = max(p.done[job], i)
		}
	}
	sum := 0
	for _, d := range p.done {
		sum += d
	}
	p.show(float64(sum) / float64(max(1, len(p.done)*len(planStages))))
}

// keepShowing draws the bar anew while work tells little of itself, until stop is called.
func (p *progress) keepShowing() (stop func()) {
	if p.out == nil {
		return func() {}
	}
	ticks, done := time.NewTicker(200*time.Millisecond), make(chan struct{})
	var shower sync.WaitGroup
	shower.Go(func() {
		for {
			select {
			case <-ticks.C:
				p.mu.Lock()
				p.show(p.share)
				p.mu.Unlock()
			case <-done:
				return
			}
		}
	})
	return func() {
		ticks.Stop()
		close(done)
		shower.Wait()
	}
}

// part notes that so many parts of how many are done of work that has no jobs.
func (p *progress) part(_ string, done, of int) {
	if p.out == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.show(float64(done) / float64(max(1, of)))
}

// show draws the bar at a share of the work, once that takes over a second and not too often.
func (p *progress) show(share float64) {
	const wait, often = time.Second, 100 * time.Millisecond
	p.share = share
	now := p.now()
	if now.Sub(p.start) < wait || now.Sub(p.last) < often {
		return
	}
	p.last, p.shown = now, true
	const width = 30
	part := int(width * min(1, max(0, share)))
	fmt.Fprintf(p.out, "\r%s [%s%s] %d s ", p.words, strings.Repeat("#", part), strings.Repeat(".", width-part), int(now.Sub(p.start).Seconds()))
}

// end wipes the bar.
func (p *progress) end() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.shown {
		fmt.Fprint(p.out, "\r"+strings.Repeat(" ", len(p.words)+44)+"\r")
	}
}
