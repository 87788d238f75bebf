package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/work"
)

const missing = "sea/sodium hydroxide/missing"

// alkaliShort is a harbour whose alkali was 9 g short, found at a task, and is dissolved
// after all.
func alkaliShort(t *testing.T, at string) *bencher {
	t.Helper()
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", "170.1")
	b.workTo(t, at)
	b.decide(t, "sea/sodium hydroxide", batch.Shortfall)
	return b
}

// TestExtraAlkaliIsStirredClear: alkali that goes straight into the jug is not in it by
// being weighed. Until somebody has said that it is clear, a look into the jug expects it
// in its cup, it can come out again, and the lye solution does not meet the oils.
func TestExtraAlkaliIsStirredClear(t *testing.T) {
	const stirred = "sea/dissolve in the jug"
	b := alkaliShort(t, "sea/olive")
	b.workTo(t, missing)
	before := content(b, "lye jug 1").Expected
	more := b.task(t, missing)
	b.typed(t, missing, (more.Target + 3*g).At(more.Reads))
	if is := content(b, "lye jug 1").Expected; is != before {
		t.Errorf("the jug is expected at %v, before at %v", is, before)
	}
	if d, ok := deviationOf(b.plan(), missing); !ok || !strings.Contains(offered(b.plan().Ways(d)), "take out") {
		t.Errorf("%+v does not come out of its cup", d)
	}
	b.put(batch.Withdrawn{Seq: seqOf(t, b, missing), Reason: "read wrong"})
	b.asked(t, missing)
	stir := b.task(t, stirred)
	if stir.Do != work.Tick || !stir.Open || stir.Signal != "Stir clear" {
		t.Fatalf("%+v", stir)
	}
	if jug := b.task(t, seaJug2); jug.Open {
		t.Error("the jug is weighed before it is clear")
	}
	for _, fact := range []batch.Fact{batch.Ticked{Task: "sea/combine"}, batch.Skipped{Task: "sea/combine", Reason: "later"}} {
		b.refuses(t, fact, "")
	}
	b.workTo(t, stirred)
	b.refuses(t, batch.Skipped{Task: stirred, Reason: "no time"}, "cannot be left out")
	b.allows(t, batch.Ticked{Task: stirred})
	if is, want := content(b, "lye jug 1").Expected, before+b.task(t, missing).Mass; is != want {
		t.Errorf("the jug is expected at %v, not %v", is, want)
	}
	b.workTo(t, "sea/combine")
	if !b.task(t, stirred).Done {
		t.Error("the lye solution meets the oils before it is clear")
	}
}

// TestItHeatsAgain: a temperature that was read before extra alkali went in counts neither
// for the forecast nor for the gate.
func TestItHeatsAgain(t *testing.T) {
	b := alkaliShort(t, "sea/olive")
	b.typed(t, "sea/lye temperature", "40")
	b.workTo(t, "sea/dissolve in the jug")
	b.asked(t, "sea/dissolve in the jug")
	b.workTo(t, "sea/lye temperature")
	if hint := b.task(t, "sea/lye temperature").Hint; strings.Contains(hint, "40 °C") {
		t.Error(hint)
	}
}

// TestAlkaliAfterTheLyeIsStirredClear: alkali that is found short once the lye solution is
// in the oils is dissolved in a little water; that it is clear is said before the batter
// is blended on.
func TestAlkaliAfterTheLyeIsStirredClear(t *testing.T) {
	b := alkaliShort(t, "sea/trace/emulsion")
	b.workTo(t, missing)
	b.asked(t, missing)
	if trace := b.task(t, "sea/trace/emulsion"); trace.Open {
		t.Error("it is blended on without it")
	}
	if next, _ := b.plan().Next(b.moment()); next != "sea/dissolve late" || b.task(t, next).Signal != "Stir clear" {
		t.Errorf("then %s", next)
	}
	b.workTo(t, "sea/sea/gross")
}

// TestMetWithoutTheTick: a batch that went on without the tick, by earlier rules, is not
// asked for it.
func TestMetWithoutTheTick(t *testing.T) {
	b := alkaliShort(t, "sea/olive")
	b.workTo(t, "sea/dissolve in the jug")
	b.put(batch.Ticked{Task: "sea/combine"})
	if _, _, ok := b.plan().Task("sea/dissolve in the jug"); ok {
		t.Error("it is asked for")
	}
	late := alkaliShort(t, "sea/trace/emulsion")
	late.workTo(t, "sea/dissolve late")
	late.put(batch.Ticked{Task: "sea/trace/emulsion"})
	late.put(batch.Ticked{Task: "sea/trace/light"})
	if _, _, ok := steps.Of(late.state).Task("sea/dissolve late"); ok {
		t.Error("it is asked for late")
	}
}
