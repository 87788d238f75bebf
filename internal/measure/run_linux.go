package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"time"
)

// plan says how much is measured.
type plan struct {
	rounds, starts, keys int
	idle                 time.Duration
}

// Pauses between keys are random over whole frames of a 60 Hz clock, three of
// them: a key sent right after a frame would always meet the clock at the same
// phase.
const (
	pauseLeast  = 40 * time.Millisecond
	pauseSpread = 3 * time.Second / 60
)

func pause() time.Duration { return pauseLeast + rand.N(pauseSpread) }

// launch starts a program, waits for its first useful frame, does something with
// it, leaves it and checks it.
func launch(p program, f figures, do func(*session) error) (err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("%s: %w", p.name(), err)
		}
	}()
	cmd, ready, err := p.prepare()
	if err != nil {
		return err
	}
	s, err := start(cmd)
	if err != nil {
		return err
	}
	at, err := s.await("first useful frame", ready)
	if err == nil {
		f.add(startUp, milliseconds(at.Sub(s.began)))
		s.rest(pause())
		err = do(s)
	}
	if err = errors.Join(err, s.stop(p.leave())); err != nil {
		return err
	}
	return p.check()
}

// startOnly is for launches that are only about the start.
func startOnly(*session) error { return nil }

// work measures a program at rest and at work.
func (m plan) work(p program, f figures) error {
	return launch(p, f, func(s *session) error {
		if err := p.enter(s); err != nil {
			return err
		}
		if err := m.atRest(s, f); err != nil {
			return err
		}
		err := p.keys(m.keys, func(k key) error { return press(s, k, f) })
		if err != nil {
			return err
		}
		used, err := usageOf(s.cmd.Process.Pid)
		f.add(peakMemory, float64(used.peak)/1024)
		return err
	})
}

// rested measures only how a program rests.
func (m plan) rested(p program, f figures) error {
	return launch(p, f, func(s *session) error {
		if err := p.enter(s); err != nil {
			return err
		}
		return m.atRest(s, f)
	})
}

// atRest lets a program alone and looks what it does.
func (m plan) atRest(s *session, f figures) error {
	s.rest(time.Second) // Its start-up and our last key are over.
	before, err := usageOf(s.cmd.Process.Pid)
	if err != nil {
		return err
	}
	written, began := s.bytes, time.Now()
	s.rest(m.idle)
	after, err := usageOf(s.cmd.Process.Pid)
	if err != nil {
		return err
	}
	seconds := time.Since(began).Seconds()
	f.add(idleCPU, milliseconds(after.cpu-before.cpu)/seconds)
	f.add(idleBytes, float64(s.bytes-written)/seconds)
	f.add(idleWakes, float64(after.wakes-before.wakes)/seconds)
	return nil
}

// press sends a key, waits for what shows that it was answered, and counts what
// was written until the next.
func press(s *session, k key, f figures) error {
	s.rest(k.wait)
	if k.shown != nil && k.shown(s.text()) {
		return fmt.Errorf("before %q was pressed the screen already was\n%s", k.send, s.text())
	}
	written, began := s.bytes, time.Now()
	if err := s.send(k.send); err != nil {
		return err
	}
	var at time.Time
	var err error
	if k.shown != nil {
		if at, err = s.await(fmt.Sprintf("answer to %q", k.send), k.shown); err != nil {
			return err
		}
	}
	s.rest(pause())
	if took, bytes := ofKey(k.kind); took != "" {
		f.add(took, milliseconds(at.Sub(began)))
		f.add(bytes, float64(s.bytes-written))
	}
	return nil
}

func milliseconds(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
