package main

import (
	"testing"

	"bench/internal/golden"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"bench": main})
}

// TestScripts runs the scripts that are the contract of the command line.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       golden.Updates(),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("HOME", e.WorkDir)
			e.Setenv("BENCH_HOME", e.WorkDir+"/home")
			e.Setenv("TERM", "xterm-256color")
			e.Setenv("TZ", "UTC")
			return nil
		},
	})
}
