package paper

import (
	"fmt"

	"bench/internal/oils"
)

// OilsText writes the table of oils for reading: saponification value and
// iodine value with their flags, and where each comes from.
func OilsText(rows []oils.Oil) string {
	var p page
	p.linef("%-20s %-12s %-18s %-12s %-18s %s", "key", "SV mg/g", "", "iodine", "", "name")
	for _, o := range rows {
		p.linef("%-20s %-12s %-18s %-12s %-18s %s", o.Key, span(o.SV), o.SV.Flag, span(o.IodineValue), o.IodineValue.Flag, o.Name)
	}
	p.linef("")
	p.linef("SV is the saponification value, mg of potassium hydroxide per g; the iodine value")
	p.linef("is in g per 100 g. Your own certificate goes into the workshop as \"sv\".")
	for _, o := range rows {
		p.linef("")
		p.linef("%s: %s", o.Key, o.Name)
		p.source("saponification value", o.SV)
		p.source("iodine value", o.IodineValue)
		p.source("relative density", o.RelativeDensity)
		p.source("melting range, °C", o.Melts)
		if o.FattyAcids.Flag != "" {
			p.linef("  fatty acids: %s (%s)", o.FattyAcids.Source, o.FattyAcids.Flag)
		}
		if o.Note != "" {
			p.linef("  %s", o.Note)
		}
	}
	return p.String()
}

func (p *page) source(what string, r oils.Range) {
	if r.Known() {
		p.linef("  %s %s: %s (%s)", what, span(r), r.Source, r.Flag)
	}
}

func span(r oils.Range) string {
	switch {
	case !r.Known():
		return "-"
	case r.Low == r.High:
		return fmt.Sprintf("%.4g", r.Low)
	}
	return fmt.Sprintf("%.4g-%.4g", r.Low, r.High)
}

type rangeJSON struct {
	Low    decimal `json:"low"`
	High   decimal `json:"high"`
	Flag   string  `json:"flag"`
	Source string  `json:"source"`
}

type acidJSON struct {
	Acid string  `json:"acid"`
	Low  decimal `json:"low"`
	High decimal `json:"high"`
}

type oilJSON struct {
	Key         string     `json:"key"`
	Name        string     `json:"name"`
	INCI        string     `json:"inci"`
	SV          rangeJSON  `json:"saponification_mg_per_g"`
	Iodine      rangeJSON  `json:"iodine_g_per_100_g"`
	Density     rangeJSON  `json:"relative_density"`
	DensityAt   decimal    `json:"density_at_c"`
	DensityTo   decimal    `json:"density_water_at_c"`
	Melts       rangeJSON  `json:"melts_c"`
	Acids       []acidJSON `json:"fatty_acids_percent"`
	AcidsFlag   string     `json:"fatty_acids_flag"`
	AcidsSource string     `json:"fatty_acids_source"`
	Note        string     `json:"note"`
}

// OilsJSON writes the table as indented JSON with a final line end. A value
// that is not known has an empty flag.
func OilsJSON(rows []oils.Oil) ([]byte, error) {
	return indented(each(rows, oilToJSON))
}

func oilToJSON(o oils.Oil) oilJSON {
	return oilJSON{
		Key: o.Key, Name: o.Name, INCI: o.INCI, SV: rangeToJSON(o.SV), Iodine: rangeToJSON(o.IodineValue),
		Density: rangeToJSON(o.RelativeDensity), DensityAt: decimal(o.DensityAt), DensityTo: decimal(o.DensityWater), Melts: rangeToJSON(o.Melts),
		Acids:     each(o.FattyAcids.Acids, func(a oils.AcidShare) acidJSON { return acidJSON{a.Acid, decimal(a.Low), decimal(a.High)} }),
		AcidsFlag: string(o.FattyAcids.Flag), AcidsSource: o.FattyAcids.Source, Note: o.Note,
	}
}

func rangeToJSON(r oils.Range) rangeJSON {
	return rangeJSON{decimal(r.Low), decimal(r.High), string(r.Flag), r.Source}
}
