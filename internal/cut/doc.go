// Package cut plans how embed sticks are cut and laid, so that every join lies
// where the cutter will pass.
//
// The rule: a row is a chain of pieces end to end, from the end of the loaf that
// goes to the cutter's stop to the other. A piece begins and ends at an end of
// the mould or at a cut line, and is no shorter than the stated minimum. The
// pieces of one loaf come from one dough lot. Of all plans the one with fewest
// sticks and then fewest joins is wanted (or the other way round), then the one
// that leaves the longest single offcut, then the one that uses older lots.
//
// # The model
//
// The rows are alike, so how many pieces lie on each stretch between two places
// says all about them: they are a flow along the loaf, and any flow of whole
// numbers falls apart into rows again. A stick is a path over the sums of pieces
// that fit into it. Each lot by itself is an integer program whose columns are
// the ways to cut a stick; they are generated as they are needed, by a knapsack
// over those sums. Relaxed to fractions it gives the bound that is reported, and
// which is nearly always met. Rounding finds the plan, and a search over the
// number of pieces on each stretch decides the rest. Lots meet only in how many
// loaves each serves, which is shared out by dynamic programming over bounds
// that are made exact where the best sharing rests on them.
//
// Half of the tolerance is the plan's to spend: a stick may be that much shorter
// than what is cut from it, so that one of 304 mm still counts as twelve inches.
// The other half is left to the hand. The cutter's wire is part of the loaf's
// geometry, the knife that cuts sticks takes its width between two pieces.
package cut
