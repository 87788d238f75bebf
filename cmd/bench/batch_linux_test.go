package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/work"
)

// TestWholeBatch makes the two-batter batch from its recipe to the unmoulded
// loaves, with a slip of the hand, a correction and a closed lid on the way.
func TestWholeBatch(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")

	m.works("sea/sodium hydroxide")
	m.refusesToTickAlkali()
	m.works("sea/melt")
	m.corrects("sea/coconut", "215.8", "read the wrong line")
	m.works("sea/olive")
	m.types("352.3") // 8.0 g too much.
	m.works("sea/base/driftwood")
	// 3 % of 153.0 + 215.8 + 352.3 + 53.6 = 774.7 g, to the 0.01 g that the fine
	// scale reads to, is 23.24 g; as asked it was 22.95 g.
	m.Sees("tared 23.24")

	m = m.leavesAndReturns(20 * time.Minute)
	m.works("sea/base/gross")
	m.splits()
	m.works("")
	m.Sees("Nothing to do just now", "unmould 3 loaves")
	m.agrees()
	m.leaves()
	m.Restored()
	m.AskedNothing()

	late := program(t, home, "due", "--clock", dawn.Add(22*time.Hour).Format(time.RFC3339))
	said, _ := late.CombinedOutput()
	due := string(said)
	if code := late.ProcessState.ExitCode(); code != exitDue {
		t.Errorf("while something is due, bench due exits with %d", code)
	}
	writesCalendar(t, home)
	if !console.Holds(due, "260302A running unmould 3 loaves") || !console.Holds(due, "260302A due soon look at the gel") {
		t.Errorf("two hours too early, bench due says\n%s", due)
	}
	m = m.unmoulds(dawn.Add(26 * time.Hour))
	m.recorded()
	if due := printed(t, home, "due"); due != "no timers\n" {
		t.Errorf("after the end, bench due says %q", due)
	}
}

// writesCalendar has the days of the batch, twice the same.
func writesCalendar(t *testing.T, home string) {
	t.Helper()
	file := filepath.Join(home, "days.ics")
	printed(t, home, "calendar", file, "--replace")
	one, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(one), "UID:unmould.260302A.") || !strings.Contains(string(one), "UID:ready.260302A.") {
		t.Errorf("%v: %s", err, one)
	}
	printed(t, home, "calendar", file, "--replace")
	if two, _ := os.ReadFile(file); string(two) != string(one) {
		t.Errorf("the same facts gave another calendar:\n%s", two)
	}
}

func (m *maker) refusesToTickAlkali() {
	m.t.Helper()
	m.Send(neutral + " ")
	m.Sees("burns, so it is never ticked unseen")
	m.agrees()
}

// corrects gives the last weighing another value, with the reason.
func (m *maker) corrects(task, value, why string) {
	m.t.Helper()
	last := m.state.Entries[len(m.state.Entries)-1]
	if batch.Task(last.Fact) != task {
		m.t.Fatalf("the last fact is %+v", last.Fact)
	}
	f, err := judge.Correct(m.plan, m.state, last.Seq, value, why)
	if err != nil {
		m.t.Fatal(err)
	}
	m.Send("u")
	m.Sees("Record of batch 260302A", "sea: coconut oil 214.2 g", "enter correct this")
	m.rests()
	m.Send(enter + value + enter)
	m.Sees("new value "+value, "enter keep the correction")
	m.says(why+enter, f)
	m.rests()
	m.Sees("✓ coconut oil 215.8 asked 214.2")
}

