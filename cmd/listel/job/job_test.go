package job_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
)

// A case takes the text of a profile that is not saved yet, and tells its mistakes with those of the case.
func TestCaseOverUnsavedProfile(t *testing.T) {
	text, _, err := library.Open("", "").Text(library.KindProfile, "press-base")
	require.NoError(t, err)
	press, _, err := library.Open("", "").Text(library.KindCase, library.ExampleName)
	require.NoError(t, err)
	lib := library.OpenOver(nil, "", "", map[string]string{"press-base": string(text) + "title: again\n"})
	_, err = job.LoadCase(lib, "press.yaml", string(press))
	var mistakes library.Mistakes
	require.ErrorAs(t, err, &mistakes)
	require.Equal(t, "press-base.yaml", mistakes[0].File)

	c, err := job.LoadCase(library.OpenOver(nil, "", "", map[string]string{"press-base": string(text)}), "press.yaml", string(press))
	require.NoError(t, err)
	require.Equal(t, library.Project, c.Profiles["press-base"].Origin.Where)
	example, err := job.Example()
	require.NoError(t, err)
	require.Equal(t, example.Result.Moldings, c.Result.Moldings)
}

// A choice that cannot be names the option that it was made with.
func TestChoices(t *testing.T) {
	_, err := job.Lengths("furlong", 64, measure.Inches)
	var choice *job.ChoiceError
	require.ErrorAs(t, err, &choice)
	require.Equal(t, "units", choice.Name)
	_, err = job.Lengths("", 7, measure.Inches)
	require.ErrorContains(t, err, "fraction 7; it must be")
	_, err = job.Shop{Work: "machine", Effort: "usual", Allowance: "9mm"}.Options(measure.Inches)
	require.ErrorContains(t, err, "allowance 9mm; it must be from 0.3 mm to 5 mm")
	for name, says := range map[string]string{"napkin": "known are A0, A1", "lettr": "unknown paper \"lettr\"; Letter?", "ansi-b4": "ANSI B?", "Arch-F": "Arch A?"} {
		_, err = job.Paper{Name: name}.Style(library.Open("", ""), "", measure.Format{}, "")
		require.ErrorAs(t, err, &choice)
		require.Equal(t, "paper", choice.Name)
		require.ErrorContains(t, err, says)
	}
}

// A search that is stopped from outside ends with the stop, and says nothing of plans.
func TestPlanAllStopped(t *testing.T) {
	lib := library.Open("", "")
	p, err := job.FindProfile(lib, "press-cornice")
	require.NoError(t, err)
	p, err = p.Built()
	require.NoError(t, err)
	tools, err := job.Tools(lib, "", measure.Inches)
	require.NoError(t, err)
	options, err := job.Shop{Work: "machine", Effort: "usual"}.Options(measure.Inches)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	stop()
	plans, err := job.PlanAll(ctx, []job.ToPlan{{Section: p.Section, Tools: tools, Options: options}}, nil, nil)
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, plans)
}
