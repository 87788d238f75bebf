package main

import (
	"math"
	"slices"
)

// figures are the samples of one program, by what was measured.
type figures map[measured][]float64

// measured says what was measured, and in which unit.
type measured string

const (
	startUp    measured = "exec to first useful frame, ms"
	moveTime   measured = "key to frame: move, ms"
	figureTime measured = "key to frame: figure typed, ms"
	tickTime   measured = "key to frame: tick (bench: saved), ms"
	digitTime  measured = "key to frame: one more digit, ms"
	moveBytes  measured = "bytes per move"
	figBytes   measured = "bytes per figure typed"
	digitBytes measured = "bytes per digit more"
	tickBytes  measured = "bytes per tick"
	peakMemory measured = "peak memory, MB"
	idleCPU    measured = "idle: CPU, ms per s"
	idleBytes  measured = "idle: bytes per s"
	idleWakes  measured = "idle: wake-ups per s"
	commitTime measured = "durable write, ms"
)

func (f figures) add(what measured, value float64) { f[what] = append(f[what], value) }

// ofKey gives where the time and the bytes of a kind of key go.
func ofKey(k kind) (time, bytes measured) {
	switch k {
	case move:
		return moveTime, moveBytes
	case figure:
		return figureTime, figBytes
	case digit:
		return digitTime, digitBytes
	case tick:
		return tickTime, tickBytes
	case unmeasured:
	}
	return "", ""
}

// quantile gives the value that a part q of the samples do not pass (nearest
// rank), or NaN if there are none.
func quantile(samples []float64, q float64) float64 {
	if len(samples) == 0 {
		return math.NaN()
	}
	sorted := slices.Sorted(slices.Values(samples))
	return sorted[max(0, int(math.Ceil(q*float64(len(sorted))))-1)]
}
