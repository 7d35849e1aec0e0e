// The second view: a reading at the cooler, for a phone on a roof.

import { cautions } from "./answer.js";
import { byId, download, make } from "./dom.js";
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
	["pad", "Pads", "pads"],
	["pad_age", "Age of the pads", "years"],
]);

/** @param {string} kind @param {string} system */
function unitOf(kind, system) {
	const ip = system === "ip";
	return { altitude: ip ? "ft" : "m", temperature: ip ? "°F" : "°C", percent: "%", years: "years" }[kind] ?? "";
}

/**
 * @param {import("./engine.js").Engine} engine
 * @param {Start} start
 * @param {() => {units: string, altitude: string, site: string}} house what the other view knows
 */
export function coolerView(engine, start, house) {
	byId("cooler-cautions").replaceChildren(...cautions(start.cautions).childNodes);
	const fields = byId("visit-fields");
	/** @type {Map<string, {entry: HTMLInputElement | HTMLSelectElement, unit: HTMLElement, wrong: HTMLElement, kind: string}>} */
	const parts = new Map();
	for (const [name, label, kind] of entries) {
		const id = `visit-${name}`;
		const entry = kind === "pads"
			? make("select", { id }, make("option", { value: "" }, "not known"), ...start.pads.map((p) => make("option", { value: p.value }, p.label)))
			: make("input", { id, type: "text", inputmode: kind === "words" ? null : "decimal", class: kind === "words" ? "wide" : null, "aria-describedby": `${id}-wrong` });
		const unit = make("span", { class: "unit" });
		const wrong = make("p", { class: "wrong", id: `${id}-wrong` });
		fields.append(make("div", { class: "field" }, make("label", { for: id }, label), make("div", { class: "entry" }, entry, unit), wrong));
		parts.set(name, { entry, unit, wrong, kind });
	}
	const prefill = () => {
		const h = house();
		for (const p of parts.values()) p.unit.textContent = unitOf(p.kind, h.units);
		const altitude = parts.get("altitude")?.entry, site = parts.get("site")?.entry;
		if (altitude && !altitude.value) altitude.value = h.altitude;
		if (site && !site.value) site.value = h.site;
	};
	byId("to-cooler").addEventListener("click", prefill);
	for (const radio of document.querySelectorAll("input[name=units]")) radio.addEventListener("change", prefill);
	prefill();

	const visit = () => {
		/** @type {Record<string, string>} */
		const v = {};
		for (const [name, p] of parts) {
			const text = p.entry.value.trim();
			if (text) v[name] = /^[-+−\d.,\s]+$/.test(text) ? text + unitOf(p.kind, house().units).replace("°", "") : text;
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
		}
	});
	byId("get-readings").addEventListener("click", async () => {
		const { value, file } = await engine.ask("readings", { rows: readings().map((r) => r.visit) });
		download(value.name, file, "text/csv");
	});
	byId("forget-readings").addEventListener("click", () => {
		localStorage.removeItem(store);
		list();
	});
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

/** @returns {{visit: Record<string, string>, verdict: string}[]} the latest first */
function readings() {
	try {
		return JSON.parse(localStorage.getItem(store) ?? "[]");
	} catch {
		return [];
	}
}

/**
 * @param {Record<string, string>} visit
 * @param {string} verdict
 */
function keep(visit, verdict) {
	localStorage.setItem(store, JSON.stringify([{ visit, verdict }, ...readings()].slice(0, kept)));
	list();
}

function list() {
	const all = readings();
	const none = all.length === 0;
	/** @type {HTMLButtonElement} */ (byId("get-readings")).disabled = /** @type {HTMLButtonElement} */ (byId("forget-readings")).disabled = none;
	byId("kept").replaceChildren(none ? make("p", { class: "help" }, `The last ${kept} readings stay here until you forget them.`) : make("ol", {}, ...all.map((r) => make("li", {},
		`${r.visit.date} ${r.visit.site ?? ""}: outdoors ${r.visit.outdoor}, off the pads ${r.visit.supply}: `, make("strong", {}, r.verdict)))));
}
