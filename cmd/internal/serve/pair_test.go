package serve

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// device is a phone in the network, with the cookies it was given.
type device struct {
	r      *running
	remote string
	cookie *http.Cookie
}

func (d *device) ask(method, path, body string) *httptest.ResponseRecorder {
	q := meets(method, "192.168.1.5:4183", "192.168.1.5:4183", d.remote, path, body)
	if d.cookie != nil {
		q.AddCookie(d.cookie)
	}
	rec := httptest.NewRecorder()
	d.r.s.ServeHTTP(rec, q)
	return rec
}

func (d *device) pair(code string) *httptest.ResponseRecorder {
	data, _ := json.Marshal(map[string]string{"code": code})
	rec := d.ask("POST", "/api/pair", string(data))
	for _, c := range rec.Result().Cookies() {
		d.cookie = c
	}
	return rec
}

// other is a code that is not the one.
func other(code string) string {
	if code == "000000" {
		return "000001"
	}
	return "000000"
}

func TestPairingLetsADeviceIn(t *testing.T) {
	r := start(t, func(c *Config) { c.LAN = true })
	require.Regexp(t, regexp.MustCompile(`^\d{6}$`), r.s.Code())
	require.Equal(t, r.s.Code(), strings.ReplaceAll(r.s.SpacedCode(), " ", ""))
	d := &device{r: r, remote: "192.168.1.9:5000"}
	for _, c := range everyPath() {
		if c.path == "/pair.css" || c.path == "/api/pair" {
			continue
		}
		data, err := json.Marshal(c.body)
		require.NoError(t, err)
		rec := d.ask(c.method, c.path, string(data))
		require.Equal(t, http.StatusUnauthorized, rec.Code, c.path)
		require.NotContains(t, rec.Body.String(), "newcomer")
		secured(t, rec.Header())
	}
	page := d.ask("GET", "/kiln/newcomer", "")
	require.Equal(t, http.StatusUnauthorized, page.Code)
	require.Contains(t, page.Body.String(), "Pair this device")
	require.NotContains(t, page.Body.String(), r.s.Code())

	rec := d.pair(other(r.s.Code()))
	require.Equal(t, http.StatusForbidden, rec.Code)
	require.Nil(t, d.cookie)
	code := r.s.Code()
	require.Equal(t, http.StatusOK, d.pair(" "+code[:3]+" "+code[3:]).Code)
	require.NotNil(t, d.cookie)
	require.True(t, d.cookie.HttpOnly)
	require.Equal(t, http.SameSiteStrictMode, d.cookie.SameSite)
	require.Equal(t, "/", d.cookie.Path)
	require.Len(t, d.cookie.Value, 64)
	require.Equal(t, http.StatusOK, d.ask("GET", "/api/room", "").Code)

	// The cookie is the device's key, not its address; a made-up one is none.
	moved := &device{r: r, remote: "192.168.1.77:5000", cookie: d.cookie}
	require.Equal(t, http.StatusOK, moved.ask("GET", "/api/room", "").Code)
	forged := &device{r: r, remote: "192.168.1.9:5000", cookie: &http.Cookie{Name: cookieName, Value: strings.Repeat("0", 64)}}
	require.Equal(t, http.StatusUnauthorized, forged.ask("GET", "/api/room", "").Code)
	// A paired device is still held to our host and origin.
	q := meets("GET", "evil.example:4183", "192.168.1.5:4183", d.remote, "/api/room", "")
	q.AddCookie(d.cookie)
	out := httptest.NewRecorder()
	r.s.ServeHTTP(out, q)
	require.Equal(t, http.StatusForbidden, out.Code)
	// The computer itself needs no code.
	require.Equal(t, http.StatusOK, r.ask("GET", "/api/room", nil).status)
}

func TestWrongCodesShutOut(t *testing.T) {
	now := time.Date(2026, 10, 14, 9, 0, 0, 0, time.UTC)
	var told []string
	r := start(t, func(c *Config) {
		c.LAN, c.Now = true, func() time.Time { return now }
		c.Told = func(line string) { told = append(told, line) }
	})
	d := &device{r: r, remote: "192.168.1.9:5000"}
	for range triesEach {
		require.Equal(t, http.StatusForbidden, d.pair(other(r.s.Code())).Code)
	}
	rec := d.pair(r.s.Code())
	require.Equal(t, http.StatusTooManyRequests, rec.Code, "even the right code comes too late")
	require.Contains(t, rec.Body.String(), "Try again in 11 minutes")
	require.Nil(t, d.cookie)
	second := &device{r: r, remote: "192.168.1.10:5000"}
	require.Equal(t, http.StatusOK, second.pair(r.s.Code()).Code, "another device is not shut out")
	now = now.Add(shutOut + time.Second)
	require.Equal(t, http.StatusOK, d.pair(r.s.Code()).Code)

	// Many addresses together: the code they try for is gone.
	first := r.s.Code()
	for i := range triesAll - triesEach {
		require.Equal(t, http.StatusForbidden, (&device{r: r, remote: fmt.Sprintf("192.168.2.%d:5000", i)}).pair(other(first)).Code)
	}
	require.Len(t, told, 1)
	require.Contains(t, told[0], r.s.SpacedCode())
	require.NotEqual(t, first, r.s.Code(), "one in a million that they are equal")
	require.Equal(t, http.StatusOK, d.ask("GET", "/api/room", "").Code, "paired devices stay paired")
}

func TestPairingNeedsRandomNumbersAndLAN(t *testing.T) {
	_, err := New(Config{LAN: true, Random: bytes.NewReader(nil)})
	require.ErrorContains(t, err, "no random numbers")
	r := start(t, nil)
	require.Empty(t, r.s.Code())
	require.Empty(t, r.s.SpacedCode())
	r.refuses(404, "only for --lan", r.ask("POST", "/api/pair", map[string]string{"code": "123456"}))
}
