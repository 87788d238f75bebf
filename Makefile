# What takes longer than the tests. `.ci/run` does everything that must hold.

KILLS ?= 10000
REPORT ?= $(CURDIR)/crash-report.jsonl

# Kill the program with SIGKILL, KILLS times, batch after batch. It may be broken
# off: run again, it goes on after the last line of REPORT.
.PHONY: crash
crash:
	BENCH_KILLS=$(KILLS) BENCH_REPORT=$(REPORT) go test ./cmd/bench -run '^TestCrashes$$' -count=1 -timeout=0 -v

# Cut the store at every byte of its last page, and flip a bit in every byte.
.PHONY: rot
rot:
	BENCH_ROT=all go test ./internal/journal -run 'TestTruncated|TestFlipped' -count=1 -timeout=0 -v

# Refuse every change of the disk in a whole batch with each of four errors, once
# and for good, and cut the power after every change.
.PHONY: faults
faults:
	BENCH_FAULTS=all go test ./cmd/bench -run 'TestFaultAtEveryChange|TestPowerCutInTheProgram' -count=1 -timeout=0 -v

# Let two programs start at the same time, 50 times.
.PHONY: races
races:
	BENCH_RACES=50 go test ./cmd/bench -run '^TestStartsTogether$$' -count=1 -timeout=0 -v

# Press KEYS random keys in a real terminal at a real store.
KEYS ?= 10000
.PHONY: keys
keys:
	BENCH_KEYS=$(KEYS) go test ./cmd/bench -run '^TestRandomKeys$$' -count=1 -timeout=0 -v
