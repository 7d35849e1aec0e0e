// Making elements, in one line each.

/**
 * @param {string} id
 * @returns {HTMLElement}
 */
export function byId(id) {
	const e = document.getElementById(id);
	if (!e) throw new Error(`no element is called ${id}`);
	return e;
}

/**
 * An element with attributes and content; an attribute that is false, null or
 * undefined is left out.
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {Record<string, string | number | boolean | null | undefined>} [attributes]
 * @param {...(Node | string)} content
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, attributes = {}, ...content) {
	const e = document.createElement(tag);
	set(e, attributes);
	e.append(...content);
	return e;
}

/**
 * Whether a text is a number alone, which takes the unit that stands beside its
 * field.
 * @param {string} text
 */
export const bare = (text) => /^[-+−\d.,\s]+$/.test(text);

/**
 * Leads to an element: opened, in view and with the focus.
 * @param {HTMLElement} e
 */
export function lead(e) {
	for (let d = e.closest("details"); d; d = d.parentElement?.closest("details") ?? null) d.open = true;
	e.scrollIntoView({ block: "start" });
	e.focus({ preventScroll: true });
}

/**
 * The same for SVG.
 * @param {string} tag
 * @param {Record<string, string | number | boolean | null | undefined>} [attributes]
 * @param {...(Node | string)} content
 * @returns {SVGElement}
 */
export function svg(tag, attributes = {}, ...content) {
	const e = document.createElementNS("http://www.w3.org/2000/svg", tag);
	set(e, attributes);
	e.append(...content);
	return e;
}

/**
 * @param {Element} e
 * @param {Record<string, string | number | boolean | null | undefined>} attributes
 */
function set(e, attributes) {
	for (const [name, value] of Object.entries(attributes)) {
		if (value !== undefined && value !== null && value !== false) e.setAttribute(name, value === true ? "" : String(value));
	}
}

/**
 * Gives a file to the person.
 * @param {string} name
 * @param {Uint8Array} bytes
 * @param {string} type
 */
export function download(name, bytes, type) {
	const url = URL.createObjectURL(new Blob([/** @type {BlobPart} */ (bytes)], { type }));
	const a = make("a", { href: url, download: name });
	document.body.append(a);
	a.click();
	a.remove();
	setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
