package serve_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"listel/library"
)

// pressFiles is a folder with the example case, its profiles left to the library.
func pressFiles(t testing.TB) map[string]string {
	t.Helper()
	text, _, err := library.Open("", "").Text(library.KindCase, library.ExampleName)
	require.NoError(t, err)
	return map[string]string{"herb-press.yaml": string(text)}
}

// openCase opens the case view on the press.
func openCase(t *testing.T, l look) *tab {
	t.Helper()
	b := openTab(t, pressFiles(t), l)
	b.click("#to-case")
	b.click("#case-start-open")
	b.click("dialog .files button")
	b.until(`document.querySelectorAll(".moldings .member").length === 5`)
	return b
}

// row returns the cells of the piece of that mark.
func (b *tab) row(mark string) []string {
	b.t.Helper()
	b.until(`document.querySelector(".pieces [data-mark='` + mark + `']")`)
	return b.all(".pieces [data-mark='" + mark + "'] > *")
}

// A molding is picked from the drawing, and its pieces are told as the miter command tells them.
func TestCasePickMolding(t *testing.T) {
	b := openCase(t, desk)
	// The middle of the base in the front view.
	at := value[[]float64](b, `(() => { const r = document.querySelector('#view-case .view-front [data-molding="base"][data-run="front"]').getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2]; })()`)
	b.do(chromedp.MouseClickXY(at[0], at[1]))
	b.until(`document.querySelector('.moldings [data-molding="base"]').getAttribute("aria-pressed") === "true"`)
	require.Equal(t, "Base: pieces to cut", b.all(".pieces h2")[0])
	require.Equal(t, []string{"B1", "1", "left", "left", "18", "18 7/8", "18", "20 7/8", "square", "miter 45.0°"}, b.row("B1"))
	require.Contains(t, strings.Join(b.all(".at-saw dd"), "\n"), "keep what lies")
	// By keys: down from the cornice to the waist.
	value[bool](b, `(() => { document.querySelector('.moldings [data-molding="cornice"]').focus(); return true; })()`)
	b.key(kb.ArrowDown)
	b.key(kb.ArrowDown)
	b.key(kb.Enter)
	b.until(`document.querySelector(".pieces h2").textContent.startsWith("Waist")`)
	require.Equal(t, "tenon 1 in", b.row("W4")[8])
	require.True(t, value[bool](b, `document.activeElement.dataset.molding === "waist"`))
}

// The width of the case is changed in its field: the pieces, the drawing and the text follow, the upper stage goes with it, and undo takes
// all of it back.
func TestCaseWidth(t *testing.T) {
	b := openCase(t, desk)
	b.click(`.moldings [data-molding="base"]`)
	require.Equal(t, []string{"B2", "1", "front", "none", "42", "43 3/4", "42", "45 3/4", "miter 45.0°", "miter 45.0°"}, b.row("B2"))
	b.enter(`[data-path="stages[0].plan.width"] input`, "44 1/4")
	b.until(`document.querySelector(".pieces [data-mark='B2']").textContent.includes("44 1/4")`)
	require.Equal(t, "44 1/4", b.row("B2")[4])
	require.Equal(t, "41 1/4", value[string](b, `document.querySelector('[data-path="stages[1].plan.width"] input').value`))
	b.until(`[...document.querySelectorAll("#view-case .over [data-text]")].some((n) => n.dataset.text === "44 1/4 in")`)
	b.click("#undo")
	b.until(`document.querySelector(".pieces [data-mark='B2']").textContent.includes("43 3/4")`)
	require.Equal(t, "39", value[string](b, `document.querySelector('[data-path="stages[1].plan.width"] input').value`))
	b.click("#redo")
	b.until(`document.querySelector(".pieces [data-mark='B2']").textContent.includes("44 1/4")`)
	b.click("#save")
	b.state("saved")
	want := pressFiles(t)["herb-press.yaml"]
	want = strings.Replace(want, "width: 42", "width: 44 1/4", 1)
	want = strings.Replace(want, "width: 39", "width: 41 1/4", 1)
	require.Equal(t, want, b.read("herb-press.yaml"))
}

