//go:build !unix

package main

// private does nothing here: files take the rights of their folder.
func private() {}
