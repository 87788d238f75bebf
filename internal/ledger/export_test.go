package ledger

import (
	"bytes"
	"testing"
)

// TestExportAsksTheStore: while every batch is printed the store is asked which batches were
// made of it. A store that then waits for itself ends with the time of the whole test.
func TestExportAsksTheStore(t *testing.T) {
	l, codes := remade(t)
	var out bytes.Buffer
	if err := Export(&out, l.store); err != nil {
		t.Fatal(err)
	}
	for _, code := range codes {
		if !bytes.Contains(out.Bytes(), []byte("Batch "+code)) {
			t.Errorf("%s was not printed", code)
		}
	}
}