// leavesAndReturns closes the program in the middle of a number and opens it
// again later.
func (m *maker) leavesAndReturns(later time.Duration) *maker {
	m.t.Helper()
	m.agrees()
	code := m.code
	last := m.state.Entries[len(m.state.Entries)-1]
	at := kept(m.t, m.home, code)[len(m.state.Entries)-1].At.Wall
	line := say.Fact(last, m.plan, m.state)
	next, _ := m.next()
	m.Send("1q")
	if code := m.Exit(); code != 0 {
		m.t.Fatalf("exit status %d", code)
	}
	m.Restored()

	m = sits(m.t, m.home, at.Add(later+time.Second)) // The flag takes whole seconds.
	m.Sees("▶ Lighthouse at dusk 260302A", start(line))
	m.Send(enter)
	m.Sees("Where you were", at.Format("15:04")+" "+start(line), "(20 min ago)",
		"▶ "+start(next.Title)+" "+asked(next)+" g", "enter goes on: so it is")
	return m.goesOn(code)
}

// splits types a pot that weighs less than planned; the portions follow.
func (m *maker) splits() {
	m.t.Helper()
	pot, _ := m.next()
	gross := pot.Target - 6*quantity.Gram
	m.types(gross.At(pot.Reads))
	net := gross - pot.Tare
	m.Sees("gross "+gross.At(pot.Reads), "= net "+net.At(pot.Reads))
	sum := quantity.Mass(0)
	_, stage, _ := m.plan.Task(pot.ID)
	for _, task := range stage.Tasks[1 : len(stage.Tasks)-1] { // The last reads them back.
		if task.Do != work.Portion {
			m.t.Fatalf("%s is no portion", task.Title)
		}
		sum += task.Target
		m.Sees(task.Target.At(task.Reads))
	}
	if left := net - sum; left != 20*quantity.Gram { // The workshop's "left in vessel".
		m.t.Errorf("the portions leave %s in the pot, not 20 g", left)
	}
	first, _ := m.next()
	m.types((first.StopAt + quantity.Gram).At(first.Reads)) // A gram too little went out.
}

// unmoulds opens the program when the loaves are due, takes note of each alarm,
// unmoulds and closes the batch.
func (m *maker) unmoulds(at time.Time) *maker {
	m.t.Helper()
	code := m.code
	m = sits(m.t, m.home, at)
	m.Sees("!!", "a seen")
	m.reopens(code)
	for _, id := range []string{"gel look/1", "gel look/3", "unmould"} {
		m.says(neutral+"a", batch.TimerSeen{Timer: id})
	}
	m.SeesNot("!!")
	for loaf := range 3 {
		m.Sees(fmt.Sprintf("│ Unmould loaf %d", loaf+1))
		task, _, _ := m.plan.Task(fmt.Sprintf("unmould/loaf %d", loaf+1))
		m.says(m.keysFor(task))
	}
	m.Sees("Lay the loaf on its side")
	m.Send("e")
	m.Sees("Abandon this batch?")
	m.rests()
	m.says("abandon given away uncut"+enter, batch.Closed{Reason: "given away uncut"})
	m.Sees("This batch is closed")
	m.agrees()
	m.leaves()
	return m
}

// recorded demands that the record, printed and beside the store, tells every
// fact in order.
func (m *maker) recorded() {
	m.t.Helper()
	record := printed(m.t, m.home, "record")
	beside, err := os.ReadFile(filepath.Join(m.home, "records", m.code+".txt"))
	if err != nil || string(beside) != record {
		m.t.Errorf("the copy beside the store is not the record: %v\n%s", err, beside)
	}
	rest := record
	for _, e := range m.state.Entries {
		line := "  " + say.Fact(e, m.plan, m.state) + "\n"
		_, after, found := strings.Cut(rest, line)
		if !found {
			m.t.Fatalf("the record does not say %q after no. %d:\n%s", line, e.Seq-1, record)
		}
		rest = after
	}
	for _, text := range []string{
		"olive oil 352.3 g, asked 344.3", "corrected no.", "was: sea: coconut oil 214.2 g; why: read the wrong line",
		"olive oil OO-1180 344.3", "352.3 typed", "coconut oil CO-0452 214.2", "215.8 typed", "batch ended early: given away uncut",
	} {
		if !console.Holds(record, text) {
			m.t.Errorf("the record does not say %q:\n%s", text, record)
		}
	}
}
