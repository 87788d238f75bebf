package recipe

import "bench/internal/quantity"

// LabelWords are what a recipe says for its label and nothing else needs.
type LabelWords struct {
	Product      string `json:",omitempty"` // Product is what the label calls it; empty is the recipe's name.
	Keeps        int    `json:",omitempty"` // Keeps is how long a bar keeps, in months from the pour; 0 is not stated.
	AfterOpening int    `json:",omitempty"` // AfterOpening is how long an opened bar keeps, in months; 0 is not stated.
	Cautions     string `json:",omitempty"` // Cautions are the precautions that the assessment asks for.
}

// Part is a named share of something.
type Part struct {
	Name  string
	Share quantity.Ratio
}
