package journal_test

import (
	"testing"

	"bench/internal/brittle"
)

// newTap registers a disk that shows each change, under the name of the test.
func newTap(t *testing.T) *brittle.Disk {
	t.Helper()
	d, done := brittle.New(t.Name())
	t.Cleanup(done)
	return d
}
