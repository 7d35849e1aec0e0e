// The second view: a reading at the cooler, for a phone on a roof.

import { cautions } from "./answer.js";
import { bare, byId, download, lead, make } from "./dom.js";
import { problemOf } from "./engine.js";

const store = "evapbook readings";
const kept = 20; // the last so many

/** Entries of a reading; names as the columns of reading --csv. */
const entries = /** @type {const} */ ([
	["site", "Which cooler", "words"],
	["altitude", "Altitude", "altitude"],
	["outdoor", "Outdoor temperature, in the shade", "temperature"],
	["rh", "Relative humidity outdoors", "percent"],
	["wet_bulb", "or wet bulb outdoors", "temperature"],
	["supply", "Air off the pads", "temperature"],
	["cooler", "Kind of cooler", "kinds"],
	["pad", "Pads", "pads"],
	["pad_age", "Age of the pads", "years"],
]);

/** @param {string} kind @param {string} system */
function unitOf(kind, system) {
	const ip = system === "ip";
	return { altitude: ip ? "ft" : "m", temperature: ip ? "°F" : "°C", percent: "%", years: "years" }[kind] ?? "";
}

/**
 * A bare number with its unit.
 * @param {string} text
 * @param {string} kind
 * @param {string} system
 */
function withUnit(text, kind, system) {
	return bare(text) ? `${text} ${unitOf(kind, system)}`.trim() : text;
}

/**
 * @param {import("./engine.js").Engine} engine
 * @param {Start} start
 * @param {() => {units: string, altitude: string, site: string, cooler: string}} house what the other view knows
 */
export function coolerView(engine, start, house) {
	byId("cooler-cautions").replaceChildren(...cautions(start.cautions).childNodes);
	const fields = byId("visit-fields");
	/** @type {Map<string, {entry: HTMLInputElement | HTMLSelectElement, unit: HTMLElement, wrong: HTMLElement, kind: string, taken: string}>} */
	const parts = new Map();
	const kinds = start.sections.flatMap((s) => s.inputs).find((f) => f.key === "cooler.kind")?.choices ?? [];
	for (const [name, label, kind] of entries) {
		const id = `visit-${name}`;
		const entry = kind === "pads"
			? make("select", { id }, make("option", { value: "" }, "not known"), ...start.pads.map((p) => make("option", { value: p.value }, p.label)))
			: kind === "kinds"
				? make("select", { id }, ...kinds.map((k) => make("option", { value: k }, k)))
				: make("input", { id, type: "text", inputmode: kind === "words" ? null : "decimal", class: kind === "words" ? "wide" : null, "aria-describedby": `${id}-wrong` });
		const unit = make("span", { class: "unit" });
		const wrong = make("p", { class: "wrong", id: `${id}-wrong` });
		fields.append(make("div", { class: "field" }, make("label", { for: id }, label), make("div", { class: "entry" }, entry, unit), wrong));
		parts.set(name, { entry, unit, wrong, kind, taken: entry.value });
		entry.addEventListener("input", () => mark());
	}
	/** A text with a unit of its own has no other beside it. */
	const mark = () => {
		for (const p of parts.values()) {
			p.unit.textContent = unitOf(p.kind, system);
			p.unit.hidden = p.entry.value.trim() !== "" && !bare(p.entry.value);
		}
	};
	let system = house().units;
	/** A number typed in one system keeps its unit where the page turns to the other. */
	const turn = () => {
		for (const p of parts.values()) {
			const text = withUnit(p.entry.value.trim(), p.kind, system);
			if (p.taken === p.entry.value) p.taken = text;
			p.entry.value = text;
		}
		system = house().units;
		mark();
	};
	/** Takes over what the other view knows, but not over what was typed here. */
	const prefill = () => {
		const h = house();
		if (h.units !== system) turn();
		const known = { altitude: withUnit(h.altitude, "altitude", h.units), site: h.site, cooler: h.cooler };
		for (const [name, text] of Object.entries(known)) {
			const p = parts.get(name);
			if (!p || !text || p.entry.value !== p.taken) continue;
			p.entry.value = text;
			p.taken = p.entry.value;
		}
		mark();
	};
	byId("to-cooler").addEventListener("click", prefill);
	for (const radio of document.querySelectorAll("input[name=units]")) radio.addEventListener("change", turn);
	prefill();

	const visit = () => {
		/** @type {Record<string, string>} */
		const v = {};
		for (const [name, p] of parts) {
			const text = p.entry.value.trim();
			if (text) v[name] = withUnit(text, p.kind, system).replace(" °", "");
		}
		return v;
	};
	byId("visit").addEventListener("submit", async (event) => {
		event.preventDefault();
		for (const p of parts.values()) {
			p.wrong.textContent = "";
			p.entry.removeAttribute("aria-invalid");
		}
		try {
			const v = visit();
			const { value } = await engine.ask("reading", v);
			show(value);
			keep({ ...v, date: today() }, value.verdict);
			lead(byId("judged-head"));
		} catch (error) {
			const problem = problemOf(error);
			const part = parts.get(problem.key ?? "");
			const text = [problem.text, problem.hint].filter(Boolean).join("; ");
			if (part) {
				part.wrong.textContent = text;
				part.entry.setAttribute("aria-invalid", "true");
				part.entry.focus();
			}
			byId("judged").replaceChildren(make("p", { class: "complaint" }, text));
			if (!part) lead(byId("judged-head"));
		}
	});
	byId("get-readings").addEventListener("click", async () => {
		const { value, file } = await engine.ask("readings", { rows: readings().map((r) => r.visit) });
		download(value.name, file, "text/csv");
	});
	byId("forget-readings").addEventListener("click", () => {
		if (confirm(`Forget all ${readings().length} readings on this device?`)) save([]);
	});
	window.addEventListener("storage", list); // another tab has kept or forgotten some
	list();
}

