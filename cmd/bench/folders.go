package main

import (
	"errors"
	"os"
	"path/filepath"
)

// home gives the folder of the facts, the maker's recipes and the workshop:
// $BENCH_HOME, or else bench in the XDG data folder. A relative XDG_DATA_HOME
// is ignored, as the XDG Base Directory Specification asks.
func (a *app) home() (string, error) {
	if dir := a.getenv("BENCH_HOME"); dir != "" {
		return filepath.Abs(dir)
	}
	if dir := a.getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "bench"), nil
	}
	user, err := os.UserHomeDir()
	if err != nil {
		return "", errors.New("no home folder is known: set BENCH_HOME to the folder for bench's data")
	}
	return filepath.Join(user, ".local", "share", "bench"), nil
}
