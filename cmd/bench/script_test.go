package main

import (
	"flag"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output of the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"bench": main})
}

// TestScripts runs the scripts that are the contract of the command line.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
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
