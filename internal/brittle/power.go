package brittle

import (
	"math/rand/v2"
	"os"
	"path/filepath"
)

// platter is one file: what is flushed, and what waits.
type platter struct {
	flushed []byte
	onDisk  bool // its entry in the folder is flushed
	gone    bool // deleted, perhaps not for good
	fresh   bool // the driver flushes the folder with the next sync
	pending []Op
}

// PowerCut plays the log on empty platters, keeps each part of what waits with
// the given probability, and writes the result into a folder. What was not
// flushed is lost, or partly there, torn into sectors, in any order; a delete that
// did not flush the folder may be undone.
func PowerCut(dir string, log []Op, keep float64, rng *rand.Rand) error {
	files := map[string]*platter{}
	for _, o := range log {
		f := files[o.File]
		if f == nil {
			f = &platter{}
			files[o.File] = f
		}
		switch o.What {
		case "create":
			f.fresh = o.File != "journal.db"
			if f.gone { // a new file; the old one is back only if this is lost too
				f.gone = false
				f.pending = append(f.pending, Op{What: "truncate"})
			}
		case "sync":
			f.apply(1, rng)
			if f.fresh {
				flushFolder(files)
				f.fresh = false
			}
		case "delete":
			f.gone, f.pending = true, nil
			if o.Dir {
				flushFolder(files)
			}
		default:
			f.pending = append(f.pending, o)
		}
	}
	for name, f := range files {
		f.apply(keep, rng)
		if (f.onDisk || rng.Float64() < keep) && !(f.gone && rng.Float64() < keep) {
			if err := os.WriteFile(filepath.Join(dir, name), f.flushed, 0o600); err != nil {
				return err
			}
		}
	}
	return nil
}

// flushFolder makes all that was created or deleted so for good.
func flushFolder(files map[string]*platter) {
	for name, f := range files {
		if f.onDisk = true; f.gone {
			delete(files, name)
		}
	}
}

// apply flushes each sector of what waits with the given probability.
func (f *platter) apply(keep float64, rng *rand.Rand) {
	const sector = 512
	for _, o := range f.pending {
		if o.What == "truncate" {
			if rng.Float64() < keep {
				f.resize(int(o.Off))
			}
			continue
		}
		for at := 0; at < len(o.Data); {
			to := min(len(o.Data), at+sector-(int(o.Off)+at)%sector)
			if rng.Float64() < keep {
				f.resize(max(len(f.flushed), int(o.Off)+to))
				copy(f.flushed[int(o.Off)+at:], o.Data[at:to])
			}
			at = to
		}
	}
	f.pending = nil
}

func (f *platter) resize(size int) {
	f.flushed = append(f.flushed, make([]byte, max(0, size-len(f.flushed)))...)[:size]
}
