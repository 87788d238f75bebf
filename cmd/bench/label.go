package main

import (
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/batch"
	"bench/internal/documents"
	"bench/internal/files"
	"bench/internal/label"
	"bench/internal/paper"
	"bench/internal/steps"
)

// labelFlags are what the label command is asked.
type labelFlags struct {
	market, as, size, out string
	checked, replace      bool
}

func (a *app) labelCommand() *cobra.Command {
	f := labelFlags{market: string(label.EU), as: string(label.AsMade), size: "60 x 90 mm"}
	c := &cobra.Command{
		Use:   "label RECIPE|BATCH",
		Short: "make the label of a recipe or a batch",
		Long: `label prints what stands on a label and why, and with -o writes it as SVG or PDF
in real millimetres. A batch adds its code, its date and the weight of its bars. A
file that is there already is left alone unless you say --replace.

Names that bench has from memory are marked (verify) until you have looked them
up and stated them as "inci" in your workshop, or say --checked. A safety
assessment, notification and local rules are yours, the maker's, to meet.`,
		Args: one("label needs one recipe or batch: bench label RECIPE|BATCH"),
		RunE: func(_ *cobra.Command, args []string) error { return a.label(args[0], f) },
	}
	c.Flags().StringVar(&f.market, "market", f.market, "where it is to be sold: eu, uk or us")
	c.Flags().StringVar(&f.as, "as", f.as, "ingredients as they went in (made) or came out (saponified)")
	c.Flags().StringVar(&f.size, "size", f.size, "width x height of the label")
	c.Flags().StringVarP(&f.out, "output", "o", "", "write it to this file, .svg or .pdf")
	replaceFlag(c, &f.replace)
	c.Flags().BoolVar(&f.checked, "checked", false, "leave the marks out: you have looked the names up")
	return c
}

func (a *app) label(of string, f labelFlags) error {
	o := label.Options{Market: label.Market(f.market), As: label.As(f.as), Checked: f.checked}
	if !slices.Contains(label.Markets(), o.Market) {
		return fmt.Errorf("--market %q is none of eu, uk, us", f.market)
	}
	if !slices.Contains(label.Styles(), o.As) {
		return fmt.Errorf("--as %q is neither made nor saponified", f.as)
	}
	size, err := paper.ParseLabelSize(f.size)
	if err != nil {
		return fmt.Errorf("--size: %w", err)
	}
	kind := suffix(f.out)
	if f.out != "" && kind != ".svg" && kind != ".pdf" {
		return fmt.Errorf("-o %s: a label is written as .svg or .pdf", f.out)
	}
	home, err := a.home()
	if err != nil {
		return err
	}
	w, problems := documents.Workshop(home)
	report(a.err, problems)
	o.Workshop = w
	code, s, err := a.recipeOrBatch("label", of, 0)
	if err != nil {
		return err
	}
	l := label.Of(code, steps.Of(s), s, o)
	if _, err := fmt.Fprint(a.out, paper.LabelText(l)); err != nil || f.out == "" {
		return failed(err)
	}
	data, err := drawLabel(l, size, kind, s)
	if err != nil {
		return failed(err)
	}
	_, err = files.Create(f.out, data, files.Private, f.replace)
	return failed(err)
}

func drawLabel(l label.Label, size paper.LabelSize, kind string, s batch.State) ([]byte, error) {
	if kind == ".svg" {
		return paper.LabelSVG(l, size)
	}
	var made time.Time
	if s.Begun() {
		made = s.Entries[0].At.Wall
	}
	return paper.LabelPDF(l, size, made)
}
