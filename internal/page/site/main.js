// The page: puts form, program and answer together.

import { headline, particulars } from "./answer.js";
import { coolerView } from "./cooler.js";
import { byId, download, make } from "./dom.js";
import { Engine, problemOf } from "./engine.js";
import { Form } from "./form.js";
import { carried, fragment } from "./link.js";
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
	asked: 0,
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
	byId("complaints").replaceChildren(...problems.map((p) => {
		const named = p.key ? form.complain(p.key, p) : false;
		const what = named ? start.sections.flatMap((s) => s.inputs).find((f) => f.key === p.key)?.label : undefined;
		return make("div", { class: "complaint" }, make("p", {}, what ? make("strong", {}, `${what}: `) : "", p.text), ...(p.hint ? [make("p", {}, p.hint)] : []));
	}));
}

/** Asks for the answer to what stands in the form, and shows it. */
async function answer() {
	remember();
	if (!state.opened) return;
	const asked = ++state.asked;
	document.documentElement.dataset.busy = "yes";
	try {
		const { value } = await engine.ask("answer", question());
		if (asked !== state.asked) return; // something newer is on its way
		for (const key of form.parts.keys()) form.complain(key, undefined);
		complain(value.problems);
		if (value.problems.length) {
			byId("answer").classList.add("old");
			say("What is below is still the answer to the inputs before.");
			return;
		}
		state.answer = value;
		form.fill(value.inputs);
		byId("answer").classList.remove("old");
		show();
		say(`${value.verdict.title}: ${value.tiles[0]?.value ?? ""} of the hours that need cooling are held.`);
		byId("answer").dispatchEvent(new CustomEvent("answered", { detail: value })); // for whoever embeds the page, and for tests
	} catch (error) {
		complain([problemOf(error)]);
	} finally {
		if (asked === state.asked) document.documentElement.dataset.busy = "no";
	}
}

/** @param {string} key of the input that changed */
function changed(key) {
	if (key === "site.altitude" && state.kind === "town") void where.town(state.place);
	else void answer();
}

/** Shows the answer there is, in the room there is: also where that changes, with an old answer. */
function show() {
	const a = state.answer;
	if (!a) return;
	const result = byId("result");
	const more = byId("particulars");
	result.hidden = more.hidden = byId("actions").hidden = false;
	const width = Math.round(Math.min(900, Math.max(280, result.clientWidth)));
	result.replaceChildren(...headline(a, state.opened));
	more.replaceChildren(...particulars(a, width));
	const to = byId("to-answer");
	to.hidden = false;
	to.textContent = `${a.verdict.title}, ${a.tiles[0]?.value ?? ""} held: see the answer`;
}

/** Keeps what was entered in the address. */
function remember() {
	history.replaceState(null, "", fragment({ kind: state.kind, place: state.place, units: state.units, inputs: form.inputs }, start.personal));
}

/**
 * Opens weather and answers.
 * @param {Source} source
 * @param {Uint8Array | null} file
 */
async function open(source, file) {
	say("Reading the weather.");
	try {
		state.opened = await engine.open(source, file);
	} catch (error) {
		say(state.answer ? "What is below is still the answer for the place before." : "");
		throw error;
	}
	state.kind = source.kind;
	state.place = source.kind === "town" ? source.name ?? "" : "";
	if (!state.unitsChosen) useUnits(state.opened.units);
	await answer();
	return state.opened;
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
	byId("again").addEventListener("click", () => {
		form.take({});
		changed("site.altitude"); // it has its usual value again too
	});
	byId("get-book").addEventListener("click", () => void getBook());
	byId("book-stop").addEventListener("click", () => engine.stop());
	byId("get-job").addEventListener("click", () => void getJob());
	byId("get-link").addEventListener("click", () => void getLink());
	byId("print").addEventListener("click", () => window.print());
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
		byId("to-answer").hidden = cooler || !state.answer;
		byId("to-house").setAttribute("aria-pressed", String(!cooler));
		byId("to-cooler").setAttribute("aria-pressed", String(cooler));
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
	form = new Form(start, state.units, changed);
	form.take(link.inputs);
	useUnits(state.units);
	listen();
	coolerView(engine, start, () => ({ units: state.units, altitude: state.answer?.inputs["site.altitude"]?.text ?? "", site: state.answer?.site ?? "" }));
	where = new Where(engine, () => ({ units: state.units, altitude: form.inputs["site.altitude"] ?? "" }), open);
	say("Choose a place to begin.");
	void engine.ask("towns", { text: "a", units: state.units, altitude: "" }); // so that the first letters typed do not wait for the list to be read
	await where.begin(link);
	document.documentElement.dataset.ready = "yes";
}

begin().catch((error) => {
	const p = problemOf(error);
	say("");
	byId("complaints").replaceChildren(make("p", { class: "complaint" }, [p.text, p.hint].filter(Boolean).join("; ")));
});
