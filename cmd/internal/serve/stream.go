package serve

import (
	"io"
	"net/http"
	"time"
)

// stream is an answer that comes line by line and may last long: it has a time
// for each line, not for the whole.
type stream struct {
	w     http.ResponseWriter
	rc    *http.ResponseController
	each  time.Duration
	kind  string
	begun bool
}

func (s *Server) stream(w http.ResponseWriter, kind string) *stream {
	return &stream{w: w, rc: http.NewResponseController(w), each: s.limits.Write, kind: kind}
}

// say sends a line at once. It fails when who asked has gone.
func (o *stream) say(line string) error {
	if !o.begun {
		// The time to read the request is over; without this, its end would
		// end the stream too.
		if err := o.rc.SetReadDeadline(time.Time{}); err != nil {
			return err
		}
		o.w.Header().Set("Content-Type", o.kind)
		o.w.Header().Set("Cache-Control", "no-store")
		o.w.Header().Set("X-Accel-Buffering", "no")
		o.w.WriteHeader(http.StatusOK)
		o.begun = true
	}
	if err := o.rc.SetWriteDeadline(time.Now().Add(o.each)); err != nil {
		return err
	}
	if _, err := io.WriteString(o.w, line); err != nil {
		return err
	}
	return o.rc.Flush()
}
