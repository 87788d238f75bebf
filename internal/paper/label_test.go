package paper_test

import (
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/label"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sheet"
	"bench/internal/steps"
)

var card = paper.LabelSize{Width: 60 * quantity.Millimetre, Height: 90 * quantity.Millimetre}

func lighthouseLabel(t *testing.T, o label.Options) label.Label {
	t.Helper()
	c := lighthouse(t)
	o.Workshop = recipe.Workshop{Materials: c.Materials, Responsible: o.Workshop.Responsible}
	s := batch.State{Control: c}
	return label.Of("", steps.Of(s), s, o)
}

// look runs a general program on a file, or skips the test where it is missing.
func look(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Skipf("%s is not installed: nothing outside looks at the page", name)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, out)
	}
	return string(out)
}

// The PDF has the size that was asked, in the points that poppler measures, and
// poppler reads every ingredient, in order.
func TestLabelAsPDF(t *testing.T) {
	l := lighthouseLabel(t, label.Options{Market: label.EU, As: label.AsMade})
	data, err := paper.LabelPDF(l, card, time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "label.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if info := look(t, "pdfinfo", path); !strings.Contains(info, "170.08 x 255.12 pts") { // 60 and 90 mm at 72 an inch.
		t.Errorf("%s", info)
	}
	text := strings.Join(strings.Fields(strings.ReplaceAll(look(t, "pdftotext", "-layout", path, "-"), "\u00a0", " ")), " ")
	if want := l.Plainly(); !strings.Contains(text, want) {
		t.Errorf("%q is not in %q", want, text)
	}
	for _, want := range []string{"PROOF", "Lighthouse soap", l.NetText, "Responsible person:"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
}

// The SVG says its size in millimetres, and rsvg renders it so.
func TestLabelAsSVG(t *testing.T) {
	data, err := paper.LabelSVG(lighthouseLabel(t, label.Options{Market: label.UK, As: label.AsSaponified}), card)
	if err != nil {
		t.Fatal(err)
	}
	var root struct {
		Width  string `xml:"width,attr"`
		Height string `xml:"height,attr"`
	}
	if err := xml.Unmarshal(data, &root); err != nil || root.Width != "60mm" || root.Height != "90mm" {
		t.Errorf("%+v %v", root, err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(dir+"/l.svg", data, 0o600); err != nil {
		t.Fatal(err)
	}
	look(t, "rsvg-convert", "-f", "pdf", "-o", dir+"/l.pdf", dir+"/l.svg")
	if info := look(t, "pdfinfo", dir+"/l.pdf"); !strings.Contains(info, "170.") || !strings.Contains(info, "x 255.") {
		t.Errorf("%s", info)
	}
}

// In the USA small letters are 1/16 in high or more, whatever the size.
func TestPrintIsLargeEnough(t *testing.T) {
	l := lighthouseLabel(t, label.Options{Market: label.US, As: label.AsMade, Checked: true})
	if _, err := paper.LabelPage(l, card); err != nil {
		t.Fatal(err)
	}
	if x := sheet.XHeight(sheet.Style{Size: paper.LeastPrint(label.US)}); x < 25.4/16-1e-9 {
		t.Errorf("small letters are %.3f mm high", x)
	}
}

// A label that does not fit says how high it must be, and fits then.
func TestLabelThatDoesNotFit(t *testing.T) {
	l := lighthouseLabel(t, label.Options{Market: label.EU, As: label.AsSaponified})
	size := paper.LabelSize{Width: 40 * quantity.Millimetre, Height: 20 * quantity.Millimetre}
	_, err := paper.LabelPage(l, size)
	if err == nil {
		t.Fatal("it fits")
	}
	words := err.Error()
	_, after, _ := strings.Cut(words, "must be ")
	number, _, _ := strings.Cut(after, " ")
	high, parseErr := quantity.ParseLength(number + " mm")
	if parseErr != nil {
		t.Fatalf("%s: %v", words, parseErr)
	}
	size.Height = high
	if _, err := paper.LabelPage(l, size); err != nil {
		t.Errorf("%s, yet: %v", words, err)
	}
	if _, err := paper.LabelPage(l, paper.LabelSize{Width: quantity.Millimetre, Height: quantity.Millimetre}); err == nil {
		t.Error("a label of 1 mm is drawn")
	}
}

func TestJarStandsWhereThereIsNoDate(t *testing.T) {
	l := lighthouseLabel(t, label.Options{Market: label.EU, As: label.AsMade})
	l.Durability = label.Durability{Months: 12}
	l.Open = nil
	data, err := paper.LabelSVG(l, card)
	if err != nil || !strings.Contains(string(data), `aria-label="12M"`) || strings.Contains(string(data), "PROOF") {
		t.Errorf("%v", err)
	}
}

// TestLabelTextSaysWhatThePrintSays: the cautions stand on both; over which warnings the bars
// were released is for the maker alone.
func TestLabelTextSaysWhatThePrintSays(t *testing.T) {
	l := lighthouseLabel(t, label.Options{Market: label.EU, As: label.AsMade})
	l.Cautions, l.Over = "Keep out of the eyes.", []string{"failed: pH 11.2", "the reason was: titrated"}
	text := paper.LabelText(l)
	if !strings.Contains(text, "\nKeep out of the eyes.\n") || !strings.Contains(text, "RELEASED ALL THE SAME, and not on the label\n- failed: pH 11.2\n- the reason was: titrated\n") {
		t.Error(text)
	}
	drawn, err := paper.LabelSVG(l, card)
	if err != nil || !strings.Contains(string(drawn), "Keep out of the eyes.") || strings.Contains(string(drawn), "titrated") {
		t.Errorf("%v", err)
	}
}