// A mistake in the text stands at its line in the words of check; the last good drawing stays, and a right text takes it away.
func TestCaseTextMistake(t *testing.T) {
	b := openCase(t, desk)
	shapes := value[int](b, `document.querySelectorAll("#view-case .sheet path").length`)
	require.Greater(t, shapes, 100)
	b.click("#case-text")
	set := func(from, to string) {
		value[bool](b, `(() => { const a = document.querySelector("#case-area"); a.value = a.value.replace(`+js(from)+`, `+js(to)+`);
			a.dispatchEvent(new Event("input")); return true; })()`)
	}
	before, _, _ := strings.Cut(pressFiles(t)["herb-press.yaml"], "at: 46")
	line := fmt.Sprint(strings.Count(before, "\n") + 1)
	set("at: 46", "att: 46")
	b.until(`document.querySelector("#view-case .faults .bad")`)
	require.Contains(t, strings.Join(b.all("#view-case .faults .bad"), "\n"), "line "+line+`: unknown key "att" in molding shelf; at?`)
	require.Equal(t, []string{line}, b.all("#view-case .line-numbers .bad")[len(b.all("#view-case .line-numbers .bad"))-1:])
	require.Equal(t, shapes, value[int](b, `document.querySelectorAll("#view-case .sheet path").length`))
	require.True(t, value[bool](b, `document.querySelector("#view-case .desk").classList.contains("is-stale")`))
	set("att: 46", "at: 46")
	b.until(`!document.querySelector("#view-case .faults .bad")`)
	require.False(t, value[bool](b, `document.querySelector("#view-case .desk").classList.contains("is-stale")`))
}

// The waist's profile is edited in the Section view; the case takes the text that is not saved yet.
func TestCaseTakesEditedSection(t *testing.T) {
	b := openCase(t, desk)
	b.click(`.moldings [data-molding="base"]`)
	require.Equal(t, "43 3/4", b.row("B2")[5])
	b.click("#edit-section")
	b.until(`document.querySelector("#view-section:not([hidden]) .members li")`)
	b.enter(`#view-section [data-path="ground"] input`, "1")
	b.state("not saved yet")
	b.click("#to-case")
	b.until(`document.querySelector(".pieces [data-mark='B2']")?.children[5].textContent === "44"`)
	require.Equal(t, "44", b.row("B2")[5]) // 7/8 in before, and 1/8 in more on both sides
	require.Equal(t, pressFiles(t)["herb-press.yaml"], b.read("herb-press.yaml"))
}

// A molding is chosen from the library and put on the case, given its height and a name, and taken off again; undo goes back all the way.
func TestCaseAddMolding(t *testing.T) {
	b := openCase(t, desk)
	b.click("#case-add")
	b.click(`dialog [data-name="press-shelf-bead"]`)
	b.until(`document.querySelectorAll(".moldings .member").length === 6`)
	b.until(`document.activeElement.closest('[data-path="moldings[4].at"]')`)
	b.enter(`[data-path="moldings[4].at"] input`, "4 1/4") // between the base and the drawers
	b.until(`document.querySelector('.moldings [data-molding="molding"]').textContent.includes("4 1/4 in")`)
	b.enter(`[data-path="moldings[4].name"] input`, "belt")
	b.until(`document.querySelector('.moldings [data-molding="belt"]')?.getAttribute("aria-pressed") === "true"`)
	require.Equal(t, "Belt: pieces to cut", b.all(".pieces h2")[0])
	b.click("#case-remove")
	b.until(`document.querySelectorAll(".moldings .member").length === 5`)
	for range 4 {
		b.click("#undo")
	}
	b.until(`document.querySelector("#undo").disabled`)
	b.until(`document.querySelectorAll(".moldings .member").length === 5`)
	require.Equal(t, "saved", b.all("#file-state")[0])
}

// A molding takes another profile by its look; a field that is emptied keeps what it had, and a wrong name is told without a word of lines or
// commands.
func TestCaseProfileByItsLook(t *testing.T) {
	b := openCase(t, desk)
	b.click(`.moldings [data-molding="cornice"]`)
	b.click(`[data-path="moldings[2].profile"] .choose-profile`)
	b.click(`dialog [data-name="press-base"]`)
	b.until(`document.querySelector('[data-path="moldings[2].profile"] input').value === "press-base"`)
	b.click("#undo")
	b.until(`document.querySelector('[data-path="moldings[2].profile"] input').value === "press-cornice"`)
	b.enter(`[data-path="moldings[2].profile"] input`, "")
	b.until(`document.querySelector("#notes").textContent.includes("It needs a profile")`)
	b.until(`document.querySelector('[data-path="moldings[2].profile"] input').value === "press-cornice"`)
	b.enter(`[data-path="moldings[2].profile"] input`, "nonesuch")
	b.until(`!document.querySelector("#view-case .stale").hidden`)
	said := strings.Join(append(b.all("#view-case .faults .bad"), b.all("#view-case .stale, #view-case .mistake")...), "\n")
	require.Contains(t, said, `no profile named "nonesuch"`)
	require.NotContains(t, said, "line ")
	require.NotContains(t, said, "library list")
}

