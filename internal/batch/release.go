package batch

import "bench/internal/quantity"

// Test is a release test.
type Test string

// The release tests. A touch to the tongue is some makers' habit; it is never
// asked for.
const (
	PHTest         Test = "pH"          // PHTest has a value in pH units.
	FreeAlkaliTest Test = "free alkali" // FreeAlkaliTest has a value in % as NaOH (ISO 456, from memory).
	LookTest       Test = "look"        // LookTest has words and no value.
	WeightTest     Test = "weight"      // WeightTest has the value in g of the mean bar.
)

// Tested says what a release test gave, and whether that is good enough.
type Tested struct {
	Task   string
	Test   Test
	Value  float64 `json:",omitempty"` // Value is in the test's unit.
	Words  string  `json:",omitempty"`
	Passed bool
	Said
}

// Released says that the bars may leave, by whom, and over which open warnings.
type Released struct {
	Task   string
	By     string   `json:",omitempty"`
	Bars   int      `json:",omitempty"`
	Open   []string `json:",omitempty"` // Open are the warnings that stood; Reason then says why all the same.
	Reason string   `json:",omitempty"`
	Said
}

// Held says that the bars may not leave, and why.
type Held struct {
	Task   string
	By     string   `json:",omitempty"`
	Open   []string `json:",omitempty"`
	Reason string
	Said
}

// Reworks says that this batch is made of an earlier one, and why.
type Reworks struct {
	Batch  string        // Batch is the code of the earlier one.
	Mass   quantity.Mass `json:",omitempty"` // Mass is what was taken of it.
	Reason string
}

// LimitStated says what the supplier's certificate allows of a scent, where that is
// known only after it was weighed: a remedy for a scent over the limit that the
// workshop stated.
type LimitStated struct {
	Material  string
	Limit     quantity.Ratio // Limit is the most in the finished bar.
	Reference string         // Reference names the certificate.
}

// Reaction is what a complaint is about.
type Reaction string

// What a complaint may be about.
const (
	Complaint    Reaction = "complaint"
	SkinReaction Reaction = "skin reaction"
)

// Complained says that somebody complained of this batch. It may follow the end
// of the batch.
type Complained struct {
	About Reaction
	Words string
	Who   string `json:",omitempty"`
	Said
}

// BarsWent says where bars went. It may follow the end of the batch.
type BarsWent struct {
	Where string
	Count int `json:",omitempty"`
	Said
}

func (Tested) fact()      {}
func (Released) fact()    {}
func (Held) fact()        {}
func (Reworks) fact()     {}
func (LimitStated) fact() {}
func (Complained) fact()  {}
func (BarsWent) fact()    {}

// Verdict gives the last word on the bars: released, or held and why. Neither is
// also possible.
func (s State) Verdict() (released, held bool, e Entry) {
	for i := len(s.after) - 1; i >= 0; i-- {
		switch s.after[i].Fact.(type) {
		case Released:
			return true, false, s.after[i]
		case Held:
			return false, true, s.after[i]
		default:
		}
	}
	return false, false, Entry{}
}
