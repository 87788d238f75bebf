package paper

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/label"
	"bench/internal/quantity"
	"bench/internal/sheet"
)

// LabelSize is the size of a label.
type LabelSize struct{ Width, Height quantity.Length }

// ParseLabelSize reads "60 x 90 mm".
func ParseLabelSize(text string) (LabelSize, error) {
	wide, high, ok := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	wide, high = strings.TrimSpace(wide), strings.TrimSpace(high)
	if !ok {
		return LabelSize{}, fmt.Errorf("%q is not a size: write it like \"60 x 90 mm\"", text)
	}
	if strings.Trim(wide, "0123456789.,") == "" { // The unit is said once.
		wide += " " + strings.TrimLeft(high, "0123456789., ")
	}
	width, err := quantity.ParseLength(wide)
	if err != nil {
		return LabelSize{}, err
	}
	height, err := quantity.ParseLength(high)
	return LabelSize{Width: width, Height: height}, err
}

// Sizes of print in millimetres. The least height of a small letter is 1/16 in
// in the USA (21 CFR 701.3, read); elsewhere the rule is only that it can be
// read, and 0.9 mm is bench's own floor.
const (
	labelMargin  = 3.0
	largestPrint = 3.2
	leastX       = 0.9
	sixteenth    = 25.4 / 16
	lineHeight   = 1.25 // lineHeight is in ems.
	hairline     = 0.1
)

// block is a paragraph of a label.
type block struct {
	style sheet.Style
	lines []string
	gap   float64 // gap is left above it, in millimetres.
	rules int     // rules are blank lines to write on.
	jar   string  // jar stands in the symbol of an open jar, such as "12M".
}

// LabelPage sets a label on a page of its size, as large as it fits. Where it
// does not fit at the smallest print, the error says how high it must be.
func LabelPage(l label.Label, size LabelSize) (sheet.Page, error) {
	w, h := size.Width.Millimetres(), size.Height.Millimetres()
	if w < 4*labelMargin || h < 4*labelMargin {
		return sheet.Page{}, fmt.Errorf("a label of %s × %s has no room for print: make it larger", size.Width, size.Height)
	}
	least := leastPrint(l.Market)
	for em := max(least, largestPrint); em >= least-1e-9; em -= 0.05 {
		blocks := labelBlocks(l, em, w, h)
		if heightOf(blocks) <= h-2*labelMargin {
			return labelOn(blocks, w, h), nil
		}
	}
	need := heightOf(labelBlocks(l, least, w, h)) + 2*labelMargin
	return sheet.Page{}, fmt.Errorf("the label does not fit on %s × %s at the smallest print: at this width it must be %.0f mm high", size.Width, size.Height, need+0.5)
}

// leastPrint is the em whose small letters are as high as the market asks.
func leastPrint(m label.Market) float64 {
	least := leastX
	if m == label.US {
		least = sixteenth
	}
	return least / sheet.XHeight(sheet.Style{Size: 1})
}

// labelBlocks wraps what a label says to its width. The net weight stands last:
// the USA wants it in the lower part of the panel.
func labelBlocks(l label.Label, em, width, height float64) []block {
	plain := sheet.Style{Size: em}
	bold := sheet.Style{Size: em, Face: sheet.Bold}
	inner := width - 2*labelMargin
	var list []block
	add := func(s sheet.Style, gap float64, words string) {
		if words != "" {
			list = append(list, block{style: s, lines: sheet.Wrap(s, words, inner), gap: gap})
		}
	}
	if len(l.Open) > 0 {
		add(bold, 0, "PROOF, not for sale: points are open")
	}
	add(sheet.Style{Size: 1.8 * em, Face: sheet.Bold}, em/2, l.Product)
	add(plain, 0, l.Function)
	add(plain, em/2, unbroken(l.Plainly()))
	add(plain, em/2, l.Cautions)
	if l.Durability.Months > 0 {
		list = append(list, block{style: plain, gap: em / 2, jar: fmt.Sprintf("%dM", l.Durability.Months)})
	}
	add(plain, em/2, l.Durability.Words)
	add(plain, map[bool]float64{true: em / 2}[l.Durability.Words == ""], batchWords(l.Batch))
	if len(l.Responsible) == 0 {
		who := map[bool]string{true: "Made by (name, place of business):", false: "Responsible person:"}[l.Market == label.US]
		list = append(list, block{style: plain, gap: em / 2, lines: []string{who}, rules: 3})
	}
	for i, line := range l.Responsible {
		add(plain, map[bool]float64{true: em / 2}[i == 0], line)
	}
	net := sheet.Style{Size: netEm(l, em, width*height), Face: sheet.Bold}
	if l.NetText == "" {
		list = append(list, block{style: net, gap: em / 2, lines: []string{"Net weight: ______"}})
	}
	add(net, em/2, l.NetText)
	return list
}

