package label

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// usualLoss is what a bar loses in the cure where it was not weighed: domain
// practice for limits, no source.
const usualLoss = 0.15

// weights are a batch's bars with the loss that was taken.
type weights struct {
	Weights
	loss     float64
	measured bool // measured says that the loss comes from weighings.
}

// weightsOf looks for the bars' weights: as they are sold, or else as marked
// bars stood last in the cure, or else fresh, or else as they are planned.
func weightsOf(s batch.State, plan steps.Plan) weights {
	fresh, cured := bars(s, false), bars(s, true)
	w := weights{loss: usualLoss}
	switch latest, on := marked(s); {
	case weighed(cured) > 0:
		w.Weights = cured
		w.From = "bars weighed after the cure"
	case len(latest) > 0:
		w.Weights = Weights{Each: latest, Forecast: true}
		w.From = fmt.Sprintf("marked bars as last weighed in the cure, on %s", on.Format(time.DateOnly))
	case weighed(fresh) > 0:
		w.Weights = fresh.less(usualLoss)
		w.From, w.Forecast = fmt.Sprintf("bars weighed fresh, less %.0f %% for the cure", 100*usualLoss), true
	default:
		w.Weights = planned(plan).less(usualLoss)
		w.From, w.Forecast = fmt.Sprintf("bars as planned, less %.0f %% for the cure", 100*usualLoss), true
	}
	w.Bars = cut(s)
	if f, c := mean(fresh), mean(cured); f > 0 && c > 0 && c < f {
		w.loss, w.measured = 1-c/f, true
	}
	return w
}

// planned gives the mean of the loaves' bars, fresh, as the plan expects it: what is
// poured and the embeds in it. It is one figure: nobody weighed how bars differ.
func planned(plan steps.Plan) Weights {
	bars := plan.Poured().Bars
	if len(bars) == 0 {
		return Weights{}
	}
	sum := quantity.Mass(0)
	for _, m := range bars {
		sum += m
	}
	return Weights{Each: []quantity.Mass{sum / quantity.Mass(len(bars))}}
}

// bars gives the fresh bars, or those that were weighed at the release test.
func bars(s batch.State, cured bool) Weights {
	var w Weights
	for _, b := range batch.All[batch.BarsWeighed](s) {
		switch {
		case strings.HasPrefix(b.Fact.Task, "test/") != cured || b.Fact.Count < 1:
		case b.Fact.Count == 1:
			w.Each = append(w.Each, b.Fact.Mass)
		default:
			w.Together += b.Fact.Mass
			w.Count += b.Fact.Count
		}
	}
	return w
}

func weighed(w Weights) int { return len(w.Each) + w.Count }

// mean is in grams, zero for no bars.
func mean(w Weights) float64 {
	if weighed(w) == 0 {
		return 0
	}
	return Suggest(w).Mean.Grams()
}

// marked gives the latest weight of each marked bar, and the day of the last.
func marked(s batch.State) (latest []quantity.Mass, on time.Time) {
	at := map[string]int{}
	for _, w := range batch.All[batch.WeighedIn](s) {
		if i, ok := at[w.Fact.Bar]; ok {
			latest[i] = w.Fact.Mass
		} else {
			at[w.Fact.Bar] = len(latest)
			latest = append(latest, w.Fact.Mass)
		}
		if t := w.Moment().Wall; t.After(on) {
			on = t
		}
	}
	return latest, on
}

// cut counts the bars of the batch.
func cut(s batch.State) int {
	n := 0
	for _, c := range batch.All[batch.BarsCut](s) {
		n += c.Fact.Bars
	}
	return n
}

// less takes a loss off the weights.
func (w Weights) less(loss float64) Weights {
	dry := func(m quantity.Mass) quantity.Mass { return quantity.FromGrams(m.Grams() * (1 - loss)) }
	each := make([]quantity.Mass, len(w.Each))
	for i, m := range w.Each {
		each[i] = dry(m)
	}
	w.Each, w.Together = each, dry(w.Together)
	return w
}
