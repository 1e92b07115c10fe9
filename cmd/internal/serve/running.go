package serve

import (
	"context"
	"crypto/subtle"
	"encoding/json"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"threepost/cmd/internal/files"
)

// note is what a running server leaves in its folder, for a second start to
// find it.
type runningNote struct {
	Address string `json:"address"` // http://127.0.0.1:3807
	Token   string `json:"token"`
}

// tokenHeader carries the token of the folder's note.
const tokenHeader = "Threepost-Token"

func notePath(dir string) string { return filepath.Join(dir, ".threepost", "running") }

// alive proves that this is the server that wrote the folder's note.
func (s *Server) alive(w http.ResponseWriter, r *http.Request) error {
	if subtle.ConstantTimeCompare([]byte(r.Header.Get(tokenHeader)), []byte(s.token)) != 1 {
		return refused(http.StatusNotFound, "There is nothing of that name here.")
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// Running finds the address of a server that has this folder open, or "".
func Running(ctx context.Context, dir string) string {
	data, err := os.ReadFile(notePath(dir))
	var n runningNote
	if err != nil || len(data) > 1<<12 || json.Unmarshal(data, &n) != nil {
		return ""
	}
	host, _, err := net.SplitHostPort(strings.TrimPrefix(n.Address, "http://"))
	if ip := net.ParseIP(host); err != nil || ip == nil || !ip.IsLoopback() {
		return "" // the note is another's: nothing is asked of other machines
	}
	ctx, stop := context.WithTimeout(ctx, 2*time.Second)
	defer stop()
	ask, err := http.NewRequestWithContext(ctx, http.MethodGet, n.Address+"/api/alive", nil)
	if err != nil {
		return ""
	}
	ask.Header.Set(tokenHeader, n.Token)
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.Do(ask)
	if err != nil {
		return ""
	}
	answer.Body.Close()
	if answer.StatusCode != http.StatusNoContent {
		return ""
	}
	return n.Address
}

// Announce leaves the note of this server in its folder, readable by its owner
// alone, and gives what takes it away again. A folder that cannot be written
// has no note.
func (s *Server) Announce(address string) (leave func()) {
	dir := s.folder.Dir()
	path := notePath(dir)
	data, err := json.Marshal(runningNote{address, s.token})
	if err != nil || os.MkdirAll(filepath.Dir(path), 0o755) != nil || os.WriteFile(path, nil, 0o600) != nil || files.Write(path, data) != nil {
		return func() {}
	}
	return func() {
		if now, err := os.ReadFile(path); err == nil && string(now) == string(data) {
			_ = os.Remove(path) // a note that stays is found to be stale
		}
	}
}
