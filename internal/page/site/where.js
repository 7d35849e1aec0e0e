// The first step: where the house stands, and so which weather.

import { byId, make } from "./dom.js";
import { Complaint, problemOf } from "./engine.js";

/** The step: towns with suggestions, files chosen or dropped, the sample. */
export class Where {
	/**
	 * @param {import("./engine.js").Engine} engine
	 * @param {() => {units: string, altitude: string}} stated units, and the site's altitude where it is stated
	 * @param {number} most bytes of a file
	 * @param {(source: Source, file: Uint8Array | null) => Promise<Opened>} opening
	 * @param {(more: number) => void} busy things begun and ended
	 * @param {() => void} failed what was asked for could not be opened
	 */
	constructor(engine, stated, most, opening, busy, failed) {
		this.engine = engine;
		this.stated = stated;
		this.most = most;
		this.opening = opening;
		this.busy = busy;
		this.failed = failed;
		this.turn = 0; // what was asked for last counts, not what comes last
		this.place = ""; // the town that is open
		/** @type {File | undefined} the file chosen last, to be read again with other statements */
		this.last = undefined;
		this.suggestions();
		this.files();
		byId("make-links").addEventListener("click", () => void this.links());
		byId("sample").addEventListener("click", () => void this.sample());
	}

	/** @param {import("./link.js").Carried} link what the address asks for */
	async begin(link) {
		if (link.place) await this.town(link.place);
		else if (link.kind === "sample") await this.sample();
	}

	/**
	 * Does what opens a place, and says what went wrong with it, unless another was
	 * asked for meanwhile.
	 * @param {(turn: number) => Promise<void>} how
	 */
	async ask(how) {
		const turn = ++this.turn;
		this.busy(1);
		try {
			await how(turn);
		} catch (error) {
			if (turn !== this.turn) return;
			const p = problemOf(error);
			byId("where-complaint").replaceChildren(make("div", { class: "complaint" }, make("p", {}, p.text), ...(p.hint ? [make("p", {}, `What to do: ${p.hint}`)] : [])));
			this.failed();
		} finally {
			this.busy(-1);
		}
	}

	sample() {
		return this.ask(async (turn) => {
			await this.open(turn, { kind: "sample" }, null);
		});
	}

	/**
	 * @param {number} turn
	 * @param {Source} source
	 * @param {Uint8Array | null} file
	 * @param {string[]} [words] to say about it
	 */
	async open(turn, source, file, words) {
		if (turn !== this.turn) return;
		const o = await this.opening(source, file);
		if (turn !== this.turn) return;
		byId("where-complaint").replaceChildren();
		this.place = source.kind === "town" ? source.name ?? "" : "";
		if (source.kind !== "file") this.forget();
		if (source.kind !== "town") /** @type {HTMLInputElement} */ (byId("town")).value = "";
		const height = o.elevation ? `station at ${o.elevation}` : "";
		const said = words ?? [[`${o.place}: ${o.from}`, height, o.years > 1 ? `${o.years} whole years` : ""].filter(Boolean).join("; ")];
		byId("where").replaceChildren(make("p", {}, make("strong", {}, o.place)), ...said.map((w) => make("p", { class: "help" }, w)),
			...(words || !o.notes.length ? [] : [make("details", { class: "more" }, make("summary", {}, `What to know about this file (${o.notes.length})`), make("ul", {}, ...o.notes.map((n) => make("li", {}, n))))]));
	}

	/** No file stands for the place any more. */
	forget() {
		this.last = undefined;
		/** @type {HTMLInputElement} */ (byId("file")).value = "";
	}

	/**
	 * Opens the weather of a town as it was typed. Which station stands for it
	 * depends on the altitude too.
	 * @param {string} text
	 */
	town(text) {
		return this.ask(async (turn) => {
			const { value: place } = await this.engine.ask("place", { text, ...this.stated() });
			if (turn !== this.turn) return;
			/** @type {HTMLInputElement} */ (byId("town")).value = place.name;
			const source = { kind: "town", name: place.name, station: place.number, altitude: this.stated().altitude };
			await this.station(`stations/${place.number}.bin`, place.name, (bytes) => this.open(turn, source, bytes, place.notes));
		});
	}

