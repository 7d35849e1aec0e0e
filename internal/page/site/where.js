// The first step: where the house stands, and so which weather.

import { byId, make } from "./dom.js";
import { Complaint, problemOf } from "./engine.js";

/** The step: towns with suggestions, files chosen or dropped, the sample. */
export class Where {
	/**
	 * @param {import("./engine.js").Engine} engine
	 * @param {() => {units: string, altitude: string}} stated units, and the site's altitude where it is stated
	 * @param {(source: Source, file: Uint8Array | null) => Promise<Opened>} opening
	 */
	constructor(engine, stated, opening) {
		this.engine = engine;
		this.stated = stated;
		this.opening = opening;
		/** @type {File | undefined} the file chosen last, to be read again with other statements */
		this.last = undefined;
		this.suggestions();
		this.files();
		byId("make-links").addEventListener("click", () => void this.links());
		byId("sample").addEventListener("click", () => void this.open({ kind: "sample" }, null, []));
	}

	/** @param {import("./link.js").Carried} link what the address asks for */
	async begin(link) {
		if (link.place) await this.town(link.place);
		else if (link.kind === "sample") await this.open({ kind: "sample" }, null, []);
	}

	/**
	 * @param {Source} source
	 * @param {Uint8Array | null} file
	 * @param {string[]} words to say about it
	 */
	async open(source, file, words) {
		try {
			const o = await this.opening(source, file);
			byId("where-complaint").replaceChildren();
			const height = o.elevation ? `station at ${o.elevation}` : "";
			const said = words.length ? words : [[`${o.place}: ${o.from}`, height, o.years > 1 ? `${o.years} whole years` : ""].filter(Boolean).join("; ")];
			byId("where").replaceChildren(make("p", {}, make("strong", {}, o.place)), ...said.map((w) => make("p", { class: "help" }, w)));
		} catch (error) {
			this.complain(error);
		}
	}

	/** @param {unknown} error */
	complain(error) {
		const p = problemOf(error);
		byId("where-complaint").replaceChildren(make("div", { class: "complaint" }, make("p", {}, p.text), ...(p.hint ? [make("p", {}, `What to do: ${p.hint}`)] : [])));
	}

	/**
	 * Opens the weather of a town as it was typed. Which station stands for it
	 * depends on the altitude too.
	 * @param {string} text
	 */
	async town(text) {
		try {
			const { value: place } = await this.engine.ask("place", { text, ...this.stated() });
			/** @type {HTMLInputElement} */ (byId("town")).value = place.name;
			const response = await kept(`stations/${place.number}.bin`);
			if (!response.ok) throw new Complaint({ text: `the weather of ${place.name} could not be fetched: ${response.status}`, hint: "try again, or open a weather file" });
			await this.open({ kind: "town", name: place.name, station: place.number, altitude: this.stated().altitude }, new Uint8Array(await response.arrayBuffer()), place.notes);
		} catch (error) {
			this.complain(error instanceof TypeError ? new Complaint({ text: "the weather of this town is not on this device yet, and there is no network", hint: "connect, or open a weather file" }) : error);
		}
	}

	/** A list of towns under what is typed, as the combobox pattern has it. */
	suggestions() {
		const entry = /** @type {HTMLInputElement} */ (byId("town"));
		const list = byId("town-list");
		let chosen = -1;
		const close = () => {
			list.hidden = true;
			list.replaceChildren();
			chosen = -1;
			entry.setAttribute("aria-expanded", "false");
			entry.removeAttribute("aria-activedescendant");
		};
		const mark = (/** @type {number} */ n) => {
			const all = [...list.children];
			chosen = all.length ? (n + all.length) % all.length : -1;
			all.forEach((li, i) => li.setAttribute("aria-selected", String(i === chosen)));
			if (chosen < 0) return;
			entry.setAttribute("aria-activedescendant", `town-${chosen}`);
			all[chosen]?.scrollIntoView({ block: "nearest" });
		};
		const take = (/** @type {string} */ text) => {
			close();
			void this.town(text);
		};
		entry.addEventListener("input", async () => {
			const text = entry.value;
			const { value: towns } = await this.engine.ask("towns", { text, ...this.stated() });
			if (text !== entry.value) return;
			close();
			if (!towns.length) return;
			list.replaceChildren(...towns.map((t, i) => {
				const li = make("li", { role: "option", id: `town-${i}`, "aria-selected": "false" }, t.name, make("span", { class: "help" }, `, ${t.altitude}`));
				li.addEventListener("mousedown", (event) => event.preventDefault());
				li.addEventListener("click", () => take(t.name));
				return li;
			}));
			list.hidden = false;
			entry.setAttribute("aria-expanded", "true");
		});
		entry.addEventListener("keydown", (event) => {
			if (event.key === "ArrowDown" || event.key === "ArrowUp") {
				event.preventDefault();
				mark(chosen + (event.key === "ArrowDown" ? 1 : -1));
			} else if (event.key === "Enter") {
				event.preventDefault();
				const li = list.children[chosen];
				if (entry.value.trim()) take(li?.firstChild?.textContent ?? entry.value);
			} else if (event.key === "Escape") close();
		});
		entry.addEventListener("blur", close);
	}

	/** Where weather of any point of the earth can be had. */
	async links() {
		const text = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (byId(id)).value;
		try {
			const { value: links } = await this.engine.ask("links", { latitude: text("latitude"), longitude: text("longitude") });
			byId("link-list").replaceChildren(...links.map((l) => make("li", {}, make("a", { href: l.address, rel: "noreferrer" }, l.service), `: ${l.what}`)));
		} catch (error) {
			const p = problemOf(error);
			byId("link-list").replaceChildren(make("li", { class: "wrong" }, [p.text, p.hint].filter(Boolean).join("; ")));
		}
	}

	/** Files: chosen or dropped. */
	files() {
		const drop = byId("drop");
		const entry = /** @type {HTMLInputElement} */ (byId("file"));
		entry.addEventListener("change", () => void this.file(entry.files?.[0]));
		for (const kind of ["dragover", "dragleave", "drop"]) {
			drop.addEventListener(kind, (event) => {
				event.preventDefault();
				drop.classList.toggle("over", kind === "dragover");
			});
		}
		drop.addEventListener("drop", (event) => void this.file(event.dataTransfer?.files[0]));
		for (const id of ["f-elevation", "f-latitude", "f-longitude", "f-utc", "f-gaps"]) {
			byId(id).addEventListener("change", () => void this.file(this.last));
		}
	}

	/** @param {File | undefined} file */
	async file(file) {
		if (!file) return;
		this.last = file;
		const text = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (byId(id)).value;
		const source = {
			kind: "file", name: file.name, allow_gaps: /** @type {HTMLInputElement} */ (byId("f-gaps")).checked,
			elevation: text("f-elevation"), latitude: text("f-latitude"), longitude: text("f-longitude"), utc_offset: text("f-utc"),
		};
		await this.open(source, new Uint8Array(await file.arrayBuffer()), []);
	}
}

/**
 * A file that stays on the device once it was fetched.
 * @param {string} path
 */
async function kept(path) {
	if (!("caches" in window)) return fetch(path); // not a secure place: no keeping
	const cache = await caches.open("weather");
	const old = await cache.match(path);
	if (old) return old;
	const response = await fetch(path);
	if (response.ok) await cache.put(path, response.clone());
	return response;
}
