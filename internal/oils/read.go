package oils

import (
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed oils.csv
var published string

// table reads the embedded file when it is first asked for, so that a program
// that needs no oils does not pay for them.
var table = sync.OnceValue(func() []Oil { //nolint:gochecknoglobals // Read once, never changed.
	rows, err := read(published)
	if err != nil {
		panic(err) // the file is part of the program, and a test reads it
	}
	return rows
})

// columns in the order of the file.
const columns = "key,name,inci,soap_inci,names_flag," +
	"sv_low,sv_high,sv_flag,sv_source," +
	"iodine_low,iodine_high,iodine_flag,iodine_source," +
	"density_low,density_high,density_at_c,density_water_c,density_flag,density_source," +
	"melts_low_c,melts_high_c,melts_flag,melts_source," +
	"fatty_acids,fatty_acids_flag,fatty_acids_source,note"

// read takes the table from CSV. Problems name the line of the file.
func read(text string) ([]Oil, error) {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("oils.csv: %w", err)
	}
	if len(lines) == 0 || strings.Join(lines[0], ",") != columns {
		return nil, fmt.Errorf("oils.csv:1: columns must be %s", columns)
	}
	rows := make([]Oil, 0, len(lines)-1)
	for i, fields := range lines[1:] {
		r := row{fields: fields}
		o := r.oil()
		if err := errors.Join(r.problems...); err != nil {
			return nil, fmt.Errorf("oils.csv:%d: %w", i+2, err)
		}
		if len(rows) > 0 && rows[len(rows)-1].Key >= o.Key {
			return nil, fmt.Errorf("oils.csv:%d: key %q is out of order or repeated", i+2, o.Key)
		}
		rows = append(rows, o)
	}
	return rows, nil
}

func compareKey(o Oil, key string) int { return strings.Compare(o.Key, key) }

// row hands out one line's fields from left to right and collects problems.
type row struct {
	fields   []string
	problems []error
}

func (r *row) oil() Oil {
	o := Oil{
		Key: r.text(), Name: r.text(), INCI: r.text(), SoapINCI: r.text(), Names: r.flag(),
		SV: r.interval(), IodineValue: r.interval(),
	}
	o.RelativeDensity.Low, o.RelativeDensity.High = r.number(), r.number()
	o.DensityAt, o.DensityWater = r.number(), r.number()
	o.RelativeDensity.Flag, o.RelativeDensity.Source = r.flag(), r.text()
	o.Melts = r.interval()
	o.FattyAcids = Composition{r.acids(), r.flag(), r.text()}
	o.Note = r.text()
	if _, err := waterDensity(o.DensityWater); err != nil {
		r.fail(err)
	}
	return o
}

func (r *row) fail(err error) { r.problems = append(r.problems, err) }

func (r *row) text() string {
	s := r.fields[0]
	r.fields = r.fields[1:]
	return s
}

func (r *row) flag() Flag {
	f := Flag(r.text())
	if !slices.Contains([]Flag{"", Found, SecondHand, Computed, Mixed, Memory}, f) {
		r.fail(fmt.Errorf("flag %q is unknown", f))
	}
	return f
}

// number reads an empty field as zero.
func (r *row) number() float64 {
	s := r.text()
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		r.fail(err)
	}
	return v
}

func (r *row) interval() Range {
	return Range{Low: r.number(), High: r.number(), Flag: r.flag(), Source: r.text()}
}

// acids reads "C16:0 8-14; C18:1 55-83".
func (r *row) acids() []AcidShare {
	text := r.text()
	if text == "" {
		return nil
	}
	var out []AcidShare
	for part := range strings.SplitSeq(text, "; ") {
		acid, share, _ := strings.Cut(part, " ")
		low, high, _ := strings.Cut(share, "-")
		l, errLow := strconv.ParseFloat(low, 64)
		h, errHigh := strconv.ParseFloat(high, 64)
		if err := errors.Join(errLow, errHigh); err != nil {
			r.fail(fmt.Errorf("fatty acid %q: %w", part, err))
		}
		out = append(out, AcidShare{acid, l, h})
	}
	return out
}