// A cornice that stops short of the top says by how much, and one press brings it level.
func TestCaseLevelButton(t *testing.T) {
	b := openCase(t, desk)
	b.click(`.moldings [data-molding="cornice"]`)
	b.enter(`[data-path="moldings[2].at"] input`, "59")
	b.until(`document.querySelector(".level").textContent.includes("It ends 1 1/4 in below the top of its stage.")`)
	b.click("#case-level")
	b.until(`document.querySelector('[data-path="moldings[2].at"] input').value === "60 1/4"`)
	b.until(`document.querySelector(".level").hidden`)
}

// The title stands over the rail and is changed there; the file has it in quotes where YAML needs them.
func TestCaseTitleIsAHeading(t *testing.T) {
	b := openCase(t, desk)
	value[bool](b, `(() => { const n = document.querySelector(".case-title textarea"); n.focus(); n.select(); return true; })()`)
	b.key("Press: for the pantry")
	b.key(kb.Tab)
	b.until(`document.querySelector("#file-state").textContent === "changed" && document.querySelector(".case-title textarea").value === "Press: for the pantry"`)
	b.click("#save")
	b.state("saved")
	require.Contains(t, b.read("herb-press.yaml"), "title: 'Press: for the pantry'\n")
}

// Narrowed to 30 in, no size of the front, the ends and the section runs into the plan, at the desk and on a tablet.
func TestCaseNarrowViewsStayApart(t *testing.T) {
	for _, l := range []look{desk, {width: 1024, height: 768, touch: true}} {
		b := openCase(t, l)
		b.enter(`[data-path="stages[0].plan.width"] input`, "30")
		b.until(`[...document.querySelectorAll("#view-case .over [data-text]")].some((n) => n.dataset.text === "30 in")`)
		b.click("#case-view-all")
		require.Equal(t, []string{}, value[[]string](b, `(() => {
			const plan = document.querySelector("#view-case .view-plan").getBoundingClientRect();
			return [...document.querySelectorAll("#view-case .over [data-text]")].filter((n) => {
				const r = n.getBoundingClientRect();
				return r.right > plan.left && r.left < plan.right && r.bottom > plan.top && r.top < plan.bottom;
			}).map((n) => n.dataset.text);
		})()`), l)
	}
}

// The settings of a sprung cornice are never cut: the table of its pieces fits its place, at the desk and on a tablet.
func TestCasePiecesAreNotCut(t *testing.T) {
	for _, l := range []look{desk, {width: 1024, height: 768, touch: true}} {
		b := openCase(t, l)
		b.click(`.moldings [data-molding="cornice"]`)
		require.Contains(t, b.row("C2")[9], "bevel 33.86°")
		require.True(t, value[bool](b, `(() => { const n = document.querySelector(".pieces .wide-table"); return n.scrollWidth <= n.clientWidth; })()`), l)
	}
}

// Closer shows the piece that is chosen: the front run where it is cut, the left run on the plan, each within the board; the ruling of cut
// wood stays as fine as it is.
func TestCaseCloserShowsThePiece(t *testing.T) {
	b := openCase(t, desk)
	b.click(`.moldings [data-molding="base"]`)
	ruling := func() float64 {
		return value[float64](b, `(() => { const m = document.querySelector("#cut-wood").patternTransform.baseVal.consolidate().matrix;
			const k = document.querySelector("#view-case .sheet").getScreenCTM().a; return 7 * Math.hypot(m.a, m.b) * k; })()`)
	}
	before := ruling()
	for mark, view := range map[string]string{"B1": "plan", "B2": "section"} {
		b.click(`.pieces [data-mark="` + mark + `"] button`)
		b.click("#case-closer")
		require.Equal(t, view, value[string](b, `document.querySelector("#view-case svg.paper").dataset.only`))
		require.True(t, value[bool](b, `(() => {
			const board = document.querySelector("#view-case .board").getBoundingClientRect();
			const shown = [...document.querySelectorAll("#view-case .sheet .chosen")].map((n) => n.getBoundingClientRect()).filter((r) => r.width > 0);
			return shown.length > 0 && shown.some((r) => r.left >= board.left && r.right <= board.right && r.top >= board.top && r.bottom <= board.bottom && Math.max(r.width, r.height) > 150);
		})()`), mark)
		require.InDelta(t, before, ruling(), 0.01)
	}
}

