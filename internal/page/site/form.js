// The form: made of the inputs the program declares.

import { bare, byId, lead, make } from "./dom.js";

/** The few inputs that nearly everybody states, by step; all others are under "All inputs". */
const steps = /** @type {const} */ ([
	["house-fields", ["house.floor_area", "site.altitude", "house.setpoint", "house.heat_loss"]],
	["cooler-fields", ["cooler.kind", "cooler.airflow", "cooler.effectiveness"]],
	["price-fields", ["price.electricity", "price.water", "price.cooler_installed", "price.ac_installed"]],
]);

const early = /** @type {Set<string>} */ (new Set(steps.flatMap(([, keys]) => [...keys])));

/** Inputs whose value is mostly chosen by a word. */
export class Form {
	/**
	 * @param {Start} start
	 * @param {string} units
	 * @param {(key: string) => void} changed
	 */
	constructor(start, units, changed) {
		this.start = start;
		this.units = units;
		this.changed = changed;
		/** @type {Record<string, string>} as stated, by key, each with its unit */
		this.inputs = {};
		/** @type {Map<string, {field: Field, entry: HTMLInputElement | HTMLSelectElement, unit: HTMLElement, usual: HTMLButtonElement, wrong: HTMLElement, usually: HTMLElement, why: HTMLElement, preset?: HTMLSelectElement, typing: boolean}>} */
		this.parts = new Map();
		this.build();
	}

	build() {
		const fields = new Map(this.start.sections.flatMap((s) => s.inputs.map((f) => [f.key, f])));
		for (const [id, keys] of steps) {
			for (const key of keys) {
				const f = fields.get(key);
				if (f) byId(id).append(this.part(f));
			}
		}
		for (const s of this.start.sections) {
			const rest = s.inputs.filter((f) => !early.has(f.key));
			if (!rest.length) continue;
			const group = make("fieldset", {}, make("legend", {}, s.title));
			for (const f of rest) group.append(this.part(f));
			byId("other-fields").append(group);
		}
	}

	/** @param {Field} field */
	part(field) {
		const id = `in-${field.key}`;
		const entry = field.kind === "choice"
			? make("select", { id, "aria-describedby": `${field.help ? `${id}-more ` : ""}${id}-wrong` }, ...(field.choices ?? []).map((c) => make("option", { value: c }, c)))
			: make("input", { id, type: "text", inputmode: field.kind === "number" ? "decimal" : null, class: field.kind === "text" ? "wide" : null, "aria-describedby": `${field.help ? `${id}-more ` : ""}${id}-wrong`, spellcheck: "false" });
		const unit = make("span", { class: "unit" });
		const usual = make("button", { type: "button", class: "usual", hidden: true }, "usual value");
		const wrong = make("p", { class: "wrong", id: `${id}-wrong` });
		const help = make("p", { class: "more", id: `${id}-more` }, field.help ?? "");
		const usually = make("summary"), why = make("p");
		const more = make("details", { class: "more" }, usually, why);
		usual.setAttribute("aria-label", `Usual value: ${field.label}`);
		usual.addEventListener("click", () => {
			this.state(field.key, "");
			entry.focus();
		});
		entry.addEventListener("input", () => {
			const p = this.parts.get(field.key);
			if (p) p.typing = true;
			this.mark(field.key);
		});
		entry.addEventListener("change", () => this.state(field.key, this.withUnit(field, entry.value)));
		const row = make("div", { class: "entry" }, entry, unit, usual);
		const part = make("div", { class: "field" }, make("label", { for: id }, field.label), row, wrong, ...(field.help ? [help] : []), more);
		const preset = this.preset(field);
		if (preset) part.insertBefore(preset, row);
		this.parts.set(field.key, { field, entry, unit, usual, wrong, usually, why, preset, typing: false });
		this.reset(field.key);
		return part;
	}

	/** @param {Field} field */
	preset(field) {
		const p = this.start.presets.find((each) => each.key === field.key);
		if (!p) return undefined;
		const select = make("select", { "aria-label": p.label }, make("option", { value: "" }, `${p.label}: as below`), ...p.choices.map((c) => make("option", { value: c.value }, c.label)));
		select.addEventListener("change", () => this.state(field.key, select.value));
		return select;
	}

