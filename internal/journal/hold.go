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

// takeHold takes the lock. Words that another machine left are respected, unless
// over: the lock may not reach there.
func takeHold(dir, batch string, now Stamp, over bool) (*hold, error) {
	path, err := holdPath(dir, batch)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, err
	}
	lock := flock.New(path)
	ok, err := tryHold(lock)
	if err != nil {
		return nil, err
	}
	host, _ := os.Hostname()
	words := readHolder(path)
	elsewhere := ok && words.PID != 0 && words.Host != host
	if !ok || elsewhere && !over {
		held := &HeldError{Batch: batch, PID: words.PID, Host: words.Host, Since: words.Since, Elsewhere: elsewhere}
		return nil, errors.Join(held, lock.Unlock())
	}
	// The words are a courtesy: a full disk must not hide behind them.
	text, _ := json.Marshal(holder{PID: os.Getpid(), Host: host, Since: now.Wall})
	_ = os.WriteFile(path, append(text, '\n'), 0o600)
	return &hold{lock: lock}, nil
}

// tryHold tries a few times, since somebody who only looks locks for a moment.
func tryHold(lock *flock.Flock) (ok bool, err error) {
	for range 20 {
		if ok, err = lock.TryLock(); ok || err != nil {
			return ok, err
		}
		time.Sleep(time.Millisecond)
	}
	return false, nil
}

// Holder says who has a batch, or left it without letting go.
type Holder struct {
	PID   int // 0 when it could not write itself down
	Host  string
	Since time.Time
	Runs  bool // Runs says that the lock is held now, on this machine.
}

// Holder looks who has a batch; ok is false when nobody has. Without Runs, the
// program that is named was killed, or is on a machine that the lock does not
// reach.
func (s *Store) Holder(batch string) (h Holder, ok bool) {
	path, err := holdPath(s.dir, batch)
	if err != nil {
		return h, false
	}
	if _, err := os.Stat(path); err != nil {
		return h, false
	}
	lock := flock.New(path)
	free, err := lock.TryRLock()
	if err != nil {
		return h, false
	}
	words := readWords(path)
	_ = lock.Unlock() // The file was opened to look only.
	h = Holder{PID: words.PID, Host: words.Host, Since: words.Since, Runs: !free}
	return h, h.Runs || h.PID != 0
}

// readHolder waits a moment for words that are being written just now.
func readHolder(path string) holder {
	for range 5 {
		if h := readWords(path); h.PID != 0 {
			return h
		}
		if info, err := os.Stat(path); err == nil && info.Size() == 0 {
			return holder{}
		}
		time.Sleep(2 * time.Millisecond)
	}
	return holder{}
}

func readWords(path string) holder {
	var h holder
	text, err := os.ReadFile(path)
	if err != nil || json.Unmarshal(text, &h) != nil {
		return holder{}
	}
	return h
}

func (h *hold) release() error {
	// Emptied first, so that the next holder's words are never mistaken for these.
	_ = os.Truncate(h.lock.Path(), 0)
	return h.lock.Unlock()
}

// holdPath gives the lock file of a batch.
func holdPath(dir, batch string) (string, error) {
	name, err := lockName(batch)
	return filepath.Join(dir, holdFolder, name), err
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