// A plain case is begun, fits at once and is level with its cornice, in inches as in millimeters.
func TestCaseBeginPlain(t *testing.T) {
	for _, units := range []string{"in", "mm"} {
		b := openTab(t, nil, desk)
		value[bool](b, `(() => { document.cookie = "listel-prefs=" + encodeURIComponent('{"units":"`+units+`"}') + "; path=/"; return true; })()`)
		b.reload()
		b.click("#to-case")
		b.until(`document.querySelector("#case-start-plain .case-thumb")`)
		b.click("#case-start-plain")
		b.until(`document.querySelectorAll(".moldings .member").length === 2`)
		b.click(`.moldings [data-molding="cornice"]`)
		b.until(`document.querySelector(".level")?.hidden`)
		require.Empty(t, b.all("#view-case .faults .bad"))
		b.click("#case-text")
		require.Contains(t, value[string](b, `document.querySelector("#case-area").value`), "units: "+units+"\n")
	}
}

// With a case open, axe-core finds no serious fault in the case and in its sheets: at the desk, dark, and on a tablet.
func TestCaseAxe(t *testing.T) {
	script := axe(t)
	for _, l := range []look{desk, {width: 1280, height: 800, dark: true}, {width: 1024, height: 768, touch: true}} {
		b := openCase(t, l)
		b.click(`.moldings [data-molding="waist"]`)
		b.row("W1")
		require.Empty(t, b.judge(script), "a molding chosen")
		b.click("#case-text")
		value[bool](b, `(() => { const a = document.querySelector("#case-area"); a.value = a.value.replace("at: 46", "att: 46"); a.dispatchEvent(new Event("input")); return true; })()`)
		b.until(`document.querySelector("#view-case .faults .bad")`)
		require.Empty(t, b.judge(script), "the text with a mistake")
		b.click("#undo")
		b.click("#to-sheets")
		b.until(`document.querySelectorAll(".sheet-list li").length > 40`)
		require.Empty(t, b.judge(script), "the sheets")
	}
}

// What is refused as it was typed is no step: undo goes to what stood before it, and a right entry after it takes its place.
func TestCaseRefusedIsNoStep(t *testing.T) {
	b := openCase(t, desk)
	const width = `[data-path="stages[0].plan.width"] input`
	field := `document.querySelector('` + width + `').value`
	b.enter(width, "forty")
	b.until(`!document.querySelector("#view-case .stale").hidden`)
	b.enter(width, "44")
	b.until(`document.querySelector("#view-case .stale").hidden && ` + field + ` === "44"`)
	b.click("#undo")
	b.until(field + ` === "42" && document.getElementById("undo").disabled && document.querySelector("#view-case .stale").hidden`)
	b.click("#redo")
	b.until(field + ` === "44" && document.getElementById("redo").disabled`)
}

