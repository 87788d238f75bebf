package steps

import (
	"fmt"
	"strings"

	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: facts name stages and tasks by their ids, so an id that was
// given once stays as it is for ever.

const (
	setOutID     = "set out" // setOutID is a stage.
	protectionID = "set out/protection"
	coverID      = "cover/cover"

	// MouldsID is the id of the moulds being lined.
	MouldsID = "set out/moulds"
)

// hydroxideID is the first task of the clean-up, and glovesID the last.
const (
	hydroxideID = "clean up/hydroxide"
	rinsedID    = "clean up/jugs"
	wipedID     = "clean up/wipe"
	glovesID    = "clean up/gloves"
)

func putAwayID(out string) string { return "clean up/put away/" + out }

// The stages of a batter that others wait for.

func lyeStageID(batter string) string     { return "lye/" + batter }
func oilStageID(batter string) string     { return "oils/" + batter }
func gateStageID(batter string) string    { return "gate/" + batter }
func combineStageID(batter string) string { return "combine/" + batter }
func traceStageID(batter string) string   { return "trace/" + batter }
func layersStageID(batter string) string  { return "layers/" + batter }

// materialID is the weighing of an oil by its key, of an alkali, water or an additive.
func materialID(batter, material string) string { return batter + "/" + material }

func jugID(batter string) string            { return batter + "/lye jug" }
func dissolvedJugID(batter string) string   { return jugID(batter) + "/dissolved" }
func partID(batter string) string           { return batter + "/lye part" }
func keepLyeID(batter string) string        { return batter + "/keep lye" }
func meltID(batter string) string           { return batter + "/melt" }
func moreMeltID(batter string) string       { return batter + "/more/melt" }
func lyeTemperatureID(batter string) string { return batter + "/lye temperature" }
func oilTemperatureID(batter string) string { return batter + "/oil temperature" }

// DissolveID is the id of the alkali going into the water.
func DissolveID(batter string) string { return batter + "/dissolve" }

// moreID is the id of the small solution going into the jug, straightID of extra alkali
// that is dissolved in it, and lateLyeID of some that goes into the batter.
func moreID(batter string) string     { return batter + "/dissolve more" }
func straightID(batter string) string { return batter + "/dissolve in the jug" }
func lateLyeID(batter string) string  { return batter + "/dissolve late" }

// Dissolving are the ticks that alkali of a batter is dissolved, at which it heats.
func Dissolving(batter string) []string {
	return []string{DissolveID(batter), moreID(batter), straightID(batter), lateLyeID(batter)}
}

// MeetID is the id of the tick that lye solution and oils may meet.
func MeetID(batter string) string { return batter + "/meet" }

// CombineID is the id of pouring the lye solution into the oils.
func CombineID(batter string) string { return batter + "/combine" }

func traceID(batter string, t recipe.Trace) string { return batter + "/trace/" + string(t) }

// ScentInID names the stirring of a layer's scent into its pot.
func ScentInID(batter, layer string) string { return batter + "/" + layer + "/scent in" }

// EmbedTask is the id of the task that brings an embed into a loaf, counted from
// 0, before its layer or after.
func EmbedTask(layer string, loaf int, embed string) string {
	return work.OfLoaf(layer, loaf) + "/" + embed
}

func embedsStayID(layer string) string { return layer + "/embeds stay" }
func firmID(layer string) string       { return layer + "/firm" }

// What a decision upon a weighing asks for; n counts the decisions.

func missingID(task string, n int) string { return task + "/missing" + nth(n) }
func outID(task string, n int) string     { return task + "/out" + nth(n) }
func topUpID(task string) string          { return task + "/top-up" }

// forID is an oil that is added for a weighing of the same batter.
func forID(batter, oil, task string, n int) string {
	return batter + "/" + oil + "/for " + strings.TrimPrefix(task, batter+"/") + nth(n)
}

// forItselfID is forID of an oil's own weighing.
func forItselfID(task, oil string, n int) string { return task + "/for " + oil + nth(n) }

// evenedID is what was decided n-th upon a portion.
func evenedID(portion string, n int) string { return portion + "/evened" + nth(n) }

// nth tells the tasks of one weighing's decisions apart.
func nth(i int) string {
	if i == 0 {
		return ""
	}
	return fmt.Sprintf(" (%d)", i+1)
}