// unbroken keeps a colour's number and a mark with what they belong to.
func unbroken(words string) string {
	const space = "\u00a0"
	return strings.NewReplacer("CI ", "CI"+space, " (verify)", space+"(verify)").Replace(words)
}

func batchWords(code string) string {
	if code == "" {
		return "Batch: __________"
	}
	return "Batch: " + code
}

// netEm is the em whose figures are as high as the net weight wants them: 2, 3, 4
// or 6 mm up to 50, 200, 1000 g and above (76/211/EEC annex I, 3.1), in the USA
// 1/16, 1/8 or 3/16 in by the area of the panel (16 CFR 500.21, 21 CFR 701.13);
// all from memory.
func netEm(l label.Label, em, area float64) float64 {
	high := 6.0
	switch nominal := l.Net.Nominal; {
	case l.Market == label.US && area <= 5*25.4*25.4:
		high = sixteenth
	case l.Market == label.US && area <= 25*25.4*25.4:
		high = 2 * sixteenth
	case l.Market == label.US:
		high = 3 * sixteenth
	case nominal <= 50*quantity.Gram:
		high = 2
	case nominal <= 200*quantity.Gram:
		high = 3
	case nominal <= 1000*quantity.Gram:
		high = 4
	}
	return max(em, high/sheet.CapHeight(sheet.Style{Size: 1, Face: sheet.Bold}))
}

func (b block) height() float64 {
	line := b.style.Size * lineHeight
	h := b.gap + line*float64(len(b.lines)) + 1.5*line*float64(b.rules)
	if b.jar != "" {
		h += jarHeight(b.style)
	}
	return h
}

func heightOf(blocks []block) float64 {
	sum := 0.0
	for _, b := range blocks {
		sum += b.height()
	}
	return sum
}

// labelOn puts the blocks on a page, the last of them at the bottom.
func labelOn(blocks []block, width, height float64) sheet.Page {
	p := sheet.Page{Width: width, Height: height}
	p.Rectangle(hairline, 0, 0, width, height)
	y := labelMargin
	for i, b := range blocks {
		if i == len(blocks)-1 {
			y = height - labelMargin - b.height()
		}
		y += b.gap
		for _, line := range b.lines {
			y += b.style.Size * lineHeight
			p.Text(labelMargin, y-0.3*b.style.Size, b.style, line)
		}
		for range b.rules {
			y += 1.5 * b.style.Size * lineHeight
			p.Line(hairline, sheet.Point{X: labelMargin, Y: y}, sheet.Point{X: width - labelMargin, Y: y})
		}
		if b.jar != "" {
			openJar(&p, labelMargin, y, b.style, b.jar)
			y += jarHeight(b.style)
		}
	}
	return p
}

func jarHeight(s sheet.Style) float64 { return 4 * s.Size }

// openJar draws the symbol of the period after opening: a jar whose lid is
// lifted, with the months in it (Directive 2003/80/EC annex, from memory).
func openJar(p *sheet.Page, x, y float64, s sheet.Style, words string) {
	w, line := 4.4*s.Size, 0.1*s.Size
	at := func(dx, dy float64) sheet.Point { return sheet.Point{X: x + dx*s.Size, Y: y + dy*s.Size} }
	p.Loop(line, at(0.1, 1.5), at(4.3, 1.5), at(4.3, 3.9), at(0.1, 3.9))
	p.Loop(line, at(0.3, 0.9), at(4.3, 0.1), at(4.4, 0.6), at(0.4, 1.4))
	p.Text(x+(w-sheet.Width(s, words))/2, y+3.1*s.Size, s, words)
}

// LabelSVG and LabelPDF write a label in real millimetres. Made stands in the
// PDF as its time: that of the batch, or the zero time for a recipe.
func LabelSVG(l label.Label, size LabelSize) ([]byte, error) {
	p, err := LabelPage(l, size)
	if err != nil {
		return nil, err
	}
	return sheet.SVG(l.Product, p), nil
}

// LabelPDF is LabelSVG as PDF.
func LabelPDF(l label.Label, size LabelSize, made time.Time) ([]byte, error) {
	p, err := LabelPage(l, size)
	if err != nil {
		return nil, err
	}
	return sheet.PDF(l.Product, made, p)
}
