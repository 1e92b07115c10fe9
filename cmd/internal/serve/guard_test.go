package serve

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// everyPath is one request of each kind, with what it is answered on a good
// day.
func everyPath() []struct {
	method, path string
	body         any
	status       int
} {
	text := "threepost = 1"
	return []struct {
		method, path string
		body         any
		status       int
	}{
		{"GET", "/api/room", nil, 200}, {"GET", "/api/loads/newcomer", nil, 200}, {"GET", "/api/loads/none", nil, 404},
		{"GET", "/api/loads/newcomer/versions", nil, 200}, {"GET", "/api/loads/newcomer/versions/1", nil, 404}, {"GET", "/api/samples/studio", nil, 200},
		{"GET", "/assets/index.html", nil, 200}, {"GET", "/assets/none.js", nil, 404}, {"GET", "/assets/fonts/AtkinsonHyperlegibleNext-400.ttf", nil, 200},
		{"GET", "/nothing", nil, 404}, {"GET", "/pair.css", nil, 200}, {"GET", "/api/alive", nil, 404}, {"POST", "/api/pair", map[string]string{"code": "1"}, 404},
		{"POST", "/api/loads", map[string]string{"text": "x"}, 422}, {"PUT", "/api/loads/newcomer", map[string]string{"text": text, "base": "x"}, 409},
		{"POST", "/api/plan", map[string]string{"text": "x"}, 422}, {"POST", "/api/pdf", map[string]string{"text": "x"}, 422}, {"POST", "/api/pages", map[string]string{"text": "x"}, 422},
		{"PUT", "/api/room", text, 405}, {"POST", "/api/loads/newcomer", text, 405}, {"GET", "/api/plan", nil, 405},
	}
}

func TestHeadersOfEveryAnswer(t *testing.T) {
	r := start(t, nil)
	for _, c := range everyPath() {
		a := r.ask(c.method, c.path, c.body)
		require.Equal(t, c.status, a.status, "%s %s: %s", c.method, c.path, a.body)
		secured(t, a.header)
		if c.status >= 400 {
			r.refuses(c.status, "", a)
		}
	}
	for _, path := range []string{"/", "/kiln/newcomer"} {
		secured(t, r.ask("GET", path, nil).header)
	}
}

func TestOnlyOurHostIsAnswered(t *testing.T) {
	r := start(t, nil)
	port := r.url[strings.LastIndex(r.url, ":"):]
	for _, host := range []string{"127.0.0.1" + port, "localhost" + port, "LOCALHOST" + port, "[::1]" + port} {
		require.Equal(t, 200, r.ask("GET", "/api/room", nil, "Host", host).status, host)
	}
	for _, host := range []string{"evil.example" + port, "localhost", "127.0.0.1", "127.0.0.1:1", "localhost.evil.example" + port, "127.0.0.1.nip.io" + port,
		"192.168.1.5" + port, "0.0.0.0" + port, "[::]" + port, "2130706433" + port, "0177.0.0.1" + port, "user@127.0.0.1" + port, "localhost." + port} {
		for _, c := range everyPath() {
			a := r.ask(c.method, c.path, c.body, "Host", host)
			require.Contains(t, []int{400, 403}, a.status, "%s as %s", c.path, host)
			require.NotContains(t, a.body, "newcomer", host)
		}
	}
}

