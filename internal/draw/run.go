package draw

import (
	"errors"
	"io"
	"os"
	"os/signal"
	"reflect"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// patience is how long a program that was asked to stop may take.
const patience = 5 * time.Second

// StopRequestedMsg says that the program must end: a signal came or the terminal
// is gone. The model finishes what it is writing and quits; if it does not
// within five seconds, Run ends with an error.
type StopRequestedMsg struct{ Cause error }

var (
	errTerminalGone = errors.New("the terminal is gone")
	errOverdue      = errors.New("the program did not stop in time when it was asked to")
)

// Still is for a model that knows when its view is not worth drawing: nothing has
// changed since the last message, or what has is about to be overtaken by another
// message. The model sees to it that one comes.
type Still interface {
	Still() bool
	// Ahead gives the view that will probably be the next to be drawn. It is called
	// beside the model while it is Still, and may take a while.
	Ahead() string
}

// Run drives the model until it quits. Its first command starts before the
// terminal is taken. The model gets a tea.WindowSizeMsg before any other message
// and after each change of size; its view is drawn after each message, unless it
// is Still. tea.Suspend works as usual; another program is run by Exec.
func Run(model tea.Model, opt Options) (tea.Model, error) {
	opt = opt.withDefaults()
	signals := make(chan os.Signal, 8)
	signal.Notify(signals, watched()...)
	defer signal.Stop(signals)

	t, err := find(opt)
	if err != nil {
		return model, err
	}
	defer t.Close() //nolint:errcheck // This one is for panics.

	d := &driver{terminal: t, model: model, signals: signals, suspending: make(chan struct{}, 1)}
	d.program = tea.NewProgram(
		d,
		tea.WithInput(input{opt.In, func() { d.stop(errTerminalGone) }}),
		tea.WithOutput(opt.Out),
		tea.WithoutRenderer(),
		tea.WithoutSignalHandler(),
		tea.WithoutCatchPanics(), // It would print the trace before the terminal is back.
		tea.WithFilter(d.filter),
	)
	d.start(model.Init()) // What it reads comes while the terminal is taken.
	if err := t.Acquire(); err != nil {
		return model, err
	}
	done := make(chan struct{})
	defer close(done)
	go d.watch(done)

	_, err = d.program.Run()
	if d.overdue.Load() {
		err = errors.Join(err, errOverdue)
	}
	return d.model, errors.Join(err, t.Close())
}

// driver stands between Bubble Tea and the model and draws.
type driver struct {
	terminal *Terminal
	model    tea.Model
	program  *tea.Program

	signals    chan os.Signal
	stopping   sync.Once
	overdue    atomic.Bool
	suspending chan struct{}
}

func (d *driver) Init() tea.Cmd {
	width, height := d.terminal.Size()
	_, cmd := d.Update(tea.WindowSizeMsg{Width: width, Height: height})
	return cmd
}

func (d *driver) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case execMsg:
		return d, tea.Exec(&execution{d, msg.cmd}, msg.done)
	case bellMsg:
		d.failing(d.terminal.ring())
		return d, nil
	case mouseMsg:
		d.failing(d.terminal.watchMouse())
		return d, nil
	case noticeMsg:
		d.failing(d.terminal.notice(msg.text))
		return d, nil
	case tea.WindowSizeMsg:
		d.terminal.resize(msg.Width, msg.Height)
	}
	var cmd tea.Cmd
	d.model, cmd = d.model.Update(msg)
	d.start(cmd)
	if still, ok := d.model.(Still); ok && still.Still() {
		d.start(func() tea.Msg {
			runtime.Gosched() // What is on its way to the disk goes first.
			d.terminal.Prepare(still.Ahead())
			return nil
		})
		return d, nil
	}
	d.failing(d.terminal.Draw(d.model.View()))
	return d, nil
}

// failing asks the program to stop where the terminal takes no more.
func (d *driver) failing(err error) {
	if err != nil {
		d.stop(err)
	}
}

// start runs a command as Bubble Tea would, but before the frame is drawn, so
// that a fact is on its way to the disk while its key is answered. Commands that
// come together start at once, without a way round through the program's loop.
func (d *driver) start(cmd tea.Cmd) {
	if cmd = d.guard(cmd); cmd == nil {
		return
	}
	go func() {
		switch msg := cmd().(type) {
		case nil:
		case tea.BatchMsg:
			for _, each := range msg {
				d.start(each)
			}
		default:
			d.program.Send(msg)
		}
	}()
}

// View is for Bubble Tea's renderer, which is off.
func (d *driver) View() string { return "" }

// filter takes the wish to suspend from Bubble Tea, which would wait for ever
// where no shell can continue the program.
func (d *driver) filter(_ tea.Model, msg tea.Msg) tea.Msg {
	if _, ok := msg.(tea.SuspendMsg); !ok {
		return msg
	}
	select {
	case d.suspending <- struct{}{}:
	default: // It is about to.
	}
	return nil
}

// watch turns signals into messages until done is closed.
func (d *driver) watch(done <-chan struct{}) {
	for {
		select {
		case <-done:
			return
		case <-d.suspending:
			d.suspend()
		case sig := <-d.signals:
			d.handle(sig)
		}
	}
}

// stop asks the model to quit, once, and ends the program if it does not.
func (d *driver) stop(cause error) {
	d.stopping.Do(func() {
		time.AfterFunc(patience, func() {
			d.overdue.Store(true)
			d.program.Quit()
		})
		go d.program.Send(StopRequestedMsg{cause}) // It waits for Update, which may be the caller.
	})
}

// sendSize tells the model the size, and so makes it draw everything again.
func (d *driver) sendSize() {
	width, height := measure(d.terminal.out)
	d.program.Send(tea.WindowSizeMsg{Width: width, Height: height})
}

// guard gives the terminal back if a command panics, so that the trace can be
// read. Batches and sequences (a type that Bubble Tea does not export) are lists
// of commands.
func (d *driver) guard(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() tea.Msg {
		finished := false
		defer func() {
			if !finished {
				_ = d.terminal.Close() // The panic says more.
			}
		}()
		msg := cmd()
		finished = true
		if list := reflect.ValueOf(msg); list.Kind() == reflect.Slice && list.Type().Elem() == reflect.TypeFor[tea.Cmd]() {
			guarded := reflect.MakeSlice(list.Type(), list.Len(), list.Len())
			for i := range list.Len() {
				inner, _ := list.Index(i).Interface().(tea.Cmd)
				guarded.Index(i).Set(reflect.ValueOf(d.guard(inner)))
			}
			msg = guarded.Interface()
		}
		return msg
	}
}

// input is the terminal's input; its end is a reason to stop, not an error.
type input struct {
	*os.File
	gone func()
}

func (in input) Read(p []byte) (int, error) {
	n, err := in.File.Read(p)
	if err != nil {
		in.gone()
		return n, io.EOF
	}
	return n, nil
}
