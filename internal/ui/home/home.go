// Package home is where one comes in: the batches under way, the recipes, and
// the plan that is looked over before a batch begins.
//
// The rule: nothing begins before its plan was in sight.
package home

import (
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/phrase"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Screen is the first screen: the batches under way, and the recipes.
type Screen struct {
	Batches []front.UnderWay
	Recipes []front.RecipeItem
	cursor  int // cursor counts through batches, then recipes.
	Loading bool
	fresh   bool // fresh says that no batch was ever begun here.
	err     error
	Word    string
	Folder  string
	At      *time.Location
	Above   func(w int) []string // Above gives the lines of w cells that come before the list, such as what fell due; nil is none.
}

// Loaded takes the batches that were read; fresh says that none was ever begun.
// The cursor stays on what it was on.
func (h Screen) Loaded(batches []front.BatchItem, fresh bool, err error) Screen {
	h.Loading, h.fresh = false, fresh
	h.err = err
	key := h.key()
	h.Batches = nil
	for _, b := range batches {
		h.Batches = append(h.Batches, front.Planned(b))
	}
	return h.On(key)
}

// Offered takes the recipes that were read.
func (h Screen) Offered(recipes []front.RecipeItem) Screen {
	key := h.key()
	h.Recipes = recipes
	return h.On(key)
}

// key names what the cursor is on: a batch by its code, a recipe by its file.
func (h Screen) key() string {
	switch b, r := h.chosen(); {
	case b != nil:
		return b.Code
	case r != nil:
		return r.File
	}
	return ""
}

// On puts the cursor on what the key names, or leaves it where it is.
func (h Screen) On(key string) Screen {
	at := slices.IndexFunc(h.Batches, func(b front.UnderWay) bool { return b.Code == key })
	if at < 0 {
		if at = slices.IndexFunc(h.Recipes, func(r front.RecipeItem) bool { return r.File == key }); at >= 0 {
			at += len(h.Batches)
		}
	}
	if at >= 0 && key != "" {
		h.cursor = at
	}
	h.cursor = min(h.cursor, max(0, h.rows()-1))
	return h
}

// With puts a batch in its place, or adds it.
func (h Screen) With(b front.UnderWay) Screen {
	h.Batches = slices.Clone(h.Batches)
	for i := range h.Batches {
		if h.Batches[i].Code == b.Code {
			h.Batches[i] = b
			return h
		}
	}
	h.Batches = append(h.Batches, b)
	return h
}

// Entered applies an entry to the batch it belongs to.
func (h Screen) Entered(code string, e batch.Entry) Screen {
	for _, b := range h.Batches {
		if b.Code == code {
			b.State = b.State.Apply(e)
			return h.With(front.Planned(b.BatchItem))
		}
	}
	return h
}

// Others gives the batches under way that this bench may write, in the order in which tab
// goes round them from the one of that code on.
func (h Screen) Others(code string) []front.UnderWay {
	var list []front.UnderWay
	at := slices.IndexFunc(h.Batches, func(b front.UnderWay) bool { return b.Code == code })
	for i := range h.Batches {
		if b := h.Batches[(at+1+i)%len(h.Batches)]; b.Code != code && b.HeldBy == "" && !b.State.Ended() {
			list = append(list, b)
		}
	}
	return list
}

func (h Screen) rows() int { return len(h.Batches) + len(h.Recipes) }

// chosen gives what the cursor is on: a batch, a recipe, or neither.
func (h Screen) chosen() (*front.UnderWay, *front.RecipeItem) {
	switch i := h.cursor - len(h.Batches); {
	case h.cursor < len(h.Batches):
		return &h.Batches[h.cursor], nil
	case i < len(h.Recipes):
		return nil, &h.Recipes[i]
	}
	return nil, nil
}

// Update takes a key: one that picks a batch or a recipe, or opens it.
func (h Screen) Update(p keys.Press) (Screen, intent.Action) {
	h.Word = ""
	switch {
	case keys.Moves(p):
		h.cursor = keys.Moved(p, h.cursor, h.rows())
	case keys.Matches(p, keys.Open):
		if p.Held || h.Loading {
			return h, nil
		}
		return h.open()
	case keys.Matches(p, keys.Rack) && !p.Held:
		return h, intent.Rack{}
	case keys.Matches(p, keys.Back) && !p.Held:
		return h, intent.Back{} // Home again: what is in the folder is read anew.
	}
	return h, nil
}

// open acts on what the cursor is on, or says why it cannot be opened.
func (h Screen) open() (Screen, intent.Action) {
	b, r := h.chosen()
	switch {
	case b != nil && b.HeldBy != "":
		return h, intent.Follow{Code: b.Code}
	case b != nil:
		return h, intent.Open{Code: b.Code}
	case r != nil && len(r.Problems) > 0:
		h.Word = "This recipe cannot be started until its problems are mended. The file has just been read again."
		return h, intent.Back{}
	case r != nil:
		return h, intent.Prepare{Item: *r}
	}
	return h, nil
}

// said is a fact with its time: "09:40  shea butter 152.4 g, asked 150.0".
func said(e batch.Entry, s batch.State, now timer.Moment, at *time.Location) string {
	return phrase.Stamp(e.At, now, at) + "  " + ink.Clean(say.Fact(e, steps.Of(s), s))
}
