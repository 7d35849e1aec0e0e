// Calls to the program in its workers.

/** A mistake the program explains: text, hint, and the key of the input it is about. */
export class Complaint extends Error {
	/** @param {Problem} problem */
	constructor(problem) {
		super(problem.text);
		this.problem = problem;
	}
}

/**
 * @param {unknown} error
 * @returns {Problem}
 */
export function problemOf(error) {
	return error instanceof Complaint ? error.problem : { text: String(error) };
}

/** One worker with the program in it. */
class Running {
	/** @param {WebAssembly.Module} [module] compiled before, saves the time */
	constructor(module) {
		/** @type {Map<number, {resolve: (reply: Reply) => void, reject: (error: Error) => void, progress?: (bytes: number, about: number) => void}>} */
		this.waiting = new Map();
		this.last = 0;
		this.module = module;
		this.worker = new Worker("worker.js");
		this.worker.onmessage = (event) => this.take(event.data);
		this.worker.onerror = (event) => {
			for (const w of this.waiting.values()) w.reject(new Complaint({ text: `the program stopped: ${event.message}`, hint: "load the page again" }));
			this.waiting.clear();
		};
	}

	/** @param {any} data */
	take(data) {
		const w = this.waiting.get(data.id);
		if (!w) return;
		if (data.progress !== undefined) {
			w.progress?.(data.progress, data.about);
			return;
		}
		this.waiting.delete(data.id);
		if (data.ok) w.resolve(data);
		else w.reject(new Complaint(data.value));
	}

	/**
	 * @param {string} call
	 * @param {object} [args]
	 * @param {Uint8Array | null} [file]
	 * @param {(bytes: number, about: number) => void} [progress]
	 * @returns {Promise<Reply>}
	 */
	ask(call, args, file, progress) {
		const id = ++this.last;
		return new Promise((resolve, reject) => {
			this.waiting.set(id, { resolve, reject, progress });
			this.worker.postMessage({ id, call, args, file, module: this.module });
		});
	}

	/** Ends the worker; calls it was still about are given up. */
	end() {
		this.worker.terminate();
		for (const w of this.waiting.values()) w.reject(new Complaint({ text: "stopped; nothing was written" }));
		this.waiting.clear();
	}
}

/** The program as the page sees it: one worker answers, another writes workbooks. */
export class Engine {
	constructor() {
		this.answers = new Running();
		/** @type {{source: Source, file: Uint8Array | null} | undefined} */
		this.opened = undefined;
		this.ready = this.answers.ask("begin").then((reply) => {
			this.module = reply.module;
		});
	}

	/**
	 * @template {keyof Calls} C
	 * @param {C} call
	 * @param {Calls[C][0]} args
	 * @returns {Promise<{value: Calls[C][1], file: Uint8Array}>}
	 */
	ask(call, args) {
		return this.answers.ask(call, args);
	}

	/**
	 * Opens weather; what was open stays so where this fails.
	 * @param {Source} source
	 * @param {Uint8Array | null} file
	 * @returns {Promise<Opened>}
	 */
	async open(source, file) {
		const reply = await this.answers.ask("weather", source, file);
		this.opened = { source, file };
		return reply.value;
	}

	/**
	 * Writes the workbook in a worker that lives only so long: its memory goes
	 * back, and answers do not wait for it.
	 * @param {Question} question
	 * @param {(bytes: number, about: number) => void} progress
	 */
	async workbook(question, progress) {
		if (!this.opened) throw new Complaint({ text: "no place is chosen" });
		const writer = this.writer = new Running(this.module);
		try {
			await writer.ask("weather", this.opened.source, this.opened.file);
			return await writer.ask("workbook", question, null, progress);
		} finally {
			writer.end();
		}
	}

	/** Gives up a workbook that is being written. */
	stop() {
		this.writer?.end();
	}
}
