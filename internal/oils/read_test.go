package oils

import (
	"strings"
	"testing"
)

const line = "coconut,Coconut oil,Cocos Nucifera Oil,Sodium Cocoate,memory," +
	"248,265,found,standard,6,11,found,standard,0.908,0.921,40,20,found,standard," +
	"23,26,memory,handbook,C12:0 45-53; C14:0 17-21,found,standard,note\n"

func TestReadTakesARow(t *testing.T) {
	rows, err := read(columns + "\n" + line)
	if err != nil {
		t.Fatal(err)
	}
	o := rows[0]
	if o.SV != (Range{248, 265, Found, "standard"}) || o.Melts != (Range{23, 26, Memory, "handbook"}) ||
		o.DensityAt != 40 || o.FattyAcids.Acids[1] != (AcidShare{"C14:0", 17, 21}) || o.Note != "note" {
		t.Errorf("got %+v", o)
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"no header", line, "oils.csv:1"},
		{"nothing", "", "oils.csv:1"},
		{"a short line", columns + "\na,b\n", "wrong number of fields"},
		{"a number", columns + "\n" + strings.Replace(line, "248", "24B", 1), `oils.csv:2: strconv.ParseFloat: parsing "24B"`},
		{"a flag", columns + "\n" + strings.Replace(line, "found", "sure", 1), `flag "sure" is unknown`},
		{"water", columns + "\n" + strings.Replace(line, "40,20", "40,21", 1), "water density at 21 °C"},
		{"an acid", columns + "\n" + strings.Replace(line, "45-53", "45", 1), `fatty acid "C12:0 45"`},
		{"a repeated key", columns + "\n" + line + line, `oils.csv:3: key "coconut" is out of order or repeated`},
	} {
		if _, err := read(c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got error %v, want one that says %q", c.name, err, c.says)
		}
	}
}

// The table is read during start-up, where milliseconds are counted.
func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		if _, err := read(published); err != nil {
			b.Fatal(err)
		}
	}
}
