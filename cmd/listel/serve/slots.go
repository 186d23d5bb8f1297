package serve

import (
	"context"
	"net/http"
	"time"
)

// slotWait is how long a plan waits for others to end before it is refused.
const slotWait = 2 * time.Second

// enterPlan waits for one of the few places in which set-ups are searched for; leave frees it. The error says that all are taken, or that
// the page has left.
func (s *Server) enterPlan(ctx context.Context) (leave func(), err error) {
	wait := time.NewTimer(slotWait)
	defer wait.Stop()
	select {
	case s.slots <- struct{}{}:
		return func() { <-s.slots }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-wait.C:
		return nil, refused(http.StatusTooManyRequests, "%d searches for set-ups run already; stop one, or wait for it", cap(s.slots))
	}
}
