package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"bench/internal/documents"
	"bench/internal/recipe/read"
)

func (a *app) checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE...",
		Short: "say what is wrong with recipes or a workshop",
		Long: `check reads each file and prints every problem as "file:line:column: text".
Recipes are checked against your workshop, by themselves while that has problems.
A recipe of yours or a built-in one goes by its name, too. A file that begins with "workshop:"
fields is checked as one.

Exit status: 0 clean (warnings at most), 1 problems, 2 wrong usage.`,
		Args: atLeastOneFile,
		RunE: func(_ *cobra.Command, files []string) error { return a.check(files) },
	}
}

func atLeastOneFile(_ *cobra.Command, files []string) error {
	if len(files) == 0 {
		return errors.New("check needs one file or more")
	}
	return nil
}

func (a *app) check(files []string) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	w, workshopProblems := documents.Workshop(home)
	broken := report(a.out, workshopProblems)
	bad := broken
	for _, file := range files {
		doc, err := documents.Open(home, file)
		if err != nil {
			return fmt.Errorf("check: %w", err)
		}
		var problems []read.Problem
		switch {
		case read.IsWorkshop(doc.Data):
			_, _, problems = read.Workshop(doc.Name, doc.Data)
		case broken: // Against another workshop, most of what would be said is false.
			problems = doc.Alone()
		default:
			problems = doc.Read(w).Problems
		}
		bad = report(a.out, problems) || bad
	}
	if bad {
		return problemsError{}
	}
	return nil
}

// report writes problems and says whether one of them is more than a warning.
func report(to io.Writer, problems []read.Problem) bool {
	for _, p := range problems {
		_, _ = fmt.Fprintln(to, p.Error())
	}
	return read.Failed(problems)
}
