// Package paper turns plans, records and timers into text and JSON.
//
// The rule: it lays out what it is given and works nothing out. The JSON names
// are a contract with other programs: they may be added to, and are changed
// only together with docs/json.md.
package paper

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"bench/internal/quantity"
)

// grams is a mass in JSON: exact grams, to the milligram.
type grams quantity.Mass

// MarshalJSON writes the grams without idle zeros.
func (g grams) MarshalJSON() ([]byte, error) {
	return strconv.AppendFloat(nil, quantity.Mass(g).Grams(), 'f', -1, 64), nil
}

// millimetres is a length in JSON, to a hundredth.
type millimetres quantity.Length

// MarshalJSON writes the millimetres without idle zeros.
func (m millimetres) MarshalJSON() ([]byte, error) {
	return number(quantity.Length(m).Millimetres(), 2), nil
}

// number writes v to so many decimals without idle zeros.
func number(v float64, decimals int) []byte {
	scale := math.Pow10(decimals)
	return strconv.AppendFloat(nil, math.Round(v*scale)/scale, 'f', -1, 64)
}

// decimal is a number in JSON, to four decimals.
type decimal float64

// MarshalJSON writes the number without idle zeros.
func (d decimal) MarshalJSON() ([]byte, error) { return number(float64(d), 4), nil }

// each writes a list; an empty one is [] in JSON, never null.
func each[From, To any](list []From, write func(From) To) []To {
	out := make([]To, 0, len(list))
	for _, v := range list {
		out = append(out, write(v))
	}
	return out
}

// orEmpty has an empty list be [] in JSON.
func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func indented(v any) ([]byte, error) {
	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return nil, fmt.Errorf("write JSON: %w", err)
	}
	return buf.Bytes(), nil
}
