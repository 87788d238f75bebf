package check

import (
	"math"
	"strconv"
)

// luminance gives the relative luminance of an sRGB colour "#rrggbb", from 0
// for black to 1 for white (IEC 61966-2-1, from memory), and 0 for any other
// text.
func luminance(looks string) float64 {
	if len(looks) != 7 || looks[0] != '#' {
		return 0
	}
	n, err := strconv.ParseUint(looks[1:], 16, 32)
	if err != nil {
		return 0
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8&0xff) + 0.0722*linear(n&0xff)
}

func linear(channel uint64) float64 {
	v := float64(channel) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}
