package steps

// Unguarded says that gloves, goggles and sleeves were left out while there is alkali to
// handle, which ends when gloves come off; or "".
func (p Plan) Unguarded() string {
	on, _, ok := p.Task(protectionID)
	off, _, _ := p.Task(glovesID)
	if !ok || on.Skipped == "" || off.Done || p.Closed {
		return ""
	}
	return "Gloves, goggles and long sleeves were left out (" + on.Skipped + "), and lye burns: put them on, then take that entry back"
}
