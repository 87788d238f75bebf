package steps_test

import (
	"fmt"
	"os"
	"testing"

	"bench/internal/batch"
	"bench/internal/steps"
)

func TestDump(t *testing.T) {
	if os.Getenv("DUMP") == "" {
		t.Skip()
	}
	c := harbour()
	p := steps.Of(batch.State{Control: c})
	for _, b := range p.Batters {
		fmt.Printf("%+v\n", b)
	}
	for _, l := range p.Layers {
		fmt.Printf("%+v\n", l)
	}
	dump(p)
	b := begin(c)
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	fmt.Println("=== worked")
	dump(b.plan())
	for _, e := range b.state.Entries {
		fmt.Println(e.Seq, e.At.Wall.Format("15:04:05"), b.plan().Say(e, b.state))
	}
	for _, tm := range b.plan().Timers {
		fmt.Println(tm.ID, tm.Label, tm.Say(b.moment()))
	}
}

func dump(p steps.Plan) {
	for _, s := range p.Stages {
		fmt.Printf("%d %s [%s] %s meanwhile=%v after=%v blocked=%q\n   why: %s\n   rb: %s\n", s.N, s.ID, s.Kind, s.Title, s.Meanwhile, s.After, s.Blocked, s.Why, s.ReadBack)
		for _, t := range s.Tasks {
			fmt.Printf("   - %s | %s | %s | target %v ±%v [%s reads %v max %v parts %d] vessel %s tare %v sofar %v into %s stop %v | hint: %s\n", t.ID, t.Do, t.Title, t.Target, t.Tolerance, t.Scale, t.Reads, t.Max, t.Parts, t.Vessel, t.Tare, t.SoFar, t.Into, t.StopAt, t.Hint)
		}
	}
}
