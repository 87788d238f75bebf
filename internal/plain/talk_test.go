package plain

import (
	"errors"
	"io"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/memory"
	"bench/internal/recipe"
	"bench/internal/sample"

	"pgregory.net/rapid"
)

// TestAlarms says what has fallen due before the next prompt, and while it waits
// for a line; one word answers one alarm.
func TestAlarms(t *testing.T) {
	k := talks(t, memory.New()).starts().works("dusk/shea").says("t").hears("look at base: do embeds stay put?, in ", "since 09:")
	k.says("a").hears("No alarm is due").waits(6 * time.Minute)
	k.from = len(k.all())
	k.wakes()
	k.listens()
	k.hears("! ALARM: look at base: do embeds", "shea butter, g> ").says("").hearsNot("ALARM")
	k.says("z soon").hears("5, 10 or 30 minutes").says("z 12").hears("5, 10 or 30 minutes").says("z 10")
	if f, ok := k.last().(batch.TimerPutOff); !ok || f.For != 10*time.Minute {
		t.Errorf("kept %+v", k.last())
	}
	k.waits(11 * time.Minute).says("n back").hears("ALARM: look at base").says("seen")
	if f, ok := k.last().(batch.TimerSeen); !ok || !strings.Contains(f.Timer, "base") {
		t.Errorf("kept %+v", k.last())
	}
}

// TestAlarmIsReadFirst: a word that was typed before the alarm was said answers it
// not.
func TestAlarmIsReadFirst(t *testing.T) {
	k := talks(t, memory.New()).starts().works("dusk/shea").waits(6 * time.Minute)
	before := len(k.store.Entries[code]) - 1
	k.says("a").hears("No alarm is due", "ALARM: look at base").recorded(before).says("a").recorded(before + 1)
}

// TestWaitingIsOver: a task that falls due is asked for without a line.
func TestWaitingIsOver(t *testing.T) {
	k := talks(t, memory.New()).starts().works("").waits(61 * time.Minute)
	k.from = len(k.all())
	k.wakes()
	k.listens()
	k.hears("ALARM: look at the gel", "Look at the gel after 1 h", "number of the answer> ")
}

// TestTwoBatches goes to the other batch, and answers an alarm of the one that is
// not on the bench.
func TestTwoBatches(t *testing.T) {
	k := talks(t, memory.New()).starts().says("o").hears("No other batch").works("dusk/shea").says("h").hears("26K25A  Lighthouse at dusk: oils")
	k.says("3", "2", "start").hears("Begun: batch 26K25B").waits(6 * time.Minute).says("").hears("ALARM: 26K25A: look at base")
	k.says("a").hears("Kept, 26K25A: ")
	if _, ok := k.last().(batch.TimerSeen); !ok || k.store.Held["26K25A"] {
		t.Errorf("kept %+v; held %v", k.last(), k.store.Held)
	}
	k.says("o").hears("Batch 26K25A", "Where you were", "LAST ", "NEXT oils · dusk: shea butter", "Now on bench scale: small pot")
	if !k.store.Held["26K25A"] || k.store.Held["26K25B"] {
		t.Errorf("held: %v", k.store.Held)
	}
	k.store.HeldBy["26K25B"] = "process 12 has it open"
	k.says("h").hears("! process 12 has it open").says("2").hears("was not opened", "Reading along").says("1").hears("Where you were")
}

// TestOtherBatchAsks: where nothing is to be done, what another batch asks for is said, and
// the word that goes there.
func TestOtherBatchAsks(t *testing.T) {
	k := talks(t, memory.New()).starts().works("").hears("Nothing to do just now").hearsNot("BUT batch")
	k.says("h", "2", "start").hears("Begun: batch 26K25B").says("o")
	k.hears("NEXT nothing to do just now", "BUT batch 26K25B, Lighthouse at dusk: now, ", "other (o) goes there")
}

// TestEndOfInput leaves the batch open and held by nobody. A line without its end
// is not taken: whoever typed it was not done.
func TestEndOfInput(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/olive")
	before := len(k.store.Entries[code]) - 1
	if _, err := io.WriteString(k.in, "344.3"); err != nil {
		t.Fatal(err)
	}
	_ = k.in.Close()
	if err := k.ends(); err != nil || len(k.store.Held) > 0 {
		t.Errorf("%v, held %v", err, k.store.Held)
	}
	k.recorded(before).hears("stays open")
	talks(t, k.store).hears("26K25A").says("1").hears("Where you were", "LAST 09:00 sea: Warm", "NEXT oils · sea: olive oil, 344.3 g").says("").hears("olive oil: 344.3 g")
}

// TestStops ends at a signal, and where nobody can read any more.
func TestStops(t *testing.T) {
	k := talks(t, memory.New()).starts()
	close(k.stop)
	if err := k.ends(); err != nil || len(k.store.Held) > 0 {
		t.Errorf("%v, held %v", err, k.store.Held)
	}
	k = talks(t, memory.New()).starts()
	k.mu.Lock()
	k.fail = errors.New("broken pipe")
	k.mu.Unlock()
	go func() { _, _ = io.WriteString(k.in, "l\n") }()
	if err := k.ends(); err == nil || len(k.store.Held) > 0 {
		t.Errorf("%v, held %v", err, k.store.Held)
	}
}