func TestOnlyOurOriginMayAsk(t *testing.T) {
	r := start(t, nil)
	before := r.files()
	port := r.url[strings.LastIndex(r.url, ":"):]
	for _, headers := range [][]string{
		{"Origin", "http://evil.example"}, {"Origin", "null"}, {"Origin", ""}, {"Origin", "https://127.0.0.1" + port}, {"Origin", "http://127.0.0.1"},
		{"Origin", "http://127.0.0.1:1"}, {"Origin", "http://localhost" + port}, {"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Sec-Fetch-Site", "odd"},
		{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors", "Sec-Fetch-Dest", "image"},
		{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "iframe"},
	} {
		for _, c := range everyPath() {
			r.refuses(403, "Another site has sent this", r.ask(c.method, c.path, c.body, headers...))
		}
	}
	require.Equal(t, before, r.files())
	ours := []string{"Origin", r.url, "Sec-Fetch-Site", "same-origin"}
	for _, c := range everyPath() {
		require.Equal(t, c.status, r.ask(c.method, c.path, c.body, ours...).status, c.path)
	}
	// A link in a mail may lead to the page, and to nothing else.
	link := []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"}
	require.NotEqual(t, 403, r.ask("GET", "/", nil, link...).status)
	require.Equal(t, 403, r.ask("GET", "/api/room", nil, link...).status)
	require.Equal(t, 403, r.ask("GET", "/kiln/newcomer/saved", nil, link...).status)
	require.Equal(t, 403, r.ask("POST", "/api/pdf", map[string]string{}, link...).status)
}

// TestPathsLeadNowhereElse sends paths as they are, not cleaned by a client.
func TestPathsLeadNowhereElse(t *testing.T) {
	r := start(t, nil)
	require.NoError(t, writeBeside(r.dir, "outside.toml", testLoad(t, "newcomer")))
	for _, path := range []string{
		"/../outside.toml", "/assets/../../outside.toml", "/assets/..%2f..%2foutside.toml", "/api/loads/..%2foutside", "/api/loads/%2e%2e%2foutside",
		"/api/loads/..%5coutside", `/api/loads/..\outside`, "/api/loads/newcomer%00", "/api/loads/newcomer.toml%00.png", "/api/loads/.threepost", "/api/loads/.threepost%2fnewcomer",
		"/api/loads/" + strings.Repeat("a", 2000), "/api/loads/%ff%fe", "/api/loads/%e2%80%aenewcomer", "//api/room", "/api//room", "/api/./room", "/api/loads/../room",
		"/assets/", "/assets/.keep", "/assets/%2e%2e/page.go", "/assets/web/index.html", "/api/loads/newcomer/versions/-1", "/api/loads/newcomer/versions/x",
		"/api/loads/newcomer/versions/99999999999999999999", "/api/samples/..", "/api/samples/%2e%2e%2fpage", "/api/loads/con", "/api/loads/newcomer/", "/API/room", "/api/loads/NEWCOMER\t",
	} {
		status, body := raw(t, r, "GET "+path+" HTTP/1.1\r\nHost: "+strings.TrimPrefix(r.url, "http://")+"\r\nConnection: close\r\n\r\n")
		require.Contains(t, []int{400, 404, 414}, status, "%q: %s", path, body)
		require.NotContains(t, body, "threepost = 1", path)
		require.NotContains(t, body, "root:", path)
	}
	// The list of pictures of the program's own folder is none.
	require.Equal(t, 404, r.ask("GET", "/assets/fonts", nil).status)
}

// raw sends bytes and reads the status and the body of the answer.
func raw(t *testing.T, r *running, request string) (int, string) {
	t.Helper()
	c, err := net.Dial("tcp", strings.TrimPrefix(r.url, "http://"))
	require.NoError(t, err)
	defer c.Close()
	require.NoError(t, c.SetDeadline(time.Now().Add(20*time.Second)))
	_, err = io.WriteString(c, request)
	require.NoError(t, err)
	a, err := http.ReadResponse(bufio.NewReader(c), nil)
	require.NoError(t, err)
	defer a.Body.Close()
	body, err := io.ReadAll(a.Body)
	require.NoError(t, err)
	return a.StatusCode, string(body)
}

func TestMethodsAndOddRequests(t *testing.T) {
	r := start(t, nil)
	for _, method := range []string{"DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND"} {
		status, _ := raw(t, r, method+" /api/room HTTP/1.1\r\nHost: "+strings.TrimPrefix(r.url, "http://")+"\r\nConnection: close\r\n\r\n")
		require.Equal(t, 405, status, method)
	}
	status, _ := raw(t, r, "GET /api/room HTTP/1.1\r\nConnection: close\r\n\r\n")
	require.Equal(t, 400, status, "RFC 9112, 3.2: no Host")
	// As many bytes as net/http reads of headers of 16 KB, 4 KB more, and none
	// beyond, so that nothing is left unread and the answer arrives.
	long := "GET /api/room HTTP/1.1\r\nHost: " + strings.TrimPrefix(r.url, "http://") + "\r\nX: "
	status, _ = raw(t, r, long+strings.Repeat("a", 20<<10-len(long)))
	require.Equal(t, 431, status)
	status, _ = raw(t, r, "GET http://evil.example/api/room HTTP/1.1\r\nHost: "+strings.TrimPrefix(r.url, "http://")+"\r\nConnection: close\r\n\r\n")
	require.Equal(t, 403, status, "RFC 9112, 3.2.2: the host of an absolute address counts")
}

func TestBodiesAreBounded(t *testing.T) {
	r := start(t, nil)
	before := r.files()
	long := map[string]string{"text": strings.Repeat("#", 5<<20)}
	for _, c := range []struct{ method, path string }{
		{"POST", "/api/loads"}, {"PUT", "/api/loads/newcomer"}, {"POST", "/api/plan"}, {"POST", "/api/pdf"}, {"POST", "/api/pages"},
	} {
		r.refuses(413, "larger than 4 MB", r.ask(c.method, c.path, long))
		r.refuses(415, "application/json", r.ask(c.method, c.path, "{}", "Content-Type", "text/plain"))
		r.refuses(415, "application/json", r.ask(c.method, c.path, "{}", "Content-Type", "application/x-www-form-urlencoded"))
		r.refuses(415, "application/json", r.ask(c.method, c.path, "{}", "Content-Type", ""))
		r.refuses(415, "application/json", r.ask(c.method, c.path, "{}", "Content-Type", "application/json; charset=utf-16"))
		r.refuses(415, "not compressed", r.ask(c.method, c.path, "{}", "Content-Encoding", "gzip"))
		for _, broken := range []string{"", "{", `{"text":`, "[]", `"x"`, `{"text":1}`, `{"text":"a"} {"text":"b"}`, "null null", strings.Repeat("[", 100000), `{"text":["` + strings.Repeat(`",["`, 20000)} {
			a := r.ask(c.method, c.path, broken)
			r.refuses(400, "The request", a)
		}
		r.refuses(400, "UTF-8", r.ask(c.method, c.path, "{\"text\":\"\xff\"}"))
	}
	require.Equal(t, before, r.files())
}

func TestSlowAndManyClientsAreLetGo(t *testing.T) {
	r := start(t, func(c *Config) {
		c.Limits.Header, c.Limits.Read, c.Limits.Conns = 200*time.Millisecond, 400*time.Millisecond, 3
	})
	for _, begun := range []string{"GET /api/room HT", "POST /api/loads HTTP/1.1\r\nHost: " + strings.TrimPrefix(r.url, "http://") + "\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{\"te"} {
		c, err := net.Dial("tcp", strings.TrimPrefix(r.url, "http://"))
		require.NoError(t, err)
		_, err = io.WriteString(c, begun)
		require.NoError(t, err)
		require.NoError(t, c.SetReadDeadline(time.Now().Add(20*time.Second)))
		_, err = io.ReadAll(c)
		require.NoError(t, err, "the server ends what does not go on")
		c.Close()
	}
	// Five silent connections take all three seats until their time is up.
	for range 5 {
		c, err := net.Dial("tcp", strings.TrimPrefix(r.url, "http://"))
		require.NoError(t, err)
		defer c.Close()
	}
	require.Equal(t, 200, r.ask("GET", "/api/room", nil).status)
}

func TestAPanicIsTheProgramsFault(t *testing.T) {
	r := start(t, nil)
	r.s.handler = r.s.guard(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("a post stands on its head") }))
	r.refuses(500, "a fault of the program, not of your load", r.ask("GET", "/api/room", nil))
	require.Contains(t, r.log.String(), "a post stands on its head")
	require.NotContains(t, r.ask("GET", "/api/room", nil).body, "head")
}

