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
	if (c.kind && c.kind !== "file") p.set("weather", c.kind);
	if (c.place) p.set("place", c.place);
	p.set("units", c.units);
	for (const [key, value] of Object.entries(c.inputs)) {
		if (!personal.includes(key)) p.set(key, value);
	}
	return `#${p}`;
}

/**
 * @param {string} hash
 * @returns {Carried}
 */
export function carried(hash) {
	const p = new URLSearchParams(hash.replace(/^#/, ""));
	/** @type {Carried} */
	const c = { kind: p.get("weather") ?? "", place: p.get("place") ?? "", units: p.get("units") === "si" ? "si" : p.get("units") === "ip" ? "ip" : "", inputs: {} };
	for (const [key, value] of p) if (key.includes(".")) c.inputs[key] = value;
	return c;
}
