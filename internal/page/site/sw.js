// Keeps the page on the device, so that it opens without a network. The weather
// of a town is kept by where.js when it is chosen.
"use strict";

importScripts("files.js");

const me = /** @type {ServiceWorkerGlobalScope & {pageFiles: string[], pageVersion: string}} */ (/** @type {unknown} */ (self));
const pageCache = `page-${me.pageVersion}`;

me.addEventListener("install", (event) => {
	event.waitUntil(caches.open(pageCache).then((c) => c.addAll(me.pageFiles.map((f) => new Request(f, { cache: "no-cache" })))).then(() => me.skipWaiting()));
});

me.addEventListener("activate", (event) => {
	event.waitUntil((async () => {
		for (const name of await caches.keys()) if (name.startsWith("page-") && name !== pageCache) await caches.delete(name);
		await me.clients.claim();
	})());
});

me.addEventListener("fetch", (event) => {
	const url = new URL(event.request.url);
	if (event.request.method === "GET" && url.origin === me.location.origin) event.respondWith(answer(event.request));
});

/** @param {Request} request */
async function answer(request) {
	return await caches.match(request, { ignoreSearch: true }) ?? fetch(request);
}
