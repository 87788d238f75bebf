package timer

import (
	"fmt"
	"strings"
	"time"
)

// Hours is a part of each day by the clock on the wall, over midnight where it
// ends before it begins. The zero value is none of it.
type Hours struct {
	From, To time.Duration // From and To are since midnight, below 24 h.
}

// IsZero says that it is no part of a day.
func (h Hours) IsZero() bool { return h == Hours{} }

// Covers says whether a time of day lies within, in the place of the time.
func (h Hours) Covers(at time.Time) bool {
	now := time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute
	switch {
	case h.From < h.To:
		return h.From <= now && now < h.To
	case h.From > h.To:
		return h.From <= now || now < h.To
	}
	return false
}

// String writes the hours as ParseHours reads them.
func (h Hours) String() string {
	clock := func(d time.Duration) string { return fmt.Sprintf("%d:%02d", int(d.Hours()), int(d.Minutes())%60) }
	return clock(h.From) + " to " + clock(h.To)
}

// ParseHours reads "22:00 to 7:00".
func ParseHours(text string) (Hours, error) {
	from, to, _ := strings.Cut(text, " to ")
	begins, err1 := parseClock(from)
	ends, err2 := parseClock(to)
	switch {
	case err1 != nil || err2 != nil:
		return Hours{}, fmt.Errorf("%q is no part of a day: write it like 22:00 to 7:00", text)
	case begins == ends:
		return Hours{}, fmt.Errorf("%q ends when it begins: leave it out for none of the day", text)
	}
	return Hours{begins, ends}, nil
}

func parseClock(text string) (time.Duration, error) {
	at, err := time.Parse("15:04", strings.TrimSpace(text))
	return time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute, err
}
