/** From text or an object to plain JSON values that are fit to be looked at: capped, finite, without prototype keys. */
import type { CampgroundLimits } from "./geojson-limits.ts";
import type { Findings } from "./geojson-report.ts";
import { pointerStep, readJson } from "./json.ts";

/** Keys that a careless merge would turn into a change of the prototype; they are left out. */
const PROTOTYPE_KEYS: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);
const FORBIDDEN_KEY = "forbidden-key";
/** The reader of text stops counting faults there, so that a longer list is not the whole list. */
const FAULTS_READ = 50;
const BYTES_PER_UNIT_AT_MOST = 3;

/** The values of the document; undefined when it is refused (the findings say why). */
export function readInput(input: unknown, limits: CampgroundLimits, findings: Findings): unknown {
  const value = typeof input === "string" ? parseText(input, limits, findings) : input;
  return value === undefined && findings.refused.length > 0 ? undefined : plainCopy(value, limits, findings);
}

function parseText(text: string, limits: CampgroundLimits, findings: Findings): unknown {
  if (byteLength(text, limits.bytes) > limits.bytes) {
    findings.refuse(
      "",
      "too-large",
      `The document has more than ${limits.bytes} bytes.`,
      `at most ${limits.bytes} bytes`,
    );
    return undefined;
  }
  const reading = readJson(text, limits.depth);
  if (reading.ok) return reading.value;
  const decided = reading.faults.filter((fault) => fault.code !== FORBIDDEN_KEY);
  if (decided.length === 0 && reading.faults.length < FAULTS_READ) {
    // Nothing but prototype keys: the text is well formed and within the depth, and the copy leaves those keys out.
    return JSON.parse(text.charCodeAt(0) === BYTE_ORDER_MARK ? text.slice(1) : text);
  }
  for (const fault of decided.length > 0 ? decided : reading.faults) {
    const place = `line ${fault.line}, column ${fault.column}`;
    findings.refuse(fault.pointer, fault.code, `${fault.message} (${place})`, EXPECTED[fault.code]);
  }
  return undefined;
}

const BYTE_ORDER_MARK = 0xfeff;
const EXPECTED = {
  "malformed-json": "JSON text (RFC 8259)",
  "too-deep": "fewer levels of nesting",
  "duplicate-key": "each key once in an object",
  "forbidden-key": "no key that reaches for an object's prototype",
  "number-out-of-range": "a number that can be held",
} as const;

/** Bytes in UTF-8; stops counting past `cap`. */
function byteLength(text: string, cap: number): number {
  if (text.length > cap) return text.length;
  if (text.length * BYTES_PER_UNIT_AT_MOST <= cap) return text.length;
  return new TextEncoder().encode(text).byteLength;
}

interface Task {
  readonly source: unknown;
  readonly path: string;
  readonly depth: number;
  readonly put: (value: unknown) => void;
}

/**
 * A copy that shares nothing with the input and holds plain JSON only. Without recursion, so that depth cannot break
 * it. A value that is not JSON (NaN, a function, a date object) is refused with its path and put as null.
 */
function plainCopy(input: unknown, limits: CampgroundLimits, findings: Findings): unknown {
  let result: unknown;
  let values = 0;
  const tasks: Task[] = [{ source: input, path: "", depth: 0, put: (value) => (result = value) }];
  for (let task = tasks.pop(); task !== undefined; task = tasks.pop()) {
    values += 1;
    if (values > limits.values || task.depth > limits.depth) {
      const code = task.depth > limits.depth ? "too-deep" : "too-large";
      findings.refuse(task.path, code, "The document is too deep or too large.", `at most ${limits.depth} levels deep`);
      return undefined;
    }
    copyOne(task, tasks, findings);
  }
  return result;
}

function copyOne({ source, path, depth, put }: Task, tasks: Task[], findings: Findings): void {
  if (Array.isArray(source)) {
    const copy: unknown[] = new Array(source.length).fill(null);
    put(copy);
    for (let index = source.length - 1; index >= 0; index -= 1) {
      const set = (value: unknown) => (copy[index] = value);
      tasks.push({ source: source[index], path: `${path}/${index}`, depth: depth + 1, put: set });
    }
    return;
  }
  if (isPlainObject(source)) {
    const copy: Record<string, unknown> = {};
    put(copy);
    for (const key of Object.keys(source).reverse()) {
      const below = path + pointerStep(key);
      if (PROTOTYPE_KEYS.has(key)) {
        findings.warn("ignored", below, `The key "${key}" reaches for an object's prototype and was left out.`);
      } else if (source[key] !== undefined) {
        const set = (value: unknown) => (copy[key] = value);
        tasks.push({ source: source[key], path: below, depth: depth + 1, put: set });
      }
    }
    return;
  }
  const plain = source === null || typeof source === "string" || typeof source === "boolean";
  if (plain || (typeof source === "number" && Number.isFinite(source))) {
    put(source);
    return;
  }
  put(null);
  findings.refuse(
    path,
    "not-json",
    `${typeof source === "number" ? source : typeof source} is not a JSON value.`,
    "JSON",
  );
}

/** True for objects made by a literal or by a JSON parser. */
export function isPlainObject(value: unknown): value is Record<string, unknown> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype) === null;
}
