package desk

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/session"
	"threepost/render/drawing"
	"threepost/render/views"
)

// Desk is the page's side of one open load. It is not for use by several
// goroutines at once.
type Desk struct {
	s     *session.Session
	fonts *drawing.Fonts
	words measure.Words
	calls map[string]call

	sight sight // what the pictures of the page show
	hand  hand  // what is held, and where it was taken
	jobs  jobs
	eye   *Eye
}

// call answers one method.
type call func(d *Desk, arg []byte) (any, error)

// New is a desk with no load on it.
func New() (*Desk, error) {
	fonts, err := drawing.LoadFonts()
	if err != nil {
		return nil, err
	}
	d := &Desk{fonts: fonts, calls: vocabulary()}
	d.eye = newEye(d)
	return d, nil
}

// Eye is the 3D picture of the load on the desk.
func (d *Desk) Eye() *Eye { return d.eye }

// answer is what every call returns, one of the three.
type answer struct {
	OK      any    `json:"ok,omitempty"`
	Refusal string `json:"refusal,omitempty"`
	Fault   string `json:"fault,omitempty"`
}

// Call answers a call of the page. It never panics: a fault of the program is
// told as one.
func (d *Desk) Call(method string, arg []byte) (out []byte) {
	defer func() {
		if r := recover(); r != nil {
			out = encode(answer{Fault: "The page's program stumbled at " + method + ": " + fmt.Sprint(r)})
		}
	}()
	do, known := d.calls[method]
	if !known {
		return encode(answer{Refusal: fmt.Sprintf("The page's program knows no call %q.", method)})
	}
	v, err := do(d, arg)
	if err != nil {
		return encode(answer{Refusal: d.sentence(err)})
	}
	return encode(answer{OK: v})
}

// noLoad is told by every call that needs a load.
func noLoad() error { return errors.New("no load is open; open one or begin one") }

// sentence is an error as the person reads it.
func (d *Desk) sentence(err error) string {
	var all document.Complaints
	if errors.As(err, &all) {
		return d.words.Say(all.Error())
	}
	text := err.Error()
	if text != "" {
		text = strings.ToUpper(text[:1]) + text[1:]
		if !strings.HasSuffix(text, ".") {
			text += "."
		}
	}
	return d.words.Say(text)
}

// encode writes an answer; < and & stay as they are, it is not put into HTML.
func encode(a answer) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(a); err != nil {
		b.Reset()
		if err = e.Encode(answer{Fault: "The page's program cannot tell its answer: " + err.Error()}); err != nil {
			return []byte(`{"fault":"The page's program cannot tell its answer."}`)
		}
	}
	return bytes.TrimRight(b.Bytes(), "\n")
}

// maxArg is the longest argument of a call, bytes: a load of some thousand
// pots is under 1 MB.
const maxArg = 8 << 20

// decode reads the argument of a call; an empty one is {}.
func decode(arg []byte, into any) error {
	if len(bytes.TrimSpace(arg)) == 0 {
		return nil
	}
	if len(arg) > maxArg {
		return fmt.Errorf("what the page sends is %d bytes long; %d at most", len(arg), maxArg)
	}
	if err := json.Unmarshal(arg, into); err != nil {
		return fmt.Errorf("what the page sends cannot be read: %w", err)
	}
	return nil
}

// none is the argument of a call that takes nothing.
type none struct{}

// with makes a call of a function that needs a load.
func with[A, R any](do func(d *Desk, a A) (R, error)) call {
	return func(d *Desk, arg []byte) (any, error) {
		if d.s == nil {
			return nil, noLoad()
		}
		return without(do)(d, arg)
	}
}

// without makes a call of a function that needs none.
func without[A, R any](do func(d *Desk, a A) (R, error)) call {
	return func(d *Desk, arg []byte) (any, error) {
		var a A
		if err := decode(arg, &a); err != nil {
			return nil, err
		}
		v, err := do(d, a)
		if err != nil {
			return nil, err
		}
		return v, nil
	}
}

// changed is to be called after whatever may have changed the load.
func (d *Desk) changed() { d.eye.stale() }

// after hands a state on and lets the 3D picture know.
func (d *Desk) after(s *session.State, err error) (*session.State, error) {
	if err != nil {
		return nil, err
	}
	d.hand = hand{}
	d.changed()
	return s, nil
}

// easel draws in the person's units and words.
func (d *Desk) easel() *views.Easel {
	e := &views.Easel{Fonts: d.fonts, Words: d.words}
	if d.s != nil {
		e.Units = d.s.Load().Units
	}
	return e
}
