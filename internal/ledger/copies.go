package ledger

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"bench/internal/files"
	"bench/internal/journal"
	"bench/internal/recipe"
)

// Folder has a copy of each batch's record, for reading without bench. It
// is never the source: when one cannot be written, the facts are kept all the
// same, and the end of the next stage tries again.
const Folder = "records"

func copyPath(home, code string) string { return filepath.Join(home, Folder, code+".txt") }

// copies writes the copies, and remembers to say that one could not be written:
// once, until one is written again.
type copies struct {
	mu      sync.Mutex
	word    string
	failing bool
}

func (c *copies) write(home, code, text string) {
	err := files.Replace(copyPath(home, code), []byte(recipe.CleanLines(text)))
	c.mu.Lock()
	defer c.mu.Unlock()
	if err != nil && !c.failing {
		var refused *fs.PathError
		if errors.As(err, &refused) {
			err = refused.Err // Its path is one that nobody knows.
		}
		c.word = fmt.Sprintf("Saved; the copy in records/ is not: %v. See bench verify.", err)
	}
	c.failing = err != nil
}

func (c *copies) take() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	word := c.word
	c.word = ""
	return word
}

// Uncopied gives the closed batches whose copy is not there, or lacks the last
// fact. That of a batch on a bench is as old as the last stage that ended.
func Uncopied(s *journal.Store, home string) ([]string, error) {
	heads, err := s.Batches()
	var codes []string
	for _, h := range heads {
		if !h.Ended {
			continue
		}
		text, _ := os.ReadFile(copyPath(home, h.Batch)) // Why it is not there does not matter here.
		if !bytes.Contains(text, fmt.Appendf(nil, "\n%5d  ", h.Seq)) {
			codes = append(codes, h.Batch)
		}
	}
	return codes, err
}
