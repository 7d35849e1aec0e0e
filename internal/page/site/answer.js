// What the program answered, as elements: the headline, and the particulars under it.

import { heatMap, legend, monthBars, outcomeWords, weekLines } from "./charts.js";
import { make } from "./dom.js";

/**
 * A sentence whose numbers keep their units in the same line.
 * @param {string} text
 */
const tight = (text) => text.replace(/(\d) (%|°[CF]|h\b|gal\b|L\b|kWh\b)/g, "$1\u00a0$2");

/**
 * @param {Answer} a
 * @param {Opened | undefined} opened
 * @returns {Node[]}
 */
export function headline(a, opened) {
	return [
		make("p", {}, make("strong", {}, a.site), `, ${a.altitude} above sea level`),
		...(opened?.invented ? [make("p", { class: "invented" }, "Invented weather for an invented place: an example, not a place you can visit.")] : []),
		make("div", { class: `banner v-${a.verdict.word || "none"}` }, make("strong", { id: "verdict" }, a.verdict.title), tight(a.verdict.why), make("span", { class: "marks" }, tight(a.verdict.marks))),
		hoursBar(a),
		...a.story.map((s) => make("p", {}, tight(s))),
		...(a.notes.length ? [make("p", {}, make("a", { href: "#notes" }, a.notes.length === 1 ? "A note on the weather" : `${a.notes.length} notes on the weather`), a.notes.length === 1 ? " stands below." : " stand below.")] : []),
		tiles(a.tiles),
	];
}

/**
 * @param {Answer} a
 * @param {number} width of the charts
 * @param {string[]} given the inputs it is for, in words
 * @returns {Node[]}
 */
export function particulars(a, width, given) {
	return [
		cautions(a.cautions),
		make("h3", {}, "What becomes of the hours, by month and time of day"),
		figure(heatMap(a.heat, a.months, width), legend(present(a))),
		make("h3", {}, a.week.title),
		figure(weekLines(a.week, width), weekKey(a)),
		make("h3", {}, "Hours that need cooling, by month"),
		figure(monthBars(a.heat, a.months, width), legend(present(a).filter((o) => o !== "idle" && o !== "missing"))),
		monthTable(a),
		make("h3", {}, "What it costs"),
		table(a.costs.heads, a.costs.rows),
		make("p", { class: "help" }, "For the same house. A cooler that leaves hours uncovered is not the same service for less money."),
		make("h3", {}, "What it is for"),
		make("p", { class: "help" }, `${given.join("; ")}. All else has its usual value.`),
		...(a.notes.length ? [make("h3", { id: "notes", tabindex: "-1" }, "What to know about the weather"), make("ul", { class: "help" }, ...a.notes.map((n) => make("li", {}, n)))] : []),
	];
}

/** @param {Answer} a */
function present(a) {
	return a.heat.outcomes.filter((_, i) => a.months.some((m) => (m.hours[i] ?? 0) > 0));
}

/** @param {Answer} a */
function hoursBar(a) {
	const label = a.hours.map((h) => `${h.label}: ${h.count} hours`).join("; ");
	const bar = make("div", { class: "bar", role: "img", "aria-label": label });
	for (const h of a.hours) {
		const part = make("span", { class: `o-${h.key}` });
		part.style.flexGrow = String(h.share);
		bar.append(part);
	}
	const list = make("ul", { class: "legend" });
	for (const h of a.hours) list.append(make("li", {}, make("span", { class: `swatch o-${h.key}`, "aria-hidden": "true" }), `${h.label}: ${h.count} h`));
	return make("div", {}, bar, list);
}

/** @param {Tile[]} all */
function tiles(all) {
	return make("ul", { class: "tiles" }, ...all.map((t) => make("li", {},
		make("span", { class: "caption" }, t.caption), make("span", { class: "value" }, t.value), make("span", { class: "below" }, tight(t.below)))));
}

/** @param {string[]} all */
export function cautions(all) {
	return make("div", { class: "cautions" }, make("strong", {}, "Take care"), make("ul", {}, ...all.map((c) => make("li", {}, c))));
}

/**
 * @param {SVGElement} picture
 * @param {HTMLElement} caption
 */
function figure(picture, caption) {
	return make("figure", {}, picture, caption);
}

/** @param {Answer} a */
function weekKey(a) {
	const key = (/** @type {string} */ name, /** @type {string} */ words) => make("li", {}, make("span", { class: `swatch key-${name}`, "aria-hidden": "true" }), words);
	const list = make("ul", { class: "legend" }, key("outdoor", `outdoors, ${a.week.unit}`), key("supply", "air from the cooler"), key("indoor", "indoors"));
	for (const [o, word] of outcomeWords) {
		if ((o === "damp" || o === "warm") && a.week.outcome.includes(o)) list.append(make("li", {}, make("span", { class: `swatch o-${o}`, "aria-hidden": "true" }), `shaded: ${word}`));
	}
	list.append(make("li", {}, "dashed: the temperature to keep"));
	return list;
}

/** @param {Answer} a */
function monthTable(a) {
	const columns = outcomeWords.filter(([key]) => key !== "missing");
	const heads = ["Month", ...columns.map(([, word]) => word), "cooler", "refrigeration", "water"];
	const rows = a.months.map((m) => [m.name, ...columns.map(([key]) => String(m.hours[a.heat.outcomes.indexOf(key)] ?? 0)), m.cooler, m.refrigerated, m.water]);
	const t = table(heads, rows);
	return make("details", { class: "noprint" }, make("summary", {}, "The months as a table"), t);
}

/**
 * @param {string[]} heads
 * @param {string[][]} rows
 */
function table(heads, rows) {
	const cell = (/** @type {string} */ text, /** @type {number} */ i) => i ? make("td", {}, text) : make("th", { scope: "row" }, text);
	const head = (/** @type {string} */ text) => text ? make("th", { scope: "col" }, text) : make("td", {});
	return make("div", { class: "wide", tabindex: "0", role: "group", "aria-label": "Table, may be scrolled sideways" }, make("table", {},
		make("thead", {}, make("tr", {}, ...heads.map(head))),
		make("tbody", {}, ...rows.map((r) => make("tr", {}, ...r.map(cell))))));
}
