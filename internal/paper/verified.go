package paper

import (
	"fmt"

	"bench/internal/quantity"
)

// DamageAdvice is what to do about a store that is not whole, in this order.
const DamageAdvice = `What this means: facts were changed or lost on the disk, not by bench. What to do:
  1. copy the folder as it is
  2. bench record --all > FILE   exports everything that can be read
  3. bench restore BACKUP        puts the last good copy in its place, and keeps this one
`

// Verified is what a verification of the store found.
type Verified struct {
	Whole   bool            `json:"whole"`
	Facts   int             `json:"facts"`
	Bytes   int64           `json:"bytes"`
	Seconds float64         `json:"seconds"`
	File    []string        `json:"file"` // File is what is wrong with the file itself.
	Batches []VerifiedBatch `json:"batches"`
	Without []string        `json:"without_copy"` // Without are batches whose copy is old, or not there.
}

// VerifiedBatch is how one batch stands.
type VerifiedBatch struct {
	Batch string `json:"batch"`
	Facts int    `json:"facts"` // Facts are whole, from the first.
	Whole bool   `json:"whole"`
	From  int    `json:"damaged_from"`
	What  string `json:"damage"`
}

// VerifiedJSON writes it as indented JSON with a final line end.
func VerifiedJSON(v Verified) ([]byte, error) {
	v.File, v.Batches, v.Without = orEmpty(v.File), orEmpty(v.Batches), orEmpty(v.Without)
	return indented(v)
}

// VerifiedText writes it for reading, and what to do where something is wrong.
func VerifiedText(v Verified) string {
	var p page
	bad := 0
	for _, b := range v.Batches {
		words := "whole"
		if !b.Whole {
			bad++
			words = fmt.Sprintf("NOT WHOLE from fact %d on: %s", b.From, b.What)
		}
		p.linef("%-10q %5d facts  %s", b.Batch, b.Facts, words)
	}
	for _, said := range v.File {
		p.linef("the file: %q", said)
	}
	p.linef("%s, %d facts, %.1f MB, in %.1f s: %s",
		quantity.Count(len(v.Batches), "batch", "batches"), v.Facts, float64(v.Bytes)/1e6, v.Seconds, v.sum(bad))
	if len(v.Without) > 0 {
		p.linef("in records/ there is no copy, or an old one, of %s", several(v.Without))
		p.linef("bench record BATCH --output FILE writes one")
	}
	if v.Whole {
		return p.String()
	}
	return p.String() + DamageAdvice
}

// sum is all of it in a few words; bad counts the batches that are not whole.
func (v Verified) sum(bad int) string {
	switch {
	case bad > 0:
		return fmt.Sprintf("%d NOT WHOLE", bad)
	case len(v.File) > 0:
		return "every batch is whole, and the file is NOT in order"
	}
	return "everything is whole"
}

// several names a few batches and counts the rest.
func several(codes []string) string {
	const few = 5
	words := fmt.Sprintf("%q", codes[:min(few, len(codes))])
	if more := len(codes) - few; more > 0 {
		words += fmt.Sprintf(" and %d more", more)
	}
	return words
}
