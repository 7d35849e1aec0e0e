// The page: puts form, program and answer together.

import { headline, particulars } from "./answer.js";
import { coolerView } from "./cooler.js";
import { byId, download, lead, make } from "./dom.js";
import { Engine, problemOf } from "./engine.js";
import { Form } from "./form.js";
import { carried, fragment, leftOut } from "./link.js";
import { Where } from "./where.js";

const xlsx = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

const engine = new Engine();
const link = carried(location.hash);

/** What the page knows. */
const state = {
	units: link.units || "ip",
	unitsChosen: link.units !== "",
	kind: "",
	place: "",
	/** @type {Opened | undefined} */
	opened: undefined,
	/** @type {Answer | undefined} */
	answer: undefined,
	/** @type {string[]} the inputs of the answer in words */
	given: [],
	/** @type {Problem[]} what of the link was left out */
	left: [],
	moved: false, // the town's house stands at another altitude than its weather was chosen for
	asked: 0,
	/** @type {Promise<void> | undefined} */
	answering: undefined,
};

/** @type {Form} */
let form;
/** @type {Start} */
let start;
/** @type {Where} */
let where;

/**
 * What is asked now: a copy, for a workbook takes its time.
 * @returns {Question}
 */
const question = () => ({ units: state.units, inputs: { ...form.inputs } });

/** @param {string} text */
function say(text) {
	byId("state").textContent = text;
	byId("state").classList.toggle("unseen", state.answer !== undefined && !byId("answer").classList.contains("old"));
}

/** @param {Problem[]} problems */
function complain(problems) {
	byId("complaints").replaceChildren(...[...state.left, ...problems].map((p) => {
		const what = p.key && form?.complain(p.key, p) ? start.sections.flatMap((s) => s.inputs).find((f) => f.key === p.key)?.label : undefined;
		return make("div", { class: "complaint" }, make("p", {}, ...(what ? [to(p.key ?? "", what), ": "] : []), p.text), ...(p.hint ? [make("p", {}, `What to do: ${p.hint}`)] : []));
	}));
}

/**
 * A way to the field of an input, wherever it is.
 * @param {string} key
 * @param {string} label
 */
function to(key, label) {
	const button = make("button", { type: "button", class: "way" }, label);
	button.addEventListener("click", () => form.lead(key));
	return button;
}

/**
 * The answer that is shown is not, or not yet, that to what is entered.
 * @param {string} why
 */
function old(why) {
	byId("answer").classList.add("old");
	say(state.answer ? `${why} What is below is still the answer before.` : why);
	byId("to-answer").textContent = why;
}

/** Asks for the answer to what stands in the form, and shows it. */
function answer() {
	remember();
	if (!state.opened) return Promise.resolve();
	state.asked++;
	state.answering ??= answering().finally(() => { state.answering = undefined; });
	return state.answering;
}

/** Width of the charts on paper, in CSS pixels: A4 and Letter hold it. */
const paper = 640;

/** Longer than this, ms, and the answer shown is marked as the one before. */
const soon = 200;

/** Asks until there is the answer to the newest question; those in between are not asked. */
async function answering() {
	busy(1);
	const late = setTimeout(() => old("Computing."), soon);
	for (let asked = 0; asked !== state.asked;) {
		asked = state.asked;
		try {
			const { value } = await engine.ask("answer", question());
			if (asked === state.asked) take(value, late);
		} catch (error) {
			clearTimeout(late);
			complain([problemOf(error)]);
			old("There is no answer.");
		}
	}
	clearTimeout(late);
	busy(-1);
}

/**
 * @param {Answer} value
 * @param {number} late timer of the note that it is late
 */
function take(value, late) {
	clearTimeout(late);
	for (const key of form.parts.keys()) form.complain(key, undefined);
	complain(value.problems);
	if (value.problems.length) {
		old(value.problems.length === 1 ? "One input is wrong." : `${value.problems.length} inputs are wrong.`);
		return;
	}
	state.answer = value;
	state.given = form.given(value.inputs);
	form.fill(value.inputs);
	actionState(""); // what was done was done with the answer before
	byId("answer").classList.remove("old");
	show();
	say(`${value.verdict.title}: ${value.tiles[0]?.value ?? ""} of the hours that need cooling are held.`);
	byId("answer").dispatchEvent(new CustomEvent("answered", { detail: value })); // for whoever embeds the page, and for tests
}

