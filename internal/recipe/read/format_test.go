package read

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"bench/internal/recipe"
)

const formatFile = "../../../docs/format.md"

// TestFormatExamples holds the examples of the reference to having nothing
// wrong with them.
func TestFormatExamples(t *testing.T) {
	data, err := os.ReadFile(formatFile)
	if err != nil {
		t.Fatal(err)
	}
	builtin := builtinWorkshop(t)
	blocks := strings.Split(string(data), "```yaml\n")[1:]
	if len(blocks) != 2 {
		t.Fatalf("%d examples", len(blocks))
	}
	text, _, _ := strings.Cut(blocks[0], "```")
	_, _, problems := CheckedRecipe("example", []byte(text), builtin)
	for _, p := range problems {
		t.Error(p)
	}
	text, _, _ = strings.Cut(blocks[1], "```")
	own, _, problems := Workshop("example", []byte(text))
	for _, p := range problems {
		t.Error(p)
	}
	if merged := recipe.Merge(builtin, own); len(merged.Scales) != 2 || len(merged.Vessels) != len(builtin.Vessels) {
		t.Errorf("%+v", merged)
	}
}

// TestFormatFields holds the reference to naming every field that is read: an
// unknown field makes the reader list those that it knows.
func TestFormatFields(t *testing.T) {
	data, err := os.ReadFile(formatFile)
	if err != nil {
		t.Fatal(err)
	}
	const strange = "{ qqqqqq: 1 }"
	_, _, problems := Recipe("x", []byte("qqqqqq: 1\nbatters: [{ qqqqqq: 1, additives: ["+strange+"] }]\n"+
		"layers: [{ qqqqqq: 1, colours: ["+strange+"], scents: ["+strange+"], embeds: ["+strange+"], mica line: "+strange+" }]\n"+
		"label: "+strange+"\ncutting: "+strange+"\ntop: { qqqqqq: 1, toppings: ["+strange+"] }\n"))
	_, _, more := Workshop("x", []byte("qqqqqq: 1\ncutting: "+strange+"\nextruder: "+strange+"\nsticks: ["+strange+"]\nscales: ["+strange+"]\nvessels: ["+strange+"]\nmoulds: ["+strange+"]\nmaterials: ["+strange+"]\n"))
	lists := regexp.MustCompile(`there is no field "qqqqqq" here: it can be (.*)`)
	mappings := 0
	for _, p := range append(problems, more...) {
		m := lists.FindStringSubmatch(p.Text)
		if m == nil {
			continue
		}
		mappings++
		for _, field := range strings.Split(m[1], ", ") {
			if !strings.Contains(string(data), "`"+field+"`") {
				t.Errorf("docs/format.md does not name the field %q", field)
			}
		}
	}
	if mappings != 20 {
		t.Errorf("%d mappings were asked for their fields", mappings)
	}
}
