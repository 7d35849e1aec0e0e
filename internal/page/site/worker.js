// The program in a worker of its own, so that the page stays alive while it
// computes. A classic script: Go's wasm_exec.js is one.
/* global Go */
"use strict";

importScripts("wasm_exec.js");

const worker = /** @type {DedicatedWorkerGlobalScope & WorkerExtras} */ (/** @type {unknown} */ (self));

/** Which call is being made, for the progress of a workbook. */
let current = 0;

worker.evapbookProgress = (bytes, about) => worker.postMessage({ id: current, progress: bytes, about });

/** engine.bin is gzipped, so that every web host sends it small. */
async function fetchEngine() {
	const response = await fetch("engine.bin");
	if (!response.ok || !response.body) throw new Error(`engine.bin: ${response.status} ${response.statusText}`);
	const packed = new Uint8Array(await response.arrayBuffer());
	const gzipped = packed[0] === 0x1f && packed[1] === 0x8b; // a host may have unpacked it
	const stream = new Blob([packed]).stream();
	const plain = gzipped ? stream.pipeThrough(new DecompressionStream("gzip")) : stream;
	return WebAssembly.compileStreaming(new Response(plain, { headers: { "Content-Type": "application/wasm" } }));
}

/** @param {WebAssembly.Module | undefined} compiled by another worker of this page */
async function begin(compiled) {
	const module = compiled ?? await fetchEngine();
	const go = new Go();
	const instance = await WebAssembly.instantiate(module, go.importObject);
	void go.run(instance); // runs until the worker ends
	return module;
}

/** @type {Promise<WebAssembly.Module> | undefined} */
let running;

worker.onmessage = async (event) => {
	const { id, call, args, file, module } = event.data;
	try {
		running ??= begin(module);
		const compiled = await running;
		if (call === "begin") {
			worker.postMessage({ id, ok: true, value: null, module: compiled });
			return;
		}
		current = id;
		const reply = worker.evapbook(call, JSON.stringify(args ?? {}), file ?? null);
		worker.postMessage({ id, ok: reply.ok, value: JSON.parse(reply.json), file: reply.file }, reply.file ? [reply.file.buffer] : []);
	} catch (error) {
		worker.postMessage({ id, ok: false, value: { text: `the program could not be started: ${error instanceof Error ? error.message : error}`, hint: "load the page again" } });
	}
};
