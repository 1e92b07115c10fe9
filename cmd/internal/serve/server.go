package serve

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"time"

	"threepost/cmd/internal/folder"
	"threepost/render/drawing"
)

// Config is what a server is made of.
type Config struct {
	Folder  *folder.Folder
	LAN     bool             // other devices may come in with a pairing code
	Version string           // of the program, shown on the page
	Now     func() time.Time // the clock
	Random  io.Reader        // crypto/rand.Reader
	Told    func(string)     // tells the person at the terminal a line; may be nil
	Log     io.Writer        // faults of the program; may be nil
	Limits  Limits           // zero fields have defaults
}

// Limits bound what a client may take.
type Limits struct {
	Body    int64         // bytes of a request's body
	Header  time.Duration // for the headers of a request
	Read    time.Duration // for a whole request
	Write   time.Duration // for an answer, or one line of a stream
	Idle    time.Duration // between requests
	Look    time.Duration // between looks at a file that is watched
	Conns   int           // at once
	Plans   int           // at once
	Streams int           // of changes at once
}

// usual fills in the defaults.
func (l Limits) usual() Limits {
	set := func(d *time.Duration, usual time.Duration) {
		if *d == 0 {
			*d = usual
		}
	}
	set(&l.Header, 5*time.Second)
	set(&l.Read, 30*time.Second)
	set(&l.Write, 60*time.Second)
	set(&l.Idle, 2*time.Minute)
	set(&l.Look, time.Second)
	if l.Body == 0 {
		l.Body = 4 << 20
	}
	for n, usual := range map[*int]int{&l.Conns: 256, &l.Plans: 2, &l.Streams: 64} {
		if *n == 0 {
			*n = usual
		}
	}
	return l
}

// Server answers the page.
type Server struct {
	folder  *folder.Folder
	config  Config
	limits  Limits
	doors   *doors // pairing, only with LAN
	pages   pages  // embedded files with their tags
	plans   chan struct{}
	runs    runs
	streams chan struct{}
	papers  chan struct{}
	fonts   func() (*drawing.Fonts, error)
	log     *log.Logger
	handler http.Handler
	token   string // proves to a second start that this is the server of its folder
}

// New makes a server. It fails only when the random source does.
func New(c Config) (*Server, error) {
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Told == nil {
		c.Told = func(string) {}
	}
	if c.Log == nil {
		c.Log = io.Discard
	}
	s := &Server{folder: c.Folder, config: c, limits: c.Limits.usual(), log: log.New(c.Log, "", log.LstdFlags)}
	s.plans = make(chan struct{}, s.limits.Plans)
	s.streams = make(chan struct{}, s.limits.Streams)
	s.papers = make(chan struct{}, 2)
	s.fonts = sync.OnceValues(drawing.LoadFonts)
	s.pages = embeddedPages()
	var err error
	if s.token, err = secret(c.Random); err != nil {
		return nil, err
	}
	if c.LAN {
		if s.doors, err = newDoors(c.Now, c.Random, c.Told); err != nil {
			return nil, err
		}
	}
	s.handler = s.guard(s.routes())
	return s, nil
}

// route is a method and pattern and who answers it.
type route struct {
	pattern string // of http.ServeMux, with its method
	handle  func(w http.ResponseWriter, r *http.Request) error
}

// routes puts all handlers under their patterns.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	all := [][]route{s.pageRoutes(), s.loadRoutes(), s.planRoutes(), s.paperRoutes(), s.pairRoutes(), s.kilnsideRoutes()}
	for _, some := range all {
		for _, one := range some {
			mux.HandleFunc(one.pattern, func(w http.ResponseWriter, r *http.Request) {
				if err := one.handle(w, r); err != nil {
					s.refuse(w, r, err)
				}
			})
		}
	}
	return mux
}

// ServeHTTP answers a request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// Code is the pairing code that is good now, or "" without LAN.
func (s *Server) Code() string {
	if s.doors == nil {
		return ""
	}
	return s.doors.code()
}

// Serve answers requests of a listener until the context ends; streams end
// with it, other answers have some seconds to be finished.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	h := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: s.limits.Header,
		ReadTimeout:       s.limits.Read,
		WriteTimeout:      s.limits.Write,
		IdleTimeout:       s.limits.Idle,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          log.New(io.Discard, "", 0), // what clients do wrong is not the person's concern
		BaseContext:       func(net.Listener) context.Context { return ctx },
	}
	ended := make(chan error, 1)
	go func() { ended <- h.Serve(few(ln, s.limits.Conns)) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	late, stop := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
	defer stop()
	if err := h.Shutdown(late); err != nil {
		_ = h.Close() // what is still open after that long is cut
	}
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// few is a listener that lets only so many connections be open at once.
func few(ln net.Listener, n int) net.Listener {
	return &fewConns{Listener: ln, seats: make(chan struct{}, n), closed: make(chan struct{})}
}

type fewConns struct {
	net.Listener
	seats  chan struct{}
	once   sync.Once
	closed chan struct{}
}

func (l *fewConns) Accept() (net.Conn, error) {
	select {
	case l.seats <- struct{}{}:
	case <-l.closed:
		return nil, net.ErrClosed
	}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.seats
		return nil, err
	}
	return &seated{Conn: c, leave: sync.OnceFunc(func() { <-l.seats })}, nil
}

func (l *fewConns) Close() error {
	l.once.Do(func() { close(l.closed) })
	return l.Listener.Close()
}

type seated struct {
	net.Conn
	leave func()
}

func (c *seated) Close() error {
	c.leave()
	return c.Conn.Close()
}
