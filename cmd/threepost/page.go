package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/cmd/internal/folder"
	"threepost/cmd/internal/serve"
)

// pageFlags are how the page is opened.
type pageFlags struct {
	port      int
	lan       bool
	noBrowser bool
}

// usualPort is where the page is when nothing else is there.
const usualPort = 4183

func openCommand(t *terminal) *cobra.Command {
	var f pageFlags
	cmd := &cobra.Command{
		Use:   "open [FOLDER | LOAD.toml]",
		Short: "Open the page: list pots, plan, look, move, print",
		Long: `Opens the page in the browser, on the loads of a folder or at one of them.
Without a name it is the folder Threepost of the home folder, which is made
when it is not there. The page answers on this computer alone until Ctrl-C.

With --lan a phone or tablet in the same network may open it too: the terminal
shows the address and a code to type there once. The connection is not
encrypted; use it in a network that you trust.`,
		Example: "  threepost open\n  threepost open october.toml\n  threepost open loads --lan --no-browser",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage("open takes one folder or one load")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			name := ""
			if len(args) > 0 {
				if name = args[0]; name == "" {
					return usage("open takes one folder or one load")
				}
			}
			return t.page(cmd.Context(), name, f)
		},
	}
	cmd.Flags().IntVar(&f.port, "port", 0, fmt.Sprintf("port to answer at; %d, or a free one, when not given", usualPort))
	cmd.Flags().BoolVar(&f.lan, "lan", false, "let paired phones and tablets in")
	cmd.Flags().BoolVar(&f.noBrowser, "no-browser", false, "only print the address")
	return cmd
}

// page serves the page until it is stopped.
func (t *terminal) page(ctx context.Context, name string, f pageFlags) error {
	if f.port < 0 || f.port > 65535 {
		return usage("--port is from 1 to 65535")
	}
	dir, id, err := whereLoadsAre(name)
	if err != nil {
		return unreadable(err)
	}
	if ctx == nil {
		ctx = context.Background()
	}
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	loads, err := folder.Open(dir, time.Now)
	if err != nil {
		return unreadable(err)
	}
	defer loads.Close()
	if at := serve.Running(ctx, loads.Dir()); at != "" {
		return t.opened(shown{Folder: loads.Dir(), Address: addressOf(at, id), Already: true}, f)
	}
	ln, err := listen(f)
	if err != nil {
		return unreadable(err)
	}
	defer ln.Close()
	s, err := serve.New(serve.Config{Folder: loads, LAN: f.lan, Version: version, Log: t.errs,
		Told: func(line string) { fmt.Fprintln(t.errs, line) }})
	if err != nil {
		return ending{exitInternal, err}
	}
	port := ln.Addr().(*net.TCPAddr).Port
	here := "http://" + net.JoinHostPort("127.0.0.1", strconv.Itoa(port))
	leave := s.Announce(here)
	defer leave()
	said := shown{Folder: loads.Dir(), Address: addressOf(here, id), Code: s.SpacedCode()}
	if f.lan {
		said.LAN = addressesOf(port, id)
	}
	// Connections wait in the listener until Serve takes them.
	if err := t.opened(said, f); err != nil {
		return err
	}
	if err := s.Serve(ctx, ln); err != nil {
		return ending{exitInternal, err}
	}
	return nil
}

// whereLoadsAre is the folder of the loads, and the id of the one to open.
func whereLoadsAre(name string) (dir, id string, err error) {
	if name == "" {
		home, err := os.UserHomeDir()
		if err != nil {
			return "", "", errors.New("the home folder of this account is not known; name the folder of your loads: threepost open FOLDER")
		}
		dir = filepath.Join(home, "Threepost")
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return "", "", fmt.Errorf("the folder %s cannot be made (%w); name another: threepost open FOLDER", dir, err)
		}
		return dir, "", nil
	}
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		return name, "", nil
	}
	if _, err := files.Read(name); err != nil {
		return "", "", err
	}
	id, ok := strings.CutSuffix(filepath.Base(name), ".toml")
	if !ok {
		return "", "", fmt.Errorf("%s: the page opens loads whose names end in .toml", name)
	}
	if err := folder.CheckID(id); err != nil {
		return "", "", err
	}
	return filepath.Dir(name), id, nil
}

// listen takes the port that is asked for, or the usual one, or a free one.
func listen(f pageFlags) (net.Listener, error) {
	host := "127.0.0.1"
	if f.lan {
		host = ""
	}
	port := f.port
	if port == 0 {
		port = usualPort
	}
	ln, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(port)))
	if err != nil && f.port == 0 {
		ln, err = net.Listen("tcp", net.JoinHostPort(host, "0"))
	}
	if err != nil {
		return nil, fmt.Errorf("port %d cannot be used: another program has it, or this account may not; choose another with --port", port)
	}
	return ln, nil
}

// addressOf is the address of the page at a load.
func addressOf(server, id string) string {
	if id == "" {
		return server + "/"
	}
	return server + "/?load=" + url.QueryEscape(id)
}

// addressesOf are the addresses at which other devices find this computer.
func addressesOf(port int, id string) []string {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var out []string
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if !ok || n.IP.IsLoopback() || n.IP.IsLinkLocalUnicast() {
			continue
		}
		out = append(out, addressOf("http://"+net.JoinHostPort(n.IP.String(), strconv.Itoa(port)), id))
	}
	// Those with four figures first: they can be typed.
	sort.Slice(out, func(i, j int) bool {
		six := func(s string) bool { return strings.Contains(s, "[") }
		return !six(out[i]) && six(out[j]) || six(out[i]) == six(out[j]) && out[i] < out[j]
	})
	return out
}

// shown is the JSON of an opened page.
type shown struct {
	Folder  string   `json:"folder"`
	Address string   `json:"address"`
	LAN     []string `json:"lan,omitempty"`
	Code    string   `json:"code,omitempty"`
	Already bool     `json:"already,omitempty"` // another start of the program shows it
}

// opened tells where the page is, and opens it.
func (t *terminal) opened(s shown, f pageFlags) error {
	if t.json {
		if err := t.answer(s); err != nil {
			return err
		}
	} else {
		t.tellPage(s)
	}
	if !f.noBrowser {
		browse(s.Address)
	}
	return nil
}

func (t *terminal) tellPage(s shown) {
	if s.Already {
		t.say("Threepost runs already for %s:\n  %s", s.Folder, s.Address)
		return
	}
	t.say("Loads in %s. The page is at\n  %s", s.Folder, s.Address)
	if s.Code != "" {
		if len(s.LAN) == 0 {
			t.say("This computer has no address in a network; no phone or tablet can open the page.")
		} else {
			t.say("On a phone or tablet in the same network open\n  %s", strings.Join(s.LAN, "\n  "))
			t.say("and type the code %s there. The connection is not encrypted.", s.Code)
		}
	}
	t.say("Ctrl-C ends it.")
}

// browse opens the person's browser where there is one; the address is printed
// in any case.
func browse(address string) {
	var cmd *exec.Cmd
	switch runtime.GOOS {
	case "windows":
		cmd = exec.Command("rundll32", "url.dll,FileProtocolHandler", address)
	case "darwin":
		cmd = exec.Command("open", address)
	default:
		if os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
			return
		}
		cmd = exec.Command("xdg-open", address)
	}
	if cmd.Start() == nil {
		go func() { _ = cmd.Wait() }() // only so that it leaves no dead process
	}
}
