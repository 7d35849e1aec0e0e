// The charts, as SVG in the size they are shown in. Values and words come from
// the program; here are only places on the page.

import { make, svg } from "./dom.js";

const hoursOfDay = 24;

/** What the outcomes are called, and the order in which they are stacked. */
export const outcomeWords = /** @type {const} */ ([
	["vent", "open windows hold"],
	["evap", "the cooler holds"],
	["damp", "not covered: too damp"],
	["warm", "not covered: too warm"],
	["idle", "no cooling needed"],
	["missing", "no weather"],
]);

/**
 * A picture with a name and a text for those who do not see it.
 * @param {number} width
 * @param {number} height
 * @param {string} label
 * @param {...SVGElement} content
 */
function picture(width, height, label, ...content) {
	return svg("svg", { viewBox: `0 0 ${width} ${height}`, width, height, role: "img", "aria-label": label }, ...content);
}

/**
 * @param {number} x
 * @param {number} y
 * @param {string} text
 * @param {string} [anchor]
 */
function label(x, y, text, anchor = "start") {
	return svg("text", { x, y, "text-anchor": anchor, class: "tick" }, text);
}

/** @param {string[]} present outcomes that occur */
export function legend(present) {
	const list = make("ul", { class: "legend" });
	for (const [key, word] of outcomeWords) {
		if (present.includes(key)) list.append(make("li", {}, make("span", { class: `swatch o-${key}`, "aria-hidden": "true" }), word));
	}
	return list;
}

/**
 * Months downwards, hours of the day across; each cell is divided by what
 * becomes of its hours.
 * @param {Heat} heat
 * @param {Month[]} months
 * @param {number} width
 */
export function heatMap(heat, months, width) {
	const left = 30, top = 4, row = 18, gap = 1;
	const column = (width - left) / hoursOfDay;
	const height = top + row * months.length + 18;
	const all = [];
	months.forEach((month, m) => {
		all.push(label(left - 4, top + row * m + 13, month.name, "end"));
		for (let h = 0; h < hoursOfDay; h++) {
			const cell = heat.cells[m]?.[h] ?? [];
			const total = cell.reduce((sum, n) => sum + n, 0);
			let x = left + column * h;
			for (const [key] of outcomeWords) {
				const n = cell[heat.outcomes.indexOf(key)] ?? 0;
				if (!n) continue;
				const w = (column - gap) * n / total;
				all.push(svg("rect", { x: x.toFixed(2), y: top + row * m, width: w.toFixed(2), height: row - gap, class: `o-${key}` }));
				x += w;
			}
		}
	});
	for (let h = 0; h <= hoursOfDay; h += width < 400 ? 6 : 3) {
		all.push(label(left + column * h, height - 4, `${h}`, h === 0 ? "start" : h === hoursOfDay ? "end" : "middle"));
	}
	return picture(width, height, "What becomes of the hours, by month and hour of the day. The table below has the numbers by month.", ...all);
}

/**
 * Months as bars of hours that need cooling, divided by outcome.
 * @param {Heat} heat
 * @param {Month[]} months
 * @param {number} width
 */
export function monthBars(heat, months, width) {
	const left = 34, top = 8, plot = 150, foot = 18;
	const need = (/** @type {Month} */ m) => outcomeWords.slice(0, 4).reduce((sum, [key]) => sum + (m.hours[heat.outcomes.indexOf(key)] ?? 0), 0);
	const most = Math.max(100, ...months.map(need));
	const step = most > 400 ? 200 : most > 200 ? 100 : 50;
	const y = (/** @type {number} */ n) => top + plot - plot * n / most;
	const all = [];
	for (let n = 0; n <= most; n += step) {
		all.push(svg("line", { x1: left, x2: width, y1: y(n), y2: y(n), class: "grid" }), label(left - 4, y(n) + 4, `${n}`, "end"));
	}
	const slot = (width - left) / months.length;
	months.forEach((month, m) => {
		let sum = 0;
		for (const [key] of outcomeWords.slice(0, 4)) {
			const n = month.hours[heat.outcomes.indexOf(key)] ?? 0;
			if (n) all.push(svg("rect", { x: (left + slot * (m + 0.15)).toFixed(2), width: (slot * 0.7).toFixed(2), y: y(sum + n).toFixed(2), height: (y(sum) - y(sum + n)).toFixed(2), class: `o-${key}` }));
			sum += n;
		}
		all.push(label(left + slot * (m + 0.5), top + plot + 14, width < 400 ? month.name.slice(0, 1) : month.name, "middle"));
	});
	return picture(width, top + plot + foot, "Hours that need cooling by month. The table below has the numbers.", ...all);
}

/**
 * A week as lines; hours not covered are shaded.
 * @param {Week} week
 * @param {number} width
 */
export function weekLines(week, width) {
	const left = 34, top = 8, plot = 190, foot = 18;
	const lines = /** @type {const} */ ([["outdoor", week.outdoor], ["supply", week.supply], ["indoor", week.indoor]]);
	const values = lines.flatMap(([, v]) => v.filter((x) => x !== null)).concat(week.setpoint);
	const step = week.unit === "°F" ? 10 : 5;
	const low = Math.floor(Math.min(...values) / step) * step, high = Math.ceil(Math.max(...values) / step) * step;
	const x = (/** @type {number} */ i) => left + (width - left) * i / week.outdoor.length;
	const y = (/** @type {number} */ v) => top + plot - plot * (v - low) / (high - low);
	const all = [];
	for (let i = 0; i < week.outcome.length; i++) {
		const o = week.outcome[i];
		if (o !== "damp" && o !== "warm") continue;
		let n = 1;
		while (week.outcome[i + n] === o) n++;
		all.push(svg("rect", { x: x(i).toFixed(2), width: (x(i + n) - x(i)).toFixed(2), y: top, height: plot, class: `shade o-${o}` }));
		i += n - 1;
	}
	for (let v = low; v <= high; v += step) {
		all.push(svg("line", { x1: left, x2: width, y1: y(v), y2: y(v), class: "grid" }), label(left - 4, y(v) + 4, `${v}`, "end"));
	}
	week.days.forEach((day, d) => {
		const text = width < 400 ? day.split(" ")[0] ?? day : day;
		all.push(label(x(24 * d + 12), top + plot + 14, text, "middle"));
		if (d) all.push(svg("line", { x1: x(24 * d), x2: x(24 * d), y1: top, y2: top + plot, class: "grid" }));
	});
	all.push(svg("line", { x1: left, x2: width, y1: y(week.setpoint), y2: y(week.setpoint), class: "setpoint" }));
	for (const [name, v] of lines) all.push(svg("path", { d: path(v, x, y), class: `line l-${name}` }));
	return picture(width, top + plot + foot, `${week.title}: outdoor, supply and indoor temperature, hour by hour, in ${week.unit}.`, ...all);
}

/**
 * @param {(number | null)[]} values
 * @param {(i: number) => number} x
 * @param {(v: number) => number} y
 */
function path(values, x, y) {
	let d = "", pen = "M";
	values.forEach((v, i) => {
		if (v === null) {
			pen = "M";
			return;
		}
		d += `${pen}${x(i + 0.5).toFixed(1)} ${y(v).toFixed(1)}`;
		pen = "L";
	});
	return d;
}