// TestEveryPromptSaysPractice marks every prompt of a practice, and shows its
// speed.
func TestEveryPromptSaysPractice(t *testing.T) {
	speed := 1
	k := talks(t, memory.New(), func(d *Deps) {
		d.Practice = front.Practice{Speed: func() int { return speed }, Turn: func() { speed = 60 }}
	})
	k.hears("This is practice: nothing of it is kept", "clock as usual").hearsNot("bench --practice")
	k.starts().works("sea/olive").says("speed").hears("clock 60 times as fast").says("n", "wet spoon", "u", "", "w", "", "q")
	for line := range strings.Lines(k.all()) {
		if at := strings.LastIndex(line, "> "); at > 0 && !strings.HasPrefix(line, "practice, ") {
			t.Errorf("a prompt without the mark: %q", line)
		}
	}
}

// TestList writes what there is, and asks nothing.
func TestList(t *testing.T) {
	k := talks(t, memory.New()).starts().works("dusk/shea").says("q")
	var out strings.Builder
	err := List(Deps{
		In: strings.NewReader("1\nstart\n"), Out: &out, Location: time.UTC, Now: k.moment, Store: k.store,
		Recipes: func() []front.RecipeItem { return sample.Recipes(t) },
	})
	if err != nil || !strings.Contains(out.String(), "26K25A") || !strings.Contains(out.String(), "do embeds stay put?, in ") || strings.Contains(out.String(), "> ") {
		t.Errorf("%v:\n%s", err, out.String())
	}
}

// TestOnlyText: whatever is typed and whatever the names are, what is written is
// printable text and ends of lines, and a fact is kept only where it was said to
// be.
func TestOnlyText(t *testing.T) {
	hostile := []string{"\x1b[2J", "\u202egull", "\a", "na\x00me", "\xff\xfe", "e\u0301\u200d🌊", "a\rb\tc", "\u0085\u2028"}
	lines := []string{
		"", "1", "2", "3", "start", "=", "done", "b", "b 3", "x", "x why", "u", "u 3", "d", "w", "s", "c", "k", "l", "g", "g 3", "g 4.2", "n", "y", "why all", "p", "r", "e",
		"abandon it", "h", "o", "t", "a", "z", "z 5", "!", "?", "12", "344.3", "216.2", "1e9", "-4", "0.1+", "again", "drop", "read", strings.Repeat("9", 5000),
	}
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.SampledFrom(hostile).Draw(rt, "name")
		k := talks(t, memory.New(), func(d *Deps) {
			d.Width = rapid.SampledFrom([]int{0, 40, 79}).Draw(rt, "width")
			d.Recipes = func() []front.RecipeItem {
				items := sample.Recipes(t)
				inner := items[0].Resolve
				items[0].Name, items[0].About = name, name
				items[0].Resolve = func(n int) (recipe.Control, []string) {
					c, problems := inner(n)
					c.Recipe.Name = name
					return c, problems
				}
				return append(items, front.RecipeItem{Name: name, Problems: []string{name}})
			}
		})
		if rapid.Bool().Draw(rt, "begun") {
			k.starts().says(rapid.SliceOfN(rapid.Just("="), 0, 40).Draw(rt, "done")...)
		}
		for _, l := range rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(lines), rapid.SampledFrom(hostile)), 1, 60).Draw(rt, "lines") {
			before := k.facts()
			k.says(strings.ReplaceAll(l, "\n", " "))
			if kept := strings.Count(k.heard(), "Kept") + strings.Count(k.heard(), "Begun: "); kept != k.facts()-before {
				rt.Fatalf("%q: %d facts were kept, and %d were said:\n%s", l, k.facts()-before, kept, k.heard())
			}
			k.waits(time.Minute)
		}
		_ = k.in.Close()
		if err := k.ends(); err != nil {
			rt.Fatal(err)
		}
		out := k.all()
		if !utf8.ValidString(out) {
			rt.Fatalf("not UTF-8: %q", out)
		}
		for _, r := range out {
			if r != '\n' && !unicode.IsPrint(r) {
				rt.Fatalf("%U was written: %q", r, out)
			}
		}
	})
}

// facts counts all that was kept.
func (k *talker) facts() int {
	n := 0
	for _, e := range k.store.Entries {
		n += len(e)
	}
	return n
}

// TestASlipAtTheLoaves brings no plan again, and says how many there can be.
func TestASlipAtTheLoaves(t *testing.T) {
	k := talks(t, memory.New()).says("1").hears("start, another number of loaves")
	k.says("two").hears("a number of loaves from 1 to 99").hearsNot("Lighthouse at dusk")
	k.says("999").hears("from 1 to 99").hearsNot("Lighthouse at dusk").says("2").hears("Lighthouse at dusk", "2 loaves")
}

// TestUnguarded: that gloves and goggles were left out is said at every task.
func TestUnguarded(t *testing.T) {
	k := talks(t, memory.New()).starts().says("x at hand").works("sea/sodium hydroxide")
	k.says("l", "g").hears("left out (at hand), and lye burns")
}
