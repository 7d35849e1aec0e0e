// What passes between the page and package page of the program. A test keeps
// these and the Go types the same.

interface Problem { key?: string; text: string; hint?: string }

interface Reply { value: any; file: Uint8Array; module?: WebAssembly.Module }

interface Source {
	kind: string; name?: string; station?: string; altitude?: string; allow_gaps?: boolean;
	elevation?: string; latitude?: string; longitude?: string; utc_offset?: string;
}
interface Opened {
	place: string; from: string; units: string; elevation: string; invented: boolean; years: number; notes: string[];
}
interface Question { units: string; inputs: Record<string, string> }

interface Start {
	version: string; sections: FormSection[]; presets: Preset[]; pads: Choice[]; cautions: string[]; personal: string[]; max_bytes: number;
}
interface FormSection { name: string; title: string; inputs: Field[] }
interface Field {
	key: string; label: string; kind: string; choices?: string[]; help?: string; why: string;
	unit?: Record<string, string>; range?: Record<string, string>; usual: Record<string, string>;
}
interface Choice { value: string; label: string }
interface Preset { key: string; label: string; choices: Choice[] }

interface Answer {
	problems: Problem[]; inputs: Record<string, Shown>;
	site: string; altitude: string; verdict: Verdict; hours: Part[]; story: string[]; tiles: Tile[]; costs: Costs;
	cautions: string[]; notes: string[];
	heat: Heat; months: Month[]; week: Week; figures: any; file: string;
}
interface Shown { text: string; stated: boolean }
interface Verdict { word: string; title: string; why: string; marks: string }
interface Part { key: string; label: string; count: string; share: number }
interface Tile { caption: string; value: string; below: string }
interface Costs { heads: string[]; rows: string[][] }
interface Heat { outcomes: string[]; cells: number[][][] }
interface Month { name: string; hours: number[]; cooler: string; refrigerated: string; water: string }
interface Week {
	title: string; unit: string; setpoint: number; days: string[];
	outdoor: (number | null)[]; supply: (number | null)[]; indoor: (number | null)[]; outcome: string[];
}

interface Typed { text: string; units: string; altitude: string }
interface Suggestion { name: string; altitude: string }
interface Chosen { name: string; number: string; notes: string[] }
interface Point { latitude: string; longitude: string }
interface Link { service: string; what: string; address: string }

interface Judged { verdict: string; meaning: string; lines: Line[] }
interface Line { label: string; text: string }

interface Calls {
	start: [{}, Start];
	answer: [Question, Answer];
	job: [Question, { name: string }];
	towns: [Typed, Suggestion[]];
	place: [Typed, Chosen];
	links: [Point, Link[]];
	reading: [Record<string, string>, Judged];
	readings: [{ rows: Record<string, string>[] }, { name: string }];
}

/** What Go and the worker add to the worker's global object. */
interface WorkerExtras {
	evapbook(call: string, json: string, file: Uint8Array | null): { ok: boolean; json: string; file: Uint8Array | null };
	evapbookProgress(bytes: number, about: number): void;
}
declare class Go {
	importObject: WebAssembly.Imports;
	run(instance: WebAssembly.Instance): Promise<void>;
}
