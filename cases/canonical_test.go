package cases

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

func TestCanonicalForm(t *testing.T) {
	if got := string(Canonical(mustPlan(t, samplePlan))); got != samplePlan {
		t.Errorf("got  %s\nwant %s", got, samplePlan)
	}
	spaced := strings.NewReplacer(`:`, " :\n\t", `,`, " , ", "1 :\n\t200000", "1:200000", `7.1`, `710e-2`, `"m`, `"\u006d`).Replace(samplePlan)
	if got := string(Canonical(mustPlan(t, strings.ReplaceAll(spaced, "1 :\n\t200000", "1:200000")))); got != samplePlan {
		t.Errorf("written otherwise: %s", got)
	}
	shuffled := `{"power_w":7,"case":"a/b","asked":[],"format":"leastwatt.plan/1"}`
	if got := string(Canonical(mustPlan(t, shuffled))); got != `{"format":"leastwatt.plan/1","case":"a/b","asked":[],"power_w":7}` {
		t.Errorf("keys in another order: %s", got)
	}
	plan := mustPlan(t, samplePlan)
	if !bytes.Equal(Canonical(plan), Canonical(*plan)) {
		t.Error("a plan and a pointer to it differ")
	}
}

func TestCanonicalPlanReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := drawPlan(t)
		form := Canonical(plan)
		back, err := ReadPlan("plan.json", form)
		if err != nil {
			t.Fatalf("%s\n%v", form, err)
		}
		if diff := cmp.Diff(plan, back); diff != "" {
			t.Fatalf("%s\n%s", form, diff)
		}
		if again := Canonical(back); !bytes.Equal(form, again) {
			t.Fatalf("%s\n%s", form, again)
		}
	})
}

func TestCanonicalPackReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pack := drawPack(t)
		form := Canonical(pack)
		back, _, sheet := ReadPack("pack.json", form)
		if back == nil {
			t.Fatalf("%s\n%v", form, sheet.Faults)
		}
		if diff := cmp.Diff(pack, back, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("%s\n%s", form, diff)
		}
		for i := range pack.Cases {
			if pack.Cases[i].Digest() != back.Cases[i].Digest() {
				t.Fatal("a case read back has another digest")
			}
		}
	})
}

// The digest does not see what a grade may not depend on.
func TestDigestIgnores(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase(t)
		before := c.Digest()
		c.Title = drawText(t, "title")
		c.Teaching = drawText(t, "teaching")
		c.Truth = Truth{drawText(t, "diagnosis"), drawText(t, "histology")}
		for i := range c.Expect {
			c.Expect[i].Reason = drawText(t, "reason")
		}
		if c.Digest() != before {
			t.Fatal("the digest sees title, teaching, truth or a reason")
		}
	})
}

// It sees every other field: each is changed in turn.
func TestDigestSeesTheRest(t *testing.T) {
	full := strings.Replace(samplePack, `"sex"`, `"height_cm": 160, "history": ["keloid"], "medicines": ["warfarin"], "allergies": ["latex"], "inr": 2.8, `+
		`"devices": [{"kind": "pump", "site": "abdomen", "distance_cm": 20}], "pregnant": true, "gestation_weeks": 20, "breastfeeding": true, "sex"`, 1)
	full = strings.Replace(full, `"metal_table": true`, `"metal_table": true, "unit": {"return": "plate", "max_w": 30, "step_w": 1}`, 1)
	full = strings.Replace(full, `"seed": 7`, `"seed": 7, "looks_like": "venous_lake", "side": "left", "count": 2, "features": ["soft"], "report": {"days_ago": 20, "specimen": "shave", "site": "chest", "side": "left", "says": "bcc_nodular", "margins": "clear"}`, 1)
	full = strings.Replace(full, `"teaching"`, `"expect": [{"rule": "a", "kind": "advice", "value": "x", "reason": "r"}], "teaching"`, 1)
	full = strings.Replace(full, `"diagnosis"`, `"histology": "h", "diagnosis"`, 1)
	pack, sheet := readPack(full)
	if pack == nil {
		t.Fatal(sheet.Faults)
	}
	c := &pack.Cases[0]
	unseen := map[string]bool{"title": true, "teaching": true, "truth.diagnosis": true, "truth.histology": true, "expect[].reason": true}
	before, changed := c.Digest(), 0
	eachLeaf(reflect.ValueOf(c).Elem(), "", func(path string, v reflect.Value) {
		old := reflect.New(v.Type()).Elem()
		old.Set(v)
		switch v.Kind() {
		case reflect.String:
			v.SetString(v.String() + "x")
		case reflect.Bool:
			v.SetBool(!v.Bool())
		case reflect.Map:
			v.Set(reflect.ValueOf(map[string]string{"metal": "other words"}))
		default:
			v.SetInt(v.Int() + 1)
		}
		if same := c.Digest() == before; same != unseen[path] {
			t.Errorf("%s: the digest stays the same: %t", path, same)
		}
		v.Set(old)
		changed++
	})
	if c.Digest() != before || changed < 50 {
		t.Errorf("%d fields were changed and put back", changed)
	}
}

// eachLeaf visits every value that a struct holds; nothing may be open.
func eachLeaf(v reflect.Value, path string, visit func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			eachLeaf(v.Field(i), join(path, keyOf(v.Type().Field(i))), visit)
		}
	case reflect.Pointer:
		eachLeaf(v.Elem(), path, visit)
	case reflect.Slice:
		eachLeaf(v.Index(0), path+"[]", visit)
	default:
		visit(path, v)
	}
}

// An absent list is an empty one.
func TestDigestOfAbsentLists(t *testing.T) {
	absent, _ := readPack(samplePack)
	empty, sheet := readPack(strings.Replace(strings.Replace(strings.Replace(samplePack, `"sex"`, `"history": [], "medicines": [], "allergies": [], "devices": [], "sex"`, 1),
		`"seed": 7`, `"seed": 7, "features": []`, 1), `"teaching"`, `"expect": [], "teaching"`, 1))
	if empty == nil {
		t.Fatal(sheet.Faults)
	}
	if absent.Cases[0].Digest() != empty.Cases[0].Digest() {
		t.Error("an empty list and an absent one give two digests")
	}
}

// The canonical form, written out by hand, is what the digest is taken of.
func TestDigestIsFixed(t *testing.T) {
	p, _ := readPack(samplePack)
	const form = `{"id":"ladder","level":1,"patient":{"age_years":44.5,"sex":"female","weight_kg":70,"skin_type":2,"pregnant":false,"breastfeeding":false},` +
		`"setting":{"oxygen_running":false,"metal_table":true,"smoke_evacuator":true,"bipolar_unit":false,"cautery_unit":false,"pathology_service":true},` +
		`"presenting":"It bled when I caught it.","ask":{"metal":"The couch has a steel rail."},` +
		`"lesion":{"family":"cherry_angioma","site":"chest","width_mm":3,"height_mm":1,"depth_mm":1,"seed":7},"truth":{}}`
	if got, want := p.Cases[0].Digest(), fmt.Sprintf("%x", sha256.Sum256([]byte(form))); got != want {
		t.Errorf("the digest is %s, not %s", got, want)
	}
}