// meets is a request as it comes in over a local address from a remote one.
func meets(method, host, local, remote, path, body string) *http.Request {
	q := httptest.NewRequest(method, path, strings.NewReader(body))
	q.Host, q.RemoteAddr = host, remote
	q.Header.Set("Content-Type", "application/json")
	return q.WithContext(context.WithValue(q.Context(), http.LocalAddrContextKey, net.Addr(net.TCPAddrFromAddrPort(netip.MustParseAddrPort(local)))))
}

func TestHostsInANetwork(t *testing.T) {
	r := start(t, func(c *Config) { c.LAN = true })
	for _, c := range []struct {
		host, local string
		ours        bool
	}{
		{"192.168.1.5:4183", "192.168.1.5:4183", true}, {"127.0.0.1:4183", "127.0.0.1:4183", true}, {"localhost:4183", "127.0.0.1:4183", true},
		{"[fd00::5]:4183", "[fd00::5]:4183", true}, {"192.168.1.5:4183", "[::ffff:192.168.1.5]:4183", true}, {"192.168.1.5", "192.168.1.5:80", true},
		{"192.168.1.6:4183", "192.168.1.5:4183", false}, {"192.168.1.5:4184", "192.168.1.5:4183", false}, {"192.168.1.5", "192.168.1.5:4183", false},
		{"evil.example:4183", "192.168.1.5:4183", false}, {"localhost:4183", "192.168.1.5:4183", false}, {"127.0.0.1:4183", "192.168.1.5:4183", false},
		{"192.168.1.5.nip.io:4183", "192.168.1.5:4183", false}, {"", "192.168.1.5:4183", false}, {":4183", "192.168.1.5:4183", false},
	} {
		rec := httptest.NewRecorder()
		r.s.ServeHTTP(rec, meets("GET", c.host, c.local, "192.168.1.9:1000", "/pair.css", ""))
		require.Equal(t, c.ours, rec.Code == 200, "%q over %s: %d", c.host, c.local, rec.Code)
		require.Equal(t, !c.ours, rec.Code == 403, fmt.Sprint(c))
	}
}
