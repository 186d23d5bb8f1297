package serve

import (
	"context"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/require"
)

// No more searches run at once than there are places: one more waits a little and is refused in words, and a place that is left can be taken.
func TestPlansAtOnce(t *testing.T) {
	s := serving(t)
	var leaves []func()
	for range maxPlans {
		leave, err := s.enterPlan(t.Context())
		require.NoError(t, err)
		leaves = append(leaves, leave)
	}
	_, err := s.enterPlan(t.Context())
	require.Equal(t, http.StatusTooManyRequests, statusOf(err))
	gone, stop := context.WithCancel(t.Context())
	stop()
	_, err = s.enterPlan(gone)
	require.ErrorIs(t, err, context.Canceled, "who has left does not wait")
	leaves[0]()
	leave, err := s.enterPlan(t.Context())
	require.NoError(t, err)
	leave()
	leaves[1]()
}

// A handler that panics is a fault of ours: it is answered, in words that name no place in the code.
func TestPanicIsAnswered(t *testing.T) {
	s := serving(t)
	w := httptest.NewRecorder()
	r := newRequest(s, "/")
	s.guard.around(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("secret place") })).ServeHTTP(w, r)
	require.Equal(t, http.StatusInternalServerError, w.Code)
	require.NotContains(t, w.Body.String(), "secret")
}

// newRequest returns a request as a browser sends it to the server.
func newRequest(s *Server, path string) *http.Request {
	r := httptest.NewRequest(http.MethodGet, path, nil)
	r.Host = s.listen.Addr().String()
	return r
}
