package batch

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
)

// Kind names the kind of a fact, as it is stored.
func Kind(f Fact) string {
	switch f.(type) {
	case Started:
		return "started"
	case Weighed:
		return "weighed"
	case Ticked:
		return "ticked"
	case Grossed:
		return "grossed"
	case TemperatureTaken:
		return "temperature-taken"
	case Skipped:
		return "skipped"
	case TimerSeen:
		return "timer-seen"
	case TimerPutOff:
		return "timer-put-off"
	case Noted:
		return "noted"
	case Corrected:
		return "corrected"
	case Withdrawn:
		return "withdrawn"
	case Closed:
		return "closed"
	case Stopped:
		return "stopped"
	case Decided:
		return "decided"
	case WarningSeen:
		return "warning-seen"
	case PotWeighed:
		return "pot-weighed"
	case PotAnswered:
		return "pot-answered"
	case VesselReplaced:
		return "vessel-replaced"
	case SharedAnswered:
		return "shared-answered"
	case GelLooked:
		return "gel-looked"
	case UnmouldPutOff:
		return "unmould-put-off"
	case BarsCut:
		return "bars-cut"
	case BarsWeighed:
		return "bars-weighed"
	case SetAside:
		return "set-aside"
	case Marked:
		return "marked"
	case WeighedIn:
		return "weighed-in"
	case Tested:
		return "tested"
	case Released:
		return "released"
	case Held:
		return "held"
	case Reworks:
		return "reworks"
	case LimitStated:
		return "limit-stated"
	case Complained:
		return "complained"
	case BarsWent:
		return "bars-went"
	}
	return "unknown"
}

// Encode gives the kind and the JSON body under which a fact is stored.
func Encode(f Fact) (kind string, body []byte, err error) {
	if c, ok := f.(Corrected); ok {
		return encodeCorrected(c)
	}
	body, err = json.Marshal(f)
	if err != nil {
		return "", nil, fmt.Errorf("encode %s: %w", Kind(f), err)
	}
	return Kind(f), body, nil
}

// correctedBody is how a correction is stored: the fact inside carries its kind.
type correctedBody struct {
	Seq    int
	Reason string
	Kind   string
	With   json.RawMessage
}

func encodeCorrected(c Corrected) (string, []byte, error) {
	kind, with, err := Encode(c.With)
	if err != nil {
		return "", nil, err
	}
	body, err := json.Marshal(correctedBody{c.Seq, c.Reason, kind, with})
	if err != nil {
		return "", nil, fmt.Errorf("encode corrected: %w", err)
	}
	return Kind(c), body, nil
}

// Decode is the inverse of Encode. A kind or a field that this program does not
// know is an error, because a fact half understood is worse than none.
func Decode(kind string, body []byte) (Fact, error) {
	switch kind {
	case "started":
		return decodeAs[Started](kind, body)
	case "weighed":
		return decodeAs[Weighed](kind, body)
	case "ticked":
		return decodeAs[Ticked](kind, body)
	case "grossed":
		return decodeAs[Grossed](kind, body)
	case "temperature-taken":
		return decodeAs[TemperatureTaken](kind, body)
	case "skipped":
		return decodeAs[Skipped](kind, body)
	case "timer-seen":
		return decodeAs[TimerSeen](kind, body)
	case "timer-put-off":
		return decodeAs[TimerPutOff](kind, body)
	case "noted":
		return decodeAs[Noted](kind, body)
	case "corrected":
		return decodeCorrected(body)
	case "withdrawn":
		return decodeAs[Withdrawn](kind, body)
	case "closed":
		return decodeAs[Closed](kind, body)
	case "stopped":
		return decodeAs[Stopped](kind, body)
	case "decided":
		return decodeAs[Decided](kind, body)
	case "warning-seen":
		return decodeAs[WarningSeen](kind, body)
	case "pot-weighed":
		return decodeAs[PotWeighed](kind, body)
	case "pot-answered":
		return decodeAs[PotAnswered](kind, body)
	case "vessel-replaced":
		return decodeAs[VesselReplaced](kind, body)
	case "shared-answered":
		return decodeAs[SharedAnswered](kind, body)
	case "gel-looked":
		return decodeAs[GelLooked](kind, body)
	case "unmould-put-off":
		return decodeAs[UnmouldPutOff](kind, body)
	case "bars-cut":
		return decodeAs[BarsCut](kind, body)
	case "bars-weighed":
		return decodeAs[BarsWeighed](kind, body)
	case "set-aside":
		return decodeAs[SetAside](kind, body)
	case "marked":
		return decodeAs[Marked](kind, body)
	case "weighed-in":
		return decodeAs[WeighedIn](kind, body)
	case "tested":
		return decodeAs[Tested](kind, body)
	case "released":
		return decodeAs[Released](kind, body)
	case "held":
		return decodeAs[Held](kind, body)
	case "reworks":
		return decodeAs[Reworks](kind, body)
	case "limit-stated":
		return decodeAs[LimitStated](kind, body)
	case "complained":
		return decodeAs[Complained](kind, body)
	case "bars-went":
		return decodeAs[BarsWent](kind, body)
	}
	return nil, fmt.Errorf("fact of unknown kind %q: it was written by a newer bench", kind)
}

func decodeAs[F Fact](kind string, body []byte) (Fact, error) {
	var f F
	if err := strictly(body, &f); err != nil {
		return nil, fmt.Errorf("decode %s: %w", kind, err)
	}
	return f, nil
}

func decodeCorrected(body []byte) (Fact, error) {
	var b correctedBody
	if err := strictly(body, &b); err != nil {
		return nil, fmt.Errorf("decode corrected: %w", err)
	}
	with, err := Decode(b.Kind, b.With)
	if err != nil {
		return nil, fmt.Errorf("decode corrected: %w", err)
	}
	if _, nested := with.(Corrected); nested {
		return nil, fmt.Errorf("decode corrected: a correction of a correction names the first fact instead")
	}
	return Corrected{Seq: b.Seq, Reason: b.Reason, With: with}, nil
}

// strictly decodes one JSON object and nothing else.
func strictly(body []byte, into any) error {
	if !bytes.HasPrefix(bytes.TrimLeft(body, " \t\r\n"), []byte("{")) {
		return fmt.Errorf("%.20q is not a JSON object", body)
	}
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if len(bytes.TrimSpace(body[d.InputOffset():])) > 0 {
		return errors.New("more follows after the JSON object")
	}
	return nil
}
