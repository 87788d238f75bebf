package ui

import (
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
)

// home is the first screen: the batches under way, and the recipes.
type home struct {
	batches []underWay
	recipes []RecipeItem
	cursor  int // cursor counts through batches, then recipes.
	loading bool
	err     error
	word    string
	folder  string
	at      *time.Location
}

// underWay is a batch with the plan that its facts lead to.
type underWay struct {
	BatchItem
	plan steps.Plan
}

func planned(b BatchItem) underWay { return underWay{b, steps.Of(b.State)} }

// loaded takes the batches that were read. The cursor stays on what it was on.
func (h home) loaded(msg loadedMsg) home {
	h.loading = false
	h.err = msg.err
	key := h.key()
	h.batches = nil
	for _, b := range msg.batches {
		h.batches = append(h.batches, planned(b))
	}
	return h.on(key)
}

// offered takes the recipes that were read.
func (h home) offered(recipes []RecipeItem) home {
	key := h.key()
	h.recipes = recipes
	return h.on(key)
}

// key names what the cursor is on: a batch by its code, a recipe by its file.
func (h home) key() string {
	switch b, r := h.chosen(); {
	case b != nil:
		return b.Code
	case r != nil:
		return r.File
	}
	return ""
}

// on puts the cursor on what the key names, or leaves it where it is.
func (h home) on(key string) home {
	at := slices.IndexFunc(h.batches, func(b underWay) bool { return b.Code == key })
	if at < 0 {
		if at = slices.IndexFunc(h.recipes, func(r RecipeItem) bool { return r.File == key }); at >= 0 {
			at += len(h.batches)
		}
	}
	if at >= 0 && key != "" {
		h.cursor = at
	}
	h.cursor = min(h.cursor, max(0, h.rows()-1))
	return h
}

// with puts a batch in its place, or adds it.
func (h home) with(b underWay) home {
	h.batches = slices.Clone(h.batches)
	for i := range h.batches {
		if h.batches[i].Code == b.Code {
			h.batches[i] = b
			return h
		}
	}
	h.batches = append(h.batches, b)
	return h
}

// entered applies an entry to the batch it belongs to.
func (h home) entered(code string, e batch.Entry) home {
	for _, b := range h.batches {
		if b.Code == code {
			b.State = b.State.Apply(e)
			return h.with(planned(b.BatchItem))
		}
	}
	return h
}

// after gives the next batch under way that this bench may write.
func (h home) after(code string) (string, bool) {
	at := slices.IndexFunc(h.batches, func(b underWay) bool { return b.Code == code })
	for i := range h.batches {
		b := h.batches[(at+1+i)%len(h.batches)]
		if b.Code != code && b.HeldBy == "" && !b.State.Closed() {
			return b.Code, true
		}
	}
	return "", false
}

func (h home) rows() int { return len(h.batches) + len(h.recipes) }

// chosen gives what the cursor is on: a batch, a recipe, or neither.
func (h home) chosen() (*underWay, *RecipeItem) {
	switch i := h.cursor - len(h.batches); {
	case h.cursor < len(h.batches):
		return &h.batches[h.cursor], nil
	case i < len(h.recipes):
		return nil, &h.recipes[i]
	}
	return nil, nil
}

func (h home) update(p press) (home, action) {
	h.word = ""
	switch {
	case matches(p, keys.Up):
		h.cursor = max(0, h.cursor-1)
	case matches(p, keys.Down):
		h.cursor = min(max(0, h.rows()-1), h.cursor+1)
	case matches(p, keys.Open):
		if p.held || h.loading {
			return h, nil
		}
		return h.open()
	case matches(p, keys.Back) && !p.held:
		return h, back{} // Home again: what is in the folder is read anew.
	}
	return h, nil
}

// open acts on what the cursor is on, or says why it cannot be opened.
func (h home) open() (home, action) {
	b, r := h.chosen()
	switch {
	case b != nil && b.HeldBy != "":
		h.word = clean(b.HeldBy)
	case b != nil:
		return h, open{code: b.Code}
	case r != nil && len(r.Problems) > 0:
		h.word = "This recipe cannot be started until its problems are mended. The file has just been read again."
		return h, back{}
	case r != nil:
		return h, prepare{*r}
	}
	return h, nil
}
