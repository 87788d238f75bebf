// Command measure shows how bench feels: it drives bench and a floor, a bare
// Bubble Tea program with twelve rows and a countdown, through a pseudo-terminal
// and prints what they take and the ratio. vim and fzf stand beside them when
// they are installed. See docs/speed.md.
//
//	go run ./internal/measure
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"

	"bench/internal/work"
)

func main() {
	var m plan
	flag.IntVar(&m.rounds, "rounds", 3, "rounds; one runs all programs, every other backwards")
	flag.IntVar(&m.starts, "starts", 10, "launches of each program a round, for the start alone")
	flag.IntVar(&m.keys, "keys", 60, "keys of each kind a round")
	flag.DurationVar(&m.idle, "idle", 10*time.Second, "how long each program is left alone a round")
	markdown := flag.Bool("markdown", false, "print the table as docs/speed.md has it")
	folder := flag.String("in", "", "a folder on the disk to measure on; the usual cache folder if not given")
	flag.Parse()
	if err := run(m, *folder, *markdown); err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
}

func run(m plan, parent string, markdown bool) (err error) {
	if parent == "" { // Not that for temporary files, which may be in memory, where saving costs nothing.
		if parent, err = os.UserCacheDir(); err != nil {
			return err
		}
	}
	folder, err := os.MkdirTemp(parent, "bench-measure-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	programs, quiet, err := build(folder)
	if err != nil {
		return err
	}
	all := make([]figures, len(programs))
	for i := range all {
		all[i] = figures{}
	}
	bare := figures{} // bare is what is measured of no program, or of bench at rest.
	for round := range m.rounds {
		fmt.Fprintf(os.Stderr, "round %d of %d\n", round+1, m.rounds)
		if err := m.round(programs, all, round%2 == 1); err != nil {
			return err
		}
		if err := m.rested(quiet, bare); err != nil {
			return err
		}
		if err := m.commits(folder, bare); err != nil {
			return err
		}
	}
	fmt.Printf("%d by %d cells; %d rounds of %d starts, %d keys of each kind, %s at rest\n\n", columns, rows, m.rounds, m.starts, m.keys, m.idle)
	if err := table(os.Stdout, programs, all, markdown); err != nil {
		return err
	}
	middle := func(what measured) string { return number(quantile(bare[what], 0.5)) }
	fmt.Printf("\na durable write of 4 KiB on this disk, at the pace of the keys: median %s ms, p99 %s ms\n",
		middle(commitTime), number(quantile(bare[commitTime], 0.99)))
	fmt.Printf("bench with no timer on the screen: CPU %s ms, %s bytes, %s wake-ups per s\n", middle(idleCPU), middle(idleBytes), middle(idleWakes))
	return nil
}

// round runs every program, alternating in the starts.
func (m plan) round(programs []program, all []figures, backwards bool) error {
	order := make([]int, len(programs))
	for i := range order {
		order[i] = i
	}
	if backwards {
		slices.Reverse(order)
	}
	for range m.starts {
		for _, i := range order {
			if err := launch(programs[i], all[i], startOnly); err != nil {
				return err
			}
		}
	}
	for _, i := range order {
		if err := m.work(programs[i], all[i]); err != nil {
			return err
		}
	}
	return nil
}

// build gives bench and the floor first, then what stands beside them, and bench
// at a place where no timer runs.
func build(folder string) (programs []program, quiet program, err error) {
	for _, pkg := range []string{"cmd/bench", "internal/measure/floor", "internal/measure/drawn", "internal/measure/stored"} {
		cmd := exec.Command("go", "build", "-o", folder+string(filepath.Separator), "bench/"+pkg)
		cmd.Stderr = os.Stderr
		if err := cmd.Run(); err != nil {
			return nil, nil, fmt.Errorf("building %s: %w", pkg, err)
		}
	}
	path := func(name string) string { return filepath.Join(folder, name) }
	bench := &companion{called: "bench", path: path("bench"), folder: folder, until: work.Oils}
	beside, err := others(folder)
	store := &keeper{companion{path: path("stored"), folder: folder, until: work.Oils}}
	programs = append([]program{bench, ours("floor", path("floor")), ours("drawn", path("drawn")), store}, beside...)
	return programs, &companion{called: "bench", path: path("bench"), folder: folder, until: work.SetOut}, err
}

// commits times durable writes at the pace of the keys: what a disk that has
// rested takes is more than what it takes again and again, and no program can
// save faster.
func (m plan) commits(folder string, into figures) (err error) {
	f, err := os.Create(filepath.Join(folder, "commits"))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	block := make([]byte, 4<<10)
	for range m.keys {
		time.Sleep(pause())
		began := time.Now()
		if _, err := f.Write(block); err != nil {
			return err
		}
		if err := f.Sync(); err != nil {
			return err
		}
		into.add(commitTime, milliseconds(time.Since(began)))
	}
	return nil
}