	/**
	 * A bare number has the unit that stands beside the field.
	 * @param {Field} field
	 * @param {string} text
	 */
	withUnit(field, text) {
		text = text.trim();
		return field.kind === "number" && bare(text) ? `${text} ${field.unit?.[this.units] ?? ""}`.trim() : text;
	}

	/**
	 * @param {string} key
	 * @param {string} text empty: back to the usual value
	 */
	state(key, text) {
		const p = this.parts.get(key);
		if (p) p.typing = false;
		if (text) this.inputs[key] = text;
		else {
			delete this.inputs[key];
			this.reset(key);
		}
		this.dress(key);
		this.changed(key);
	}

	/** @param {Record<string, string>} inputs */
	take(inputs) {
		this.inputs = { ...inputs };
		for (const key of this.parts.keys()) this.reset(key);
	}

	/**
	 * Puts into a field what is stated, with its unit, else nothing: what is usual
	 * comes with the answer. A list shows its usual entry at once.
	 * @param {string} key
	 */
	reset(key) {
		const p = this.parts.get(key);
		if (!p) return;
		p.typing = false;
		p.entry.value = this.inputs[key] ?? (p.field.kind === "choice" ? p.field.usual[this.units] ?? "" : "");
		this.complain(key, undefined);
		this.dress(key);
	}

	/** @param {string} units */
	show(units) {
		this.units = units;
		for (const [key, p] of this.parts) {
			if (key in this.inputs && !p.typing) p.entry.value = this.inputs[key] ?? ""; // with the unit it was stated in, until the answer has it in the other
			this.dress(key);
		}
	}

	/**
	 * What stands around a field and does not depend on the answer.
	 * @param {string} key
	 */
	dress(key) {
		const p = this.parts.get(key);
		if (!p) return;
		const { field } = p, u = this.units, stated = this.inputs[key];
		p.unit.textContent = field.unit?.[u] ?? "";
		this.mark(key);
		p.usual.hidden = stated === undefined;
		p.entry.classList.toggle("stated", stated !== undefined);
		if (p.preset) p.preset.value = p.field.kind && stated !== undefined && [...p.preset.options].some((o) => o.value === stated) ? stated : "";
		p.usually.textContent = field.usual[u] ? `Usual: ${field.usual[u]}` : "Usual: not stated";
		const range = field.range?.[u] ? `From ${field.range[u]}. ` : "";
		p.why.textContent = `${range}Why: ${field.why}.`;
	}

	/**
	 * The unit beside a field is that of a bare number: a text with a unit of its
	 * own has no other beside it.
	 * @param {string} key
	 */
	mark(key) {
		const p = this.parts.get(key);
		if (p) p.unit.hidden = p.entry.value.trim() !== "" && !bare(p.entry.value);
	}

	/**
	 * Values as the program understood them; a field that is being typed into stays.
	 * @param {Record<string, Shown>} values
	 */
	fill(values) {
		for (const [key, p] of this.parts) {
			const v = values[key];
			this.complain(key, undefined);
			if (v && !p.typing) p.entry.value = v.text;
			this.mark(key);
		}
	}

	/**
	 * @param {string} key
	 * @param {Problem | undefined} problem
	 * @returns {boolean} whether there is a field for it
	 */
	complain(key, problem) {
		const p = this.parts.get(key);
		if (!p) return false;
		p.wrong.textContent = problem ? [problem.text, problem.hint].filter(Boolean).join("; ") : "";
		if (problem) p.entry.setAttribute("aria-invalid", "true");
		else p.entry.removeAttribute("aria-invalid");
		return true;
	}

	/**
	 * Leads to the field of an input, wherever it is folded away.
	 * @param {string} key
	 */
	lead(key) {
		const p = this.parts.get(key);
		if (p) lead(p.entry);
	}

	/**
	 * The inputs of an answer in words: those of the steps, and all others that
	 * were stated.
	 * @param {Record<string, Shown>} values
	 */
	given(values) {
		const all = [];
		for (const [key, p] of this.parts) {
			const v = values[key];
			if (!v?.text || !v.stated && !early.has(key) || this.start.personal.includes(key)) continue;
			all.push(`${p.field.label}: ${v.text} ${p.field.unit?.[this.units] ?? ""}`.trim());
		}
		return all;
	}
}
