package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"
	"time"
)

// wallLayout is RFC 3339 with all nine digits of the nanoseconds, so that the
// text keeps its length and its order within one offset.
const wallLayout = "2006-01-02T15:04:05.000000000Z07:00"

// Stamp says when: the wall time with its offset, and the machine's boot and
// the time since, so that changes of the clock can be told apart later.
type Stamp struct {
	Wall      time.Time     // offset kept to the minute, monotonic reading dropped
	BootID    string        // changes with each start of the machine
	SinceBoot time.Duration // time since that start
}

// Record is one fact as it is kept.
type Record struct {
	Batch string   // batch code, opaque here
	Seq   int      // 1, 2, 3 ... within the batch, without gaps
	Stamp Stamp    // when
	Kind  string   // what sort of fact, opaque here
	Body  []byte   // JSON, kept byte for byte
	Terms []string // opaque search terms; nil when there are none
	Sum   string   // SHA-256 as lower-case hex over all fields above and the Sum before
}

// sum returns the checksum of r after the record whose sum is prev ("" for the
// first of a batch): SHA-256 over the fields as netstrings (length in decimal,
// ':', bytes, ','; D. J. Bernstein, "Netstrings", 1997) in the order prev,
// batch, seq, wall, boot id, nanoseconds since boot, kind, body, terms.
// The lengths keep "ab","c" and "a","bc" apart.
func (r Record) sum(prev string) string {
	fields := []string{
		prev, r.Batch, strconv.Itoa(r.Seq), r.Stamp.wallText(), r.Stamp.BootID,
		strconv.FormatInt(int64(r.Stamp.SinceBoot), 10), r.Kind, string(r.Body),
	}
	var text []byte
	for _, f := range append(fields, r.Terms...) {
		text = strconv.AppendInt(text, int64(len(f)), 10)
		text = append(text, ':')
		text = append(text, f...)
		text = append(text, ',')
	}
	digest := sha256.Sum256(text)
	return hex.EncodeToString(digest[:])
}

func (s Stamp) wallText() string { return s.Wall.Format(wallLayout) }

// termsText returns the terms as a JSON array.
func (r Record) termsText() string {
	text, _ := json.Marshal(append([]string{}, r.Terms...)) // strings never fail
	return string(text)
}

// normal returns s as it comes back from the table, so that what Append returns
// and what Records returns are the same.
func (s Stamp) normal() (Stamp, error) {
	_, offset := s.Wall.Zone()
	// RFC 3339 has no seconds in an offset; old local mean times do.
	s.Wall = s.Wall.Round(0).In(zone(offset - offset%60))
	if y := s.Wall.Year(); y < 0 || y > 9999 {
		return Stamp{}, fmt.Errorf("wall time of year %d cannot be written as RFC 3339", y)
	}
	return s, nil
}

func parseWall(text string) (time.Time, error) {
	t, err := time.Parse(wallLayout, text)
	if err != nil {
		return time.Time{}, err
	}
	_, offset := t.Zone()
	return t.In(zone(offset)), nil // never the machine's own zone, whatever its rules say
}

func zone(offset int) *time.Location {
	if offset == 0 {
		return time.UTC
	}
	return time.FixedZone("", offset)
}
