package clock

import (
	"os"
	"strings"
	"sync"
	"time"

	"golang.org/x/sys/unix"
)

// bootID is read once: it changes only when the machine starts again.
var bootID = sync.OnceValue(func() string { //nolint:gochecknoglobals // A constant of the running machine.
	id, err := os.ReadFile("/proc/sys/kernel/random/boot_id")
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(id))
})

// bootClock gives which boot this is and the time since, suspend included.
func bootClock() (boot string, since time.Duration) {
	var ts unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_BOOTTIME, &ts); err != nil || bootID() == "" {
		return "", 0
	}
	return bootID(), time.Duration(ts.Nano())
}