// The edges that a molding goes along are ticked, those of its own stage's plan; one at least stays. A spline begins with the size that is typed, is told
// to be stopped, and goes with it.
func TestCaseEdgesAndJoint(t *testing.T) {
	b := openCase(t, desk)
	b.click(`.moldings [data-molding="base"]`)
	const runs = `[data-path="moldings[0].runs"]`
	b.until(`document.querySelector('` + runs + `')`)
	require.Equal(t, []string{"left", "front", "right"}, b.all(runs+" label"))
	box := func(edge string) string { return runs + ` input[value="` + edge + `"]` }
	b.click(box("left"))
	b.until(`document.querySelector(".pieces [data-mark='B2']") && !document.querySelector(".pieces [data-mark='B3']")`)
	b.click(box("right"))
	b.until(`!document.querySelector(".pieces [data-mark='B2']")`)
	b.click(box("front"))
	b.until(`document.querySelector("#notes").textContent.includes("It goes along one edge at least")`)
	b.until(`document.querySelector('` + box("front") + `').checked`)
	b.click(box("left"))
	b.click(box("right"))
	b.until(`document.querySelector(".pieces [data-mark='B3']")`)

	const spline = `[data-path="moldings[0].joint.spline.thickness"] input`
	had := value[string](b, `document.querySelector('`+spline+`').value`)
	if had != "" {
		b.enter(spline, "")
		b.until(`document.querySelector('` + spline + `').value === "" && !document.querySelector('[data-path="moldings[0].joint.spline.depth"]')`)
	}
	b.enter(spline, "3/16")
	b.until(`document.querySelector('[data-path="moldings[0].joint.spline.depth"] input')?.value === "3/8"`)
	value[bool](b, `(() => { const s = document.querySelector('[data-path="moldings[0].joint.spline.stopped"] select'); s.value = "true"; s.dispatchEvent(new Event("change")); return true; })()`)
	b.until(`document.getElementById("undo").title.includes("stopped")`)
	b.click("#save")
	b.state("saved")
	require.Contains(t, b.read("herb-press.yaml"), "spline: {thickness: 3/16, depth: 3/8, stopped: true}")
	require.NotContains(t, b.read("herb-press.yaml"), "[left, front, right]")
}

// TestCaseBeginsDrawersAndWood adds drawers, and wood to buy, to a case that has none, by their buttons; the rows are typed as a number.
func TestCaseBeginsDrawersAndWood(t *testing.T) {
	b := openTab(t, smallCase, desk)
	b.click("#to-case")
	b.click("#case-start-open")
	b.click("dialog .files button")
	b.until(`document.querySelectorAll(".moldings .member").length === 1`)
	value[bool](b, `(() => { for (const d of document.querySelectorAll("#view-case details.about")) d.open = true; return true; })()`)
	b.click("#case-begin-openings")
	b.until(`document.activeElement.closest("[data-path]")?.dataset.path === "openings.graduate.rows" && document.querySelector("#view-case .on-case.opening")`)
	b.enter(`[data-path="openings.graduate.rows"] input`, "2")
	b.until(`document.getElementById("undo").title.includes("openings.graduate.rows")`)
	value[bool](b, `(() => { for (const d of document.querySelectorAll("#view-case details.about")) d.open = true; return true; })()`)
	b.click("#case-begin-stock")
	b.until(`document.activeElement.closest("[data-path]")?.dataset.path === "stock[0].thickness" && !document.querySelector("#view-case .faults .bad")`)
	b.click("#undo")
	b.until(`!document.querySelector('[data-path="stock[0].thickness"]') && document.getElementById("case-begin-stock")`)
}

// A molding that was never saved is among those that a case takes.
func TestCaseOffersUnsaved(t *testing.T) {
	b := openCase(t, desk)
	b.click("#to-section")
	b.click("#start-empty")
	b.state("not saved yet")
	b.click("#to-case")
	b.click("#case-add")
	b.until(`document.querySelector('dialog [data-name="my-molding"]')?.textContent.includes("not saved yet")`)
}

// A case that was fitted to the board is fitted again when it becomes another size, smaller or larger, and keeps its dimensions.
func TestCaseStaysFitted(t *testing.T) {
	b := openCase(t, desk)
	const height = `[data-path="stages[1].height"] input`
	value[bool](b, `(() => { for (const d of document.querySelectorAll("#view-case details.about")) d.open = true; return true; })()`)
	const figures = `document.querySelectorAll("#view-case .over .dim").length`
	const out = `(() => { const q = document.querySelector("#view-case .board").getBoundingClientRect();
		return [...document.querySelectorAll("#view-case .over text")].filter((n) => { const r = n.getBoundingClientRect(); return r.left < q.left || r.right > q.right || r.top < q.top || r.bottom > q.bottom; }).length; })()`
	had := value[int](b, figures)
	require.Positive(t, had)
	for _, h := range []string{"18", "60"} {
		b.enter(height, h)
		b.until(`document.querySelector('` + height + `').value === "` + h + `" && document.querySelector("#view-case .stale").hidden`)
		b.until(fmt.Sprintf(`%s === %d && %s === 0`, figures, had, out))
	}
}
