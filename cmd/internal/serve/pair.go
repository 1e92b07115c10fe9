package serve

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	_ "embed"
	"encoding/hex"
	"fmt"
	"io"
	"math/big"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"sync"
	"time"
)

// Pairing: six digits, few tries.
const (
	cookieName  = "threepost"
	triesEach   = 5                // wrong codes of one address before it is shut out
	triesAll    = 25               // wrong codes of all addresses before there is a new code
	shutOut     = 10 * time.Minute // for so long
	mostPaired  = 64               // devices
	mostTried   = 1024             // addresses that are remembered
	cookieLives = 30 * 24 * time.Hour
)

// doors lets paired devices in.
type doors struct {
	now    func() time.Time
	random io.Reader
	told   func(string)

	mu     sync.Mutex
	digits string
	paired [][sha256.Size]byte // of the cookies, oldest first
	tried  map[netip.Addr]*tries
	wrong  int // since the code was made
}

// tries are the wrong codes of one address.
type tries struct {
	wrong int
	until time.Time // when they are forgotten
}

func newDoors(now func() time.Time, random io.Reader, told func(string)) (*doors, error) {
	d := &doors{now: now, random: random, told: told, tried: map[netip.Addr]*tries{}}
	if d.random == nil {
		d.random = rand.Reader
	}
	return d, d.renew()
}

// renew makes a new code.
func (d *doors) renew() error {
	n, err := rand.Int(d.random, big.NewInt(1_000_000))
	if err != nil {
		return fmt.Errorf("this computer gives no random numbers, so no pairing code can be made: %w", err)
	}
	d.digits, d.wrong = fmt.Sprintf("%06d", n.Int64()), 0
	return nil
}

// code is the code that is good now.
func (d *doors) code() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.digits
}

// secret is 32 random bytes as text.
func secret(random io.Reader) (string, error) {
	if random == nil {
		random = rand.Reader
	}
	b := make([]byte, 32)
	if _, err := io.ReadFull(random, b); err != nil {
		return "", fmt.Errorf("this computer gives no random numbers: %w", err)
	}
	return hex.EncodeToString(b), nil
}

// admitted says whether a request comes from this computer or from a paired
// device.
func (d *doors) admitted(r *http.Request) bool {
	if from(r).IsLoopback() {
		return true
	}
	c, err := r.Cookie(cookieName)
	if err != nil {
		return false
	}
	sum := sha256.Sum256([]byte(c.Value))
	d.mu.Lock()
	defer d.mu.Unlock()
	found := 0
	for i := range d.paired {
		found |= subtle.ConstantTimeCompare(sum[:], d.paired[i][:])
	}
	return found == 1
}

// from is the address that a request comes from.
func from(r *http.Request) netip.Addr {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	ip, err := netip.ParseAddr(host)
	if err != nil {
		return netip.Addr{}
	}
	return ip.WithZone("").Unmap()
}

// pair checks a code and gives the cookie's value of a new device.
func (d *doors) pair(who netip.Addr, code string) (string, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	t := d.tried[who]
	if t != nil && now.After(t.until) {
		delete(d.tried, who)
		t = nil
	}
	if t != nil && t.wrong >= triesEach {
		return "", refused(http.StatusTooManyRequests, "Too many wrong codes from this device. Try again in %d minutes.", int(t.until.Sub(now).Minutes())+1)
	}
	given, want := sha256.Sum256([]byte(code)), sha256.Sum256([]byte(d.digits))
	if subtle.ConstantTimeCompare(given[:], want[:]) != 1 {
		return "", d.wrongCode(who, t, now)
	}
	value, err := secret(d.random)
	if err != nil {
		return "", err
	}
	delete(d.tried, who)
	d.paired = append(d.paired, sha256.Sum256([]byte(value)))
	if len(d.paired) > mostPaired {
		d.paired = append([][sha256.Size]byte(nil), d.paired[1:]...)
	}
	return value, nil
}

// wrongCode counts a wrong code.
func (d *doors) wrongCode(who netip.Addr, t *tries, now time.Time) error {
	if t == nil {
		if len(d.tried) >= mostTried {
			for a, old := range d.tried {
				if now.After(old.until) {
					delete(d.tried, a)
				}
			}
		}
		if len(d.tried) >= mostTried {
			return refused(http.StatusTooManyRequests, "Too many devices have sent wrong codes. Try again in %d minutes.", int(shutOut.Minutes()))
		}
		t = &tries{}
		d.tried[who] = t
	}
	t.wrong++
	t.until = now.Add(shutOut)
	if d.wrong++; d.wrong >= triesAll {
		if err := d.renew(); err != nil {
			return err
		}
		d.told(fmt.Sprintf("Too many wrong pairing codes were tried. The new code is %s.", spaced(d.digits)))
	}
	return refused(http.StatusForbidden, "This is not the code. The terminal where Threepost runs shows it.")
}

// spaced is a code in two halves, as people read it.
func spaced(digits string) string { return digits[:3] + " " + digits[3:] }

// SpacedCode is the pairing code as it is shown, or "".
func (s *Server) SpacedCode() string {
	if s.doors == nil {
		return ""
	}
	return spaced(s.Code())
}

func (s *Server) pairRoutes() []route {
	return []route{
		{"POST /api/pair", s.pair},
		{"GET /pair.css", still("text/css; charset=utf-8", pairStyle)},
		{"GET /pair.js", still("text/javascript; charset=utf-8", pairScript)},
	}
}

// outdoors are the paths that an unpaired device may ask for.
func outdoors(p string) bool {
	return p == "/api/pair" || p == "/pair.css" || p == "/pair.js"
}

//go:embed pair.html
var pairPage []byte

//go:embed pair.css
var pairStyle []byte

//go:embed pair.js
var pairScript []byte

// still answers with bytes that never change while the program runs.
func still(kind string, data []byte) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, _ *http.Request) error {
		w.Header().Set("Content-Type", kind)
		_, _ = w.Write(data) // who asked may be gone
		return nil
	}
}

// closed answers a device that is not paired: with the page that asks for the
// code where a page was wanted, else with a sentence.
func (s *Server) closed(w http.ResponseWriter, r *http.Request) {
	if r.Method == http.MethodGet && isPage(r.URL.Path) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(http.StatusUnauthorized)
		_, _ = w.Write(pairPage) // who asked may be gone
		return
	}
	s.refuse(w, r, refused(http.StatusUnauthorized, "This device is not paired yet. Open the page and type the code that the terminal shows."))
}

// pair takes a code and gives the cookie.
func (s *Server) pair(w http.ResponseWriter, r *http.Request) error {
	if s.doors == nil {
		return refused(http.StatusNotFound, "Pairing is only for --lan.")
	}
	var ask struct {
		Code string `json:"code"`
	}
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	code := strings.Join(strings.Fields(ask.Code), "")
	value, err := s.doors.pair(from(r), code)
	if err != nil {
		return err
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: value, Path: "/", MaxAge: int(cookieLives.Seconds()), HttpOnly: true, SameSite: http.SameSiteStrictMode})
	s.answer(w, http.StatusOK, map[string]bool{"paired": true})
	return nil
}
