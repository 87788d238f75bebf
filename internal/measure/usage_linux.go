package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// usage is what a process has used since it began.
type usage struct {
	cpu   time.Duration
	wakes int // wakes are voluntary context switches: sleeps that ended.
	peak  int // peak is the most memory that was resident, in KiB.
}

// usageOf reads /proc: of all threads the time on a CPU in ns (schedstat, first
// field) and the switches (status), and of the process VmHWM (proc(5)).
func usageOf(pid int) (usage, error) {
	var u usage
	threads, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*", pid))
	if err != nil {
		return u, err
	}
	for _, thread := range threads {
		spent, err := os.ReadFile(filepath.Join(thread, "schedstat"))
		if err != nil {
			return u, err
		}
		onCPU, _, _ := strings.Cut(string(spent), " ")
		ns, err := strconv.Atoi(onCPU)
		if err != nil {
			return u, fmt.Errorf("%s/schedstat: %w", thread, err)
		}
		u.cpu += time.Duration(ns)
		wakes, err := statusField(thread, "voluntary_ctxt_switches")
		if err != nil {
			return u, err
		}
		u.wakes += wakes
	}
	u.peak, err = statusField(fmt.Sprintf("/proc/%d", pid), "VmHWM")
	return u, err
}

func statusField(dir, name string) (int, error) {
	text, err := os.ReadFile(filepath.Join(dir, "status"))
	if err != nil {
		return 0, err
	}
	for line := range strings.Lines(string(text)) {
		if value, ok := strings.CutPrefix(line, name+":"); ok {
			return strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(value), "kB")))
		}
	}
	return 0, fmt.Errorf("%s/status has no %s", dir, name)
}
