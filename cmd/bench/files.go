package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// replaceFile writes a file so that its name always holds the old content or
// the new one, whole. It makes the folder.
func replaceFile(path string, data []byte) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, ".new-*")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

// writeOutput writes what the user asked for by name; its folder must be there.
func writeOutput(path string, data []byte) error {
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return fmt.Errorf("write %s: its folder is not there: %w", path, err)
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return os.WriteFile(path, data, 0o600) // A pipe or /dev/stdout has no place to be renamed to.
	}
	return replaceFile(path, data)
}
