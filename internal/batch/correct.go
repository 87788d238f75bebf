package batch

// Alike says that a fact can stand in the place of another: it is of the same
// kind, and about the same thing.
func Alike(with, first Fact) bool {
	if with == nil || Kind(with) != Kind(first) || Task(with) != Task(first) {
		return false
	}
	switch with := with.(type) {
	case TimerPutOff:
		was, _ := first.(TimerPutOff)
		return with.Timer == was.Timer
	case Noted:
		was, _ := first.(Noted)
		return with.Stage == was.Stage
	case VesselReplaced:
		was, _ := first.(VesselReplaced)
		return with.Vessel == was.Vessel && with.By == was.By
	case PotAnswered:
		was, _ := first.(PotAnswered)
		return with.Look == was.Look
	case SharedAnswered:
		was, _ := first.(SharedAnswered)
		return with.Shared == was.Shared
	case Complained, BarsWent:
		return true
	default:
		return Task(with) != ""
	}
}

// Withdrawable says why a fact can never be taken back, or "".
func Withdrawable(f Fact) string {
	switch f.(type) {
	case Started:
		return "everything rests on the recipe as it was begun: end this batch and begin another"
	case Corrected, Withdrawn:
		return "a correction stands in the record: correct the entry that it is about once more"
	case Closed, Stopped:
		return "an ended batch stays ended"
	case WarningSeen:
		return "that a warning was read stays true; correct the weight that it is about"
	case Released, Held:
		return "a later word on the bars overrules it: release or hold them anew"
	default:
		return ""
	}
}

// Withdrawn says that a fact was taken back.
func (s State) Withdrawn(seq int) bool {
	for _, e := range s.Entries {
		if w, ok := e.Fact.(Withdrawn); ok && w.Seq == seq {
			return true
		}
	}
	return false
}

// changes says that a fact changes what an earlier one says.
func changes(f Fact) bool {
	switch f.(type) {
	case Corrected, Withdrawn:
		return true
	default:
		return false
	}
}

// again folds all facts once more as they now stand.
func (s State) again() State {
	folded := State{Entries: s.Entries}
	for _, e := range Standing(s.Entries) {
		folded.take(e)
	}
	return folded
}

// Standing gives the facts as they now stand: with the latest correction of each
// in its place, and without those that were taken back. Moment and number stay
// those of the first fact. A correction of another kind or about something else
// changes nothing.
func Standing(entries []Entry) []Entry {
	latest, gone := map[int]Fact{}, map[int]bool{}
	for _, e := range entries {
		switch f := e.Fact.(type) {
		case Corrected:
			latest[f.Seq] = f.With
		case Withdrawn:
			gone[f.Seq] = true
		default:
		}
	}
	if len(latest)+len(gone) == 0 {
		return entries // As in most batches.
	}
	stand := make([]Entry, 0, len(entries))
	for _, e := range entries {
		if gone[e.Seq] && Withdrawable(e.Fact) == "" {
			continue
		}
		if with, ok := latest[e.Seq]; ok && Alike(with, e.Fact) {
			e.Fact = with
		}
		stand = append(stand, e)
	}
	return stand
}
