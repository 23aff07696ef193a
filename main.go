// Leastwatt trains clinicians in minor office electrosurgery on invented
// patients. This file reads the command line and calls one function per verb;
// the clock, the random seed and identities are made here and passed down.
package main

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"github.com/alecthomas/kong"

	"leastwatt/cases"
	"leastwatt/game/sitting"
	"leastwatt/game/verb"
)

// commandLine is every verb and flag. The flags of the top are shared.
type commandLine struct {
	Packs  []string `help:"A pack, or a folder of packs. May be given more than once." placeholder:"DIR" sep:"none"`
	JSON   bool     `name:"json" help:"Print the result as JSON."`
	Labels string   `help:"Whose dose labels count: cautious, us or uk. Default: the pack's, else cautious." enum:",cautious,us,uk" default:""`
	Words  string   `help:"Spelling of prose: uk or us." enum:"uk,us" default:"uk"`

	Window windowVerb `cmd:"" default:"withargs" hidden:"" help:"Open the window."`
	Drill  struct {
		Data string `help:"Keep settings and drafts in this folder." placeholder:"DIR"`
	} `cmd:"" help:"Drill cases as plain text in the terminal."`
	List  struct{} `cmd:"" help:"List every case at hand, for supervisors."`
	Grade struct {
		Plan    string `arg:"" help:"The plan file." placeholder:"PLAN.json"`
		Session string `help:"The session that carried the plan out." placeholder:"S.json"`
	} `cmd:"" help:"Grade a plan."`
	Check struct {
		Pack string `arg:"" help:"A pack: folder, .zip or pack.json."`
	} `cmd:"" help:"Check a pack and solve its cases."`
	Dose   doseVerb `cmd:"" help:"Reckon the most of an anaesthetic a patient may have."`
	Tissue struct {
		Run string `arg:"" help:"The run file." placeholder:"RUN.json"`
	} `cmd:"" help:"Run the tissue model once, as a file says."`
	Rules struct {
		Audit bool `help:"Count the rows by subject, kind of source and certainty instead."`
	} `cmd:"" help:"Print every rule with its source."`
	Progress recordVerb `cmd:"" help:"Tell what the logbook shows and what is due."`
	Assess   recordVerb `cmd:"" help:"Take a self-assessment in the terminal; with --json print the results so far."`
	Export   struct {
		File string `arg:"" help:"The file to make." placeholder:"FILE"`
		Data string `help:"The folder of the logbook." placeholder:"DIR"`
	} `cmd:"" help:"Copy the logbook to one file."`
	Import struct {
		Files []string `arg:"" help:"Files that an export made." placeholder:"FILE"`
		Data  string   `help:"The folder of the logbook." placeholder:"DIR"`
	} `cmd:"" help:"Add copied logbooks to this one."`
}

// recordVerb reads the logbook of one learner.
type recordVerb struct {
	Data    string `help:"The folder of the logbook." placeholder:"DIR"`
	Learner string `help:"Whose attempts; left out means the one of the settings." placeholder:"CODE"`
}

type doseVerb struct {
	Agent      string   `required:"" help:"For example lidocaine."`
	Percent    string   `required:"" help:"Strength in percent."`
	Adrenaline string   `help:"1:N; left out means plain." placeholder:"1:N"`
	WeightKg   string   `required:"" help:"Body weight."`
	AgeYears   string   `help:"Age in years, decimals allowed; left out means adult."`
	VolumeMl   string   `help:"The planned volume."`
	With       []string `help:"Another agent given at the same visit." placeholder:"AGENT:PERCENT:1:N|plain:ML" sep:"none"`
}

// world is the clock and the source of chance, which nothing below this file
// reaches for by itself.
func world() sitting.World { return sitting.World{Now: time.Now, Random: rand.Reader} }

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// run is main with its streams as arguments; it returns the exit code.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	var cl commandLine
	leave := -1
	parser, err := kong.New(&cl,
		kong.Name("leastwatt"),
		kong.Description("Drill invented skin-lesion cases for minor office electrosurgery. It trains and does not certify."),
		kong.Writers(out, errs),
		kong.Exit(func(code int) { leave = code }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
	)
	if err != nil {
		fmt.Fprintln(errs, "leastwatt:", err)
		return verb.Usage
	}
	ctx, err := parser.Parse(args)
	if leave >= 0 {
		return leave // help was asked for
	}
	if err != nil {
		var parse *kong.ParseError
		if errors.As(err, &parse) {
			err = parse.Unwrap()
		}
		fmt.Fprintf(errs, "leastwatt: %v; leastwatt --help lists what there is\n", err)
		return verb.Usage
	}
	s := &verb.Shell{Out: out, Err: errs, JSON: cl.JSON, Packs: cl.Packs, Labels: cl.Labels, Words: cases.Words(cl.Words)}
	switch ctx.Command() {
	case "list":
		return verb.List(s)
	case "grade <plan>":
		return verb.Grade(s, cl.Grade.Plan, cl.Grade.Session)
	case "check <pack>":
		return verb.Check(s, cl.Check.Pack)
	case "tissue <run>":
		return verb.Tissue(s, cl.Tissue.Run, time.Now)
	case "rules":
		return verb.Rules(s, cl.Rules.Audit)
	case "dose":
		d := cl.Dose
		return verb.Dose(s, verb.DoseFlags{Agent: d.Agent, Percent: d.Percent, Adrenaline: d.Adrenaline, WeightKG: d.WeightKg, AgeYears: d.AgeYears, VolumeML: d.VolumeMl, With: d.With})
	case "progress":
		return sitting.Progress(s, cl.Progress.Data, cl.Progress.Learner, world())
	case "assess":
		return sitting.Assess(s, in, cl.Assess.Data, cl.Assess.Learner, world())
	case "export <file>":
		return verb.Export(s, cl.Export.Data, cl.Export.File)
	case "import <files>":
		return verb.Import(s, cl.Import.Data, cl.Import.Files)
	case "drill":
		return sitting.Drill(s, in, cl.Drill.Data, world())
	}
	return openWindow(s, in, &cl.Window)
}
