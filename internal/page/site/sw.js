// Keeps the page on the device, so that it opens without a network: all of the
// page at once, the weather of a town when it was chosen.
"use strict";

importScripts("files.js");

const me = /** @type {ServiceWorkerGlobalScope & {pageFiles: string[], pageVersion: string}} */ (/** @type {unknown} */ (self));
const pageCache = `page-${me.pageVersion}`;
const weatherCache = "weather";

me.addEventListener("install", (event) => {
	event.waitUntil(caches.open(pageCache).then((c) => c.addAll(me.pageFiles.map((f) => new Request(f, { cache: "reload" })))).then(() => me.skipWaiting()));
});

me.addEventListener("activate", (event) => {
	event.waitUntil((async () => {
		for (const name of await caches.keys()) if (name.startsWith("page-") && name !== pageCache) await caches.delete(name);
		await me.clients.claim();
	})());
});

me.addEventListener("fetch", (event) => {
	const url = new URL(event.request.url);
	if (event.request.method === "GET" && url.origin === me.location.origin) event.respondWith(answer(event.request, url));
});

/**
 * @param {Request} request
 * @param {URL} url
 */
async function answer(request, url) {
	const kept = await caches.match(request, { ignoreSearch: true });
	if (kept) return kept;
	const response = await fetch(request);
	if (response.ok && url.pathname.includes("/stations/")) {
		const cache = await caches.open(weatherCache);
		await cache.put(request, response.clone());
	}
	return response;
}
