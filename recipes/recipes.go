// Package recipes holds the built-in documents: the harbour workshop and its
// recipes, so that nothing must be written before the first batch.
package recipes

import (
	"embed"
	"io/fs"
	"path"
)

// WorkshopFile is the name of the built-in workshop's document in FS.
const WorkshopFile = "workshop.yaml"

//go:embed *.yaml *.svg
var files embed.FS

// FS gives the documents and the drawings that they name, all in its root.
func FS() fs.FS { return files }

// Files gives the names of the recipes in FS, in alphabetical order.
func Files() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil // An embedded root can always be read.
	}
	var names []string
	for _, e := range entries {
		if e.Name() != WorkshopFile && path.Ext(e.Name()) == ".yaml" {
			names = append(names, e.Name())
		}
	}
	return names
}