let working = 0;

/** @param {number} more things that are being done */
function busy(more) {
	working += more;
	document.documentElement.dataset.busy = working ? "yes" : "no";
}

/** @param {string} key of the input that changed */
function changed(key) {
	state.moved ||= key === "site.altitude" && state.kind === "town";
	if (state.moved) void where.town(state.place); // another station may stand for it
	else void answer();
}

/**
 * Shows the answer there is, in the room there is: also where that changes, with
 * an old answer.
 * @param {number} [room] width of the charts; what there is unless stated
 */
function show(room) {
	const a = state.answer;
	if (!a) return;
	const result = byId("result");
	const more = byId("particulars");
	result.hidden = more.hidden = byId("actions").hidden = false;
	const width = room ?? Math.round(Math.min(900, Math.max(280, result.clientWidth)));
	result.replaceChildren(...headline(a, state.opened));
	more.replaceChildren(...particulars(a, width, state.given));
	byId("to-answer").hidden = !byId("cooler-view").hidden;
	if (!byId("answer").classList.contains("old")) byId("to-answer").textContent = `${a.verdict.title}, ${a.tiles[0]?.value ?? ""} held: see the answer`;
}

/** Keeps what was entered in the address, and what is personal in this tab alone. */
function remember() {
	try {
		history.replaceState(null, "", fragment({ kind: state.kind, place: state.place, units: state.units, inputs: form.inputs }, start.personal));
		sessionStorage.setItem(personalStore, JSON.stringify(Object.fromEntries(Object.entries(form.inputs).filter(([key]) => start.personal.includes(key)))));
	} catch {
		// a browser that keeps nothing, or will not so often: the page works all the same
	}
}

const personalStore = "evapbook personal";

/**
 * What was personal in this tab before it was loaded again. Another link in the
 * same tab is another customer's.
 * @returns {Record<string, string>}
 */
function personal() {
	const [visit] = /** @type {PerformanceNavigationTiming[]} */ (performance.getEntriesByType("navigation"));
	if (visit?.type !== "reload" && visit?.type !== "back_forward") return {};
	try {
		const kept = Object.entries(JSON.parse(sessionStorage.getItem(personalStore) ?? "{}"));
		return Object.fromEntries(kept.filter(([key, text]) => start.personal.includes(key) && typeof text === "string"));
	} catch {
		return {};
	}
}

/**
 * Opens weather and answers.
 * @param {Source} source
 * @param {Uint8Array | null} file
 */
async function open(source, file) {
	busy(1);
	const late = setTimeout(() => old("Reading the weather."), soon);
	try {
		state.opened = await engine.open(source, file);
		clearTimeout(late);
		state.kind = source.kind;
		state.place = source.kind === "town" ? source.name ?? "" : "";
		state.moved = false;
		if (document.documentElement.dataset.ready) state.left = []; // what a link left out stands until more is done than to open it
		if (!state.unitsChosen) useUnits(state.opened.units);
		await answer();
		return state.opened;
	} finally {
		clearTimeout(late);
		busy(-1);
	}
}

/** @param {string} units */
function useUnits(units) {
	state.units = units;
	for (const radio of /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll("input[name=units]"))) radio.checked = radio.value === units;
	form.show(units);
}

/** @param {string} text */
const actionState = (text) => { byId("action-state").textContent = text; };

/** Writes the workbook and gives it to the person. */
async function getBook() {
	const button = /** @type {HTMLButtonElement} */ (byId("get-book"));
	const bar = /** @type {HTMLProgressElement} */ (byId("book-bar"));
	button.disabled = true;
	byId("book-progress").hidden = false;
	bar.value = 0;
	actionState("");
	try {
		const reply = await engine.workbook(question(), (bytes, of) => {
			bar.value = Math.min(1, bytes / of);
			byId("book-bytes").textContent = `${(bytes / 1e6).toFixed(1)} MB`;
		});
		download(reply.value.name, reply.file, xlsx);
		actionState(`${reply.value.name} is written, ${(reply.file.length / 1e6).toFixed(1)} MB.`);
	} catch (error) {
		const p = problemOf(error);
		actionState([p.text, p.hint].filter(Boolean).join("; "));
	} finally {
		button.disabled = false;
		byId("book-progress").hidden = true;
	}
}

