package main

import (
	"github.com/spf13/cobra"

	"bench/internal/oils"
	"bench/internal/paper"
)

func (a *app) oilsCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "oils",
		Short: "list the published table of oils with its sources",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return printAs(a, asJSON, oils.All(), paper.OilsText, paper.OilsJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}
