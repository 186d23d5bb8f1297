package main

import "listel/cmd/listel/job"

// planAll returns the plans of all, and shows how far they have come.
func (app App) planAll(all []job.ToPlan, cache job.Cache) ([]job.Plan, error) {
	bar := app.newProgress("planning set-ups", len(all))
	defer bar.end()
	return job.PlanAll(app.context(), all, cache, bar.at)
}