	/**
	 * Opens a station's weather from what this device has of it, else from the
	 * network; what opened stays on the device.
	 * @param {string} path
	 * @param {string} name of the town
	 * @param {(bytes: Uint8Array) => Promise<void>} open
	 */
	async station(path, name, open) {
		const cache = "caches" in window ? await caches.open("weather").catch(() => undefined) : undefined; // no secure place, or refused: no keeping
		const held = await cache?.match(path);
		if (held) {
			try {
				return await open(new Uint8Array(await held.arrayBuffer()));
			} catch {
				await cache?.delete(path); // of another version, or damaged
			}
		}
		const response = await fetch(path).catch(() => {
			throw new Complaint({ text: `the weather of ${name} is not on this device yet, and there is no network`, hint: "connect and choose the town again, or open a weather file" });
		});
		if (!response.ok) throw new Complaint({ text: `the weather of ${name} could not be fetched: the web host says ${response.status}`, hint: "choose the town again in a while, or open a weather file" });
		const copy = response.clone();
		await open(new Uint8Array(await response.arrayBuffer()));
		await cache?.put(path, copy).catch(() => undefined); // no room: it will be fetched again
	}

	/** A list of towns under what is typed, as the combobox pattern has it. */
	suggestions() {
		const entry = /** @type {HTMLInputElement} */ (byId("town"));
		const list = byId("town-list");
		let chosen = -1, asked = "";
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
			asked = entry.value = text; // not asked for again when the field is left
			void this.town(text);
		};
		const help = byId("town-help"), usual = help.textContent;
		entry.addEventListener("input", async () => {
			const text = entry.value;
			const { value: towns } = await this.engine.ask("towns", { text, ...this.stated() });
			if (text !== entry.value || document.activeElement !== entry) return;
			close();
			help.textContent = towns.length || !text.trim() ? usual : "No town of the list begins like this. Press Enter for names alike, or open a weather file.";
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
		entry.addEventListener("change", () => { // typed and left
			if (entry.value.trim() && entry.value !== asked && entry.value !== this.place) take(entry.value);
		});
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

	/** Files: chosen, or dropped anywhere on the page, which would else go. */
	files() {
		const drop = byId("drop");
		const entry = /** @type {HTMLInputElement} */ (byId("file"));
		entry.addEventListener("click", () => { entry.value = ""; }); // the same file may be chosen again, mended
		entry.addEventListener("change", () => void this.file(entry.files?.[0]));
		for (const kind of ["dragover", "dragleave", "drop"]) {
			window.addEventListener(kind, (event) => {
				event.preventDefault();
				drop.classList.toggle("over", kind === "dragover");
			});
		}
		window.addEventListener("drop", (event) => {
			if (byId("house-view").hidden) return;
			const dropped = event.dataTransfer?.files;
			void this.file(dropped?.[0], dropped?.length);
		});
		for (const id of ["f-elevation", "f-latitude", "f-longitude", "f-utc", "f-gaps"]) {
			byId(id).addEventListener("change", () => void this.file(this.last));
		}
	}

	/**
	 * @param {File | undefined} file
	 * @param {number} [of] so many that were dropped together
	 */
	async file(file, of = 1) {
		if (!file) return;
		await this.ask(async (turn) => {
			if (of > 1) throw new Complaint({ text: `${of} files were dropped; the page takes one`, hint: "drop one of them; years of one place can be joined by the command: write FILE FILE" });
			this.last = file;
			if (file.size > this.most) throw new Complaint({ text: `${file.name} has ${Math.round(file.size / 1e6)} MB; the page reads files of at most ${Math.round(this.most / 1e6)} MB`, hint: "a year of hourly weather has one or two: is it the right file?" });
			const text = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (byId(id)).value;
			const source = {
				kind: "file", name: file.name, allow_gaps: /** @type {HTMLInputElement} */ (byId("f-gaps")).checked,
				elevation: text("f-elevation"), latitude: text("f-latitude"), longitude: text("f-longitude"), utc_offset: text("f-utc"),
			};
			const bytes = await file.arrayBuffer().catch(() => {
				throw new Complaint({ text: `${file.name} cannot be read: it is a folder, or it was changed or taken away since`, hint: "choose a file, or choose it again" });
			});
			await this.open(turn, source, new Uint8Array(bytes));
		});
	}
}