/** The date here, as people sort it. */
function today() {
	const d = new Date();
	const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
	return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
}

/** @param {Judged} j */
function show(j) {
	const lines = make("dl");
	for (const l of j.lines) lines.append(make("dt", {}, l.label), make("dd", {}, l.text));
	byId("judged").replaceChildren(make("p", { class: `banner r-${j.verdict.replaceAll(" ", "-")}` }, make("strong", {}, j.verdict), j.meaning), lines);
}

/** @typedef {{visit: Record<string, string>, verdict: string}} Kept */

/**
 * Readings that the device would not keep: they stay as long as the page.
 * @type {Kept[] | undefined}
 */
let unkept;

/** @returns {Kept[]} the latest first */
function readings() {
	if (unkept) return unkept;
	try {
		const all = JSON.parse(localStorage.getItem(store) ?? "[]");
		return Array.isArray(all) ? all.filter((r) => r?.visit && r.verdict) : [];
	} catch {
		return [];
	}
}

/** @param {Kept[]} all */
function save(all) {
	try {
		localStorage.setItem(store, JSON.stringify(all));
		unkept = undefined;
	} catch {
		unkept = all;
	}
	list();
}

/**
 * @param {Record<string, string>} visit
 * @param {string} verdict
 */
function keep(visit, verdict) {
	save([{ visit, verdict }, ...readings()].slice(0, kept));
}

function list() {
	const all = readings();
	/** @type {HTMLButtonElement} */ (byId("get-readings")).disabled = /** @type {HTMLButtonElement} */ (byId("forget-readings")).disabled = all.length === 0;
	const words = unkept ? "This browser keeps nothing: these readings go when the page is closed. Get the table first."
		: all.length >= kept ? `The next reading takes the place of the oldest of these ${kept}: get the table first.`
			: `The last ${kept} readings stay here until you forget them.`;
	byId("kept").replaceChildren(make("p", { class: unkept || all.length >= kept ? "complaint" : "help", role: "status" }, words),
		...(all.length ? [make("ol", {}, ...all.map((r) => make("li", {},
			`${r.visit.date ?? ""} ${r.visit.site ?? ""}: outdoors ${spaced(r.visit.outdoor)}, off the pads ${spaced(r.visit.supply)}: `, make("strong", {}, r.verdict))))] : []));
}

/** @param {string | undefined} text a temperature as it was kept: 95F */
function spaced(text) {
	return (text ?? "?").replace(/\s*([FC])$/, "\u00a0°$1");
}
