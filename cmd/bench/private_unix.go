//go:build unix

package main

import "syscall"

// private has every file that the program makes be its owner's alone, those that
// SQLite makes beside the store too.
func private() { syscall.Umask(0o077) }
