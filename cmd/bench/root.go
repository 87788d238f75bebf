package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/clock"
	"bench/internal/timer"
)

// version is set by the linker in a release; otherwise the module's is said.
var version string

const about = `bench is a companion for making cold-process soap, worked from the keyboard:
it plans a batch from its recipe, weighs, splits, times and keeps the record.

Lye burns. Gloves, goggles, sleeves, fresh air; first aid is water, at once and
long, never vinegar. The supplier's safety data sheet and local rules come first.

Facts are kept in $BENCH_HOME, or else in $XDG_DATA_HOME/bench
(~/.local/share/bench); your recipes go into its folder "recipes", your workshop
into "workshop.yaml".`

// app is what the commands share.
type app struct {
	streams
	raw   io.Writer // raw is out for what is no text, or styled by bench itself.
	clock string    // clock is where the clock flag sets the time, or "".
	speed float64   // speed is how many times as fast that clock runs.
	began time.Time
	// silent and mouse are what the screen is asked for beside the workshop file.
	silent, mouse bool
}

func newRoot(std streams) *cobra.Command {
	a := &app{streams: std, began: time.Now(), raw: std.out}
	a.out = safeWriter{std.out}
	root := &cobra.Command{
		Use:           "bench",
		Short:         "a companion for making cold-process soap",
		Long:          about,
		Args:          cobra.NoArgs,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	var how wish
	// Not cobra's own flag: with its template the linker keeps every exported method
	// of everything, a seventh of the program.
	tell := root.Flags().BoolP("version", "v", false, "version for bench")
	root.RunE = func(*cobra.Command, []string) error {
		if *tell {
			_, err := fmt.Fprintln(a.out, "bench", versionWords())
			return err
		}
		return a.sit(how)
	}
	root.Flags().BoolVar(&how.plain, "plain", false, "line by line, prompt and answer: for screen readers, simple terminals and scripts")
	root.Flags().BoolVar(&how.practice, "practice", false, "a batch that leaves no trace, with a clock that can run sixty times as fast")
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return plainFlagError(err) })
	root.SetOut(std.out)
	root.SetErr(std.err)
	root.PersistentFlags().StringVar(&a.clock, "clock", "", "start with the clock at this time (RFC 3339), for practice and tests")
	root.PersistentFlags().Float64Var(&a.speed, "clock-speed", 1, "run that clock so many times as fast")
	root.Flags().BoolVar(&a.silent, "silent", false, "let no alarm sound; all are shown")
	root.Flags().BoolVar(&a.mouse, "mouse", false, "let clicks and the wheel be keys; the terminal cannot select text then")
	for _, flag := range []string{"clock", "clock-speed"} {
		if err := root.PersistentFlags().MarkHidden(flag); err != nil {
			panic(err) // The flags are defined just above.
		}
	}
	root.AddCommand(
		a.checkCommand(), a.planCommand(), a.whyCommand(), a.sticksCommand(), a.oilsCommand(), a.faceCommand(), a.dueCommand(), a.recordCommand(),
		a.verifyCommand(), a.backupCommand(), a.restoreCommand(), a.labelCommand(), a.calendarCommand(), a.findCommand())
	return root
}

func versionWords() string {
	if version != "" {
		return version
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(unknown)"
}

// now gives what tells the moment, as moments are kept.
func (a *app) now() (func() timer.Moment, error) {
	c, err := a.setClock()
	if err != nil {
		return nil, err
	}
	now := c.Now
	if a.clock == "" && a.speed == 1 {
		now = clock.Machine
	}
	return func() timer.Moment { return now().Fixed() }, nil
}

// setClock gives the clock that the flags set going, which without them is that
// of the machine as it stood at the start.
func (a *app) setClock() (*clock.Clock, error) {
	if !(a.speed > 0) { // Not a number, too.
		return nil, fmt.Errorf("--clock-speed %v is not above zero", a.speed)
	}
	stood := a.began
	if a.clock != "" {
		var err error
		if stood, err = time.Parse(time.RFC3339, a.clock); err != nil {
			return nil, fmt.Errorf("--clock %q is not a time like 2026-03-02T09:00:00+01:00", a.clock)
		}
	}
	return clock.Set(stood, a.began, a.speed), nil
}
