package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/gofrs/flock"
)

// holdFolder stands in the folder of a store.
const holdFolder = "hold"

// hold is the lock on a batch. The kernel keeps it and frees it when the process
// ends, however it ends. The file stays for ever: deleting a lock file lets two
// programs lock two files of one name.
type hold struct{ lock *flock.Flock }

// holder is what the lock file says in words. Only the lock counts.
type holder struct {
	PID   int       `json:"pid"`
	Host  string    `json:"host"`
	Since time.Time `json:"since"`
}

func takeHold(dir, batch string, now Stamp) (*hold, error) {
	name, err := lockName(batch)
	if err != nil {
		return nil, err
	}
	folder := filepath.Join(dir, holdFolder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, err
	}
	path := filepath.Join(folder, name)
	lock := flock.New(path)
	ok, err := lock.TryLock()
	if err != nil {
		return nil, err
	}
	if !ok {
		h := readHolder(path)
		return nil, &HeldError{Batch: batch, PID: h.PID, Host: h.Host, Since: h.Since}
	}
	// The words are a courtesy: a full disk must not hide behind them.
	host, _ := os.Hostname()
	words, _ := json.Marshal(holder{PID: os.Getpid(), Host: host, Since: now.Wall})
	_ = os.WriteFile(path, append(words, '\n'), 0o600)
	return &hold{lock: lock}, nil
}

// readHolder waits a moment for words that are being written just now.
func readHolder(path string) holder {
	var h holder
	for range 5 {
		text, err := os.ReadFile(path)
		if err == nil && json.Unmarshal(text, &h) == nil && h.PID != 0 {
			return h
		}
		time.Sleep(2 * time.Millisecond)
	}
	return holder{}
}

func (h *hold) release() error {
	// Emptied first, so that the next holder's words are never mistaken for these.
	_ = os.Truncate(h.lock.Path(), 0)
	return h.lock.Unlock()
}

// lockName makes a file name of a batch code: letters, digits, '-' and '_' stay,
// every other byte becomes %XX.
func lockName(batch string) (string, error) {
	if batch == "" {
		return "", errors.New("the batch has no code")
	}
	if !utf8.ValidString(batch) {
		return "", fmt.Errorf("the code %q is not valid UTF-8", batch)
	}
	var b strings.Builder
	for _, c := range []byte(batch) {
		switch {
		case c >= '0' && c <= '9', c >= 'A' && c <= 'Z', c >= 'a' && c <= 'z', c == '-', c == '_':
			b.WriteByte(c)
		default:
			fmt.Fprintf(&b, "%%%02X", c)
		}
	}
	// File systems take 255 bytes.
	if b.Len() > 240 {
		return "", fmt.Errorf("the code of the batch is too long: %d bytes as a file name, at most 240", b.Len())
	}
	return b.String() + ".lock", nil
}