async function getJob() {
	try {
		const { value, file } = await engine.ask("job", question());
		download(value.name, file, "application/toml");
		actionState(`${value.name} is written; the command takes it with write --job.`);
	} catch (error) {
		actionState(problemOf(error).text);
	}
}

async function getLink() {
	remember();
	const note = state.kind === "file" ? " The weather file is not in it: whoever opens the link chooses it again." : " Names and proposal texts are not in it.";
	try {
		await navigator.clipboard.writeText(location.href);
		actionState(`The link is copied.${note}`);
	} catch {
		actionState(`The link is in the address line: copy it there.${note}`);
	}
}

function listen() {
	for (const radio of /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll("input[name=units]"))) {
		radio.addEventListener("change", () => {
			state.unitsChosen = true;
			useUnits(radio.value);
			void answer();
		});
	}
	byId("steps").addEventListener("submit", (event) => event.preventDefault());
	document.addEventListener("click", (event) => { // a way within the page is no new address: the address holds what was entered
		const way = event.target instanceof Element ? event.target.closest("a[href^='#']") : null;
		if (!way) return;
		event.preventDefault();
		lead(byId(way.getAttribute("href")?.slice(1) ?? ""));
	});
	window.addEventListener("hashchange", () => location.reload()); // another link, put into the address line
	byId("again").addEventListener("click", () => {
		state.left = [];
		complain([]);
		form.take({});
		changed("site.altitude"); // it has its usual value again too
	});
	byId("get-book").addEventListener("click", () => void getBook());
	byId("book-stop").addEventListener("click", () => engine.stop());
	byId("get-job").addEventListener("click", () => void getJob());
	byId("get-link").addEventListener("click", () => void getLink());
	byId("print").addEventListener("click", () => window.print());
	window.addEventListener("beforeprint", () => show(paper));
	window.addEventListener("afterprint", () => show());
	let width = window.innerWidth;
	window.addEventListener("resize", () => {
		if (width !== window.innerWidth) show();
		width = window.innerWidth;
	});
	views();
}

/** The two views of the page. */
function views() {
	const look = (/** @type {boolean} */ cooler) => {
		byId("house-view").hidden = cooler;
		byId("cooler-view").hidden = !cooler;
		byId("to-house").setAttribute("aria-pressed", String(!cooler));
		byId("to-cooler").setAttribute("aria-pressed", String(cooler));
		byId("to-answer").hidden = true;
		if (!cooler) show();
	};
	byId("to-house").addEventListener("click", () => look(false));
	byId("to-cooler").addEventListener("click", () => look(true));
}

async function begin() {
	if ("serviceWorker" in navigator) navigator.serviceWorker.register("sw.js").catch(() => undefined); // without it the page works, but not offline
	await engine.ready;
	start = (await engine.ask("start", {})).value;
	byId("version").textContent = `evapbook ${start.version}`;
	state.left = leftOut(location.hash, link, (key) => start.sections.some((s) => s.inputs.some((f) => f.key === key)));
	form = new Form(start, state.units, changed);
	form.take({ ...link.inputs, ...personal() });
	useUnits(state.units);
	listen();
	coolerView(engine, start, () => ({ units: state.units, altitude: state.answer?.inputs["site.altitude"]?.text ?? "", site: state.answer?.site ?? "", cooler: state.answer?.inputs["cooler.kind"]?.text ?? "" }));
	where = new Where(engine, () => ({ units: state.units, altitude: form.inputs["site.altitude"] ?? "" }), start.max_bytes, open, busy, () => old("The place could not be opened."));
	say("Choose a place to begin.");
	complain([]);
	void engine.ask("towns", { text: "a", units: state.units, altitude: "" }); // so that the first letters typed do not wait for the list to be read
	await where.begin(link);
	document.documentElement.dataset.ready = "yes";
}

begin().catch((error) => {
	const p = problemOf(error);
	say("");
	byId("complaints").replaceChildren(make("p", { class: "complaint" }, [p.text, p.hint].filter(Boolean).join("; ")));
});
