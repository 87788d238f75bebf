package scene

import (
	"encoding/xml"
	"strings"
	"testing"
)

// An SVG is well-formed XML, of its real size, and says what is in it, with
// nothing of a name taken for markup.
func TestSVG(t *testing.T) {
	s := Scene{Title: `Fog & "rope" <b>`, Box: Box{-10, -5, 60, 55}}
	s.Add(Shape{Name: "sea <1>", Points: square(0, 0, 50, 30), Fill: Fill{On: true, Colour: Colour{0x2a, 0x6f, 0x7d}}, Line: Line{Width: 0.25, Ink: true, Dash: 2}})
	s.Write(Label{At: Point{25, 15}, Text: "sea & sky", Size: 3, Anchor: Middle, Bold: true})
	out := string(SVG(s))
	var doc struct {
		Width   string `xml:"width,attr"`
		Height  string `xml:"height,attr"`
		ViewBox string `xml:"viewBox,attr"`
		Title   string `xml:"title"`
		Paths   []struct {
			D      string `xml:"d,attr"`
			Fill   string `xml:"fill,attr"`
			Stroke string `xml:"stroke,attr"`
			Title  string `xml:"title"`
		} `xml:"path"`
		Texts []string `xml:"text"`
	}
	if err := xml.Unmarshal([]byte(out), &doc); err != nil {
		t.Fatalf("%v:\n%s", err, out)
	}
	if doc.Width != "70mm" || doc.Height != "60mm" || doc.ViewBox != "0 0 70 60" || doc.Title != s.Title {
		t.Errorf("the document is %+v", doc)
	}
	if len(doc.Paths) != 1 || doc.Paths[0].Title != "sea <1>" || doc.Paths[0].Fill != "#2a6f7d" || doc.Paths[0].D != "M10 55L60 55L60 25L10 25Z" {
		t.Errorf("the paths are %+v", doc.Paths)
	}
	if len(doc.Texts) != 1 || doc.Texts[0] != "sea & sky" || !strings.Contains(out, `text-anchor="middle"`) {
		t.Errorf("the texts are %+v", doc.Texts)
	}
}
