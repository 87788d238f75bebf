package judge

import (
	"errors"
	"fmt"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// The policy of this file: lye solution and oils meet as warm as they were read just now.
// Too hot they wait until they have cooled; who mixes them all the same has read the
// figure, and says why.

// stale says which temperatures of the gate were read too long ago to count.
func stale(gate work.Stage, now timer.Moment) error {
	var old []string
	for _, t := range gate.Tasks {
		if t.Do != work.Temperature || !t.Done || t.Skipped != "" {
			continue
		}
		if ago, _ := now.Since(t.At); ago > steps.WarmFor {
			old = append(old, fmt.Sprintf("%s %s ago", steps.ReadOf(t), timer.Words(ago)))
		}
	}
	switch len(old) {
	case 0:
		return nil
	case 1:
		return fmt.Errorf("too long ago: you read %s; read that again (up, and type)", old[0])
	}
	return fmt.Errorf("too long ago: you read %s; read both again (up, and type)", strings.Join(old, ", "))
}

// meetsHot refuses that lye solution and oils meet too hot, unless its figure and a reason
// are said with it.
func meetsHot(p steps.Plan, gate work.Stage, why string) error {
	hot, too := p.TooHot(gate.Batter)
	switch {
	case !too:
		return nil
	case strings.TrimSpace(why) == "":
		return fmt.Errorf("together they give %s, and %s is wanted: let %s cool, and read again (up, and type). To mix them all the same take that answer (s)", hot.Mix, hot.Wanted, hot.Cool)
	}
	return figureFirst(hot.Mix, why)
}

// metHot refuses to pour lye solution that became too hot for its oils after the gate was
// passed, by a correction.
func metHot(p steps.Plan, batter string) error {
	hot, too := p.TooHot(batter)
	if met, _ := p.State().Done(steps.MeetID(batter)); too && figureFirst(hot.Mix, met.Why) != nil {
		return fmt.Errorf("together they give %s, and %s is wanted; go back to the gate (left), let %s cool and read again", hot.Mix, hot.Wanted, hot.Cool)
	}
	return nil
}

// figureFirst holds words that begin with a temperature to the one that was to be read.
func figureFirst(warm quantity.Temperature, words string) error {
	first, reason, _ := strings.Cut(strings.TrimSpace(words), " ")
	reason = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(reason), "°C"))
	figure := strings.TrimSuffix(strings.Trim(strings.Replace(first, ",", ".", 1), ".:;"), "°C")
	switch {
	case figure != strings.TrimSuffix(warm.String(), " °C"):
		return fmt.Errorf("%s is not how warm they are together: read it, and type that figure first", first)
	case reason == "":
		return errors.New("say after the figure why it cannot wait")
	}
	return nil
}

// hotChoices are the answers where lye solution and oils would meet too hot.
func hotChoices(t work.Task, hot steps.TooHot) []Choice {
	return []Choice{
		{Title: fmt.Sprintf("Let %s cool, and read again", hot.Cool), Why: "A cold water bath helps. Then up, and type what the thermometer says."},
		{
			Title: fmt.Sprintf("Mix them at %s all the same", hot.Mix),
			Why:   fmt.Sprintf("%s is wanted. It may thicken at once, spit or rise out of the pot: goggles, a deep pot, nobody leaning over it.", hot.Wanted),
			Ask:   "how warm they are together, the figure first, and why it cannot wait", Fact: batch.Ticked{Task: t.ID, Asked: fmt.Sprintf("Mixed at %s, %s wanted", hot.Mix, hot.Wanted)},
		},
	}
}
