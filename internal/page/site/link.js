// The address: its fragment carries what was entered, so that a page can be sent
// and comes back as it was. Nothing personal goes into it.

/**
 * @typedef {{kind: string, place: string, units: string, inputs: Record<string, string>}} Carried
 * kind of weather ("town", "sample", "file" or empty), the town, units, inputs
 */

/**
 * @param {Carried} c
 * @param {string[]} personal keys to leave out
 */
export function fragment(c, personal) {
	const p = new URLSearchParams();
	if (c.kind) p.set("weather", c.kind);
	if (c.place) p.set("place", c.place);
	p.set("units", c.units);
	for (const [key, value] of Object.entries(c.inputs)) {
		if (!personal.includes(key)) p.set(key, value);
	}
	return `#${p}`;
}

/** No link of ours is longer: all inputs are some 5,000 characters. */
const longest = 50_000;

/**
 * @param {string} hash
 * @returns {Carried}
 */
export function carried(hash) {
	if (hash.length > longest) return { kind: "", place: "", units: "", inputs: {} };
	const p = new URLSearchParams(hash.replace(/^#/, ""));
	/** @type {Carried} */
	const c = { kind: p.get("weather") ?? "", place: p.get("place") ?? "", units: p.get("units") === "si" ? "si" : p.get("units") === "ip" ? "ip" : "", inputs: {} };
	for (const [key, value] of p) if (key.includes(".")) c.inputs[key] = value;
	return c;
}

/**
 * What of a link this page cannot follow, and takes out of it.
 * @param {string} hash
 * @param {Carried} link
 * @param {(key: string) => boolean} known
 * @returns {Problem[]}
 */
export function leftOut(hash, link, known) {
	if (hash.length > longest) return [{ text: "the link is too long to be one of this page; nothing of it was taken" }];
	const all = [];
	if (link.kind === "file") all.push({ text: "this page stood on a weather file, which no address can carry", hint: "choose the file again: what was stated is there" });
	for (const key of Object.keys(link.inputs)) {
		if (known(key)) continue;
		delete link.inputs[key];
		all.push({ text: `the link states ${key.slice(0, 60)}, which is no input of this version; it was left out` });
	}
	return all;
}
