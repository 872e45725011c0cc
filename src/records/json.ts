/**
 * A strict reader of JSON text from outside. It differs from `JSON.parse` in what it refuses: nesting deeper than a cap,
 * a key given twice in one object (`JSON.parse` keeps the last and says nothing), keys that reach for an object's
 * prototype, and numbers that overflow to infinity. Every fault carries its JSON Pointer, line and column. A byte order
 * mark at the start is ignored, as RFC 8259 section 8.1 permits (from memory).
 */

/** Deepest nesting of objects and arrays that is read. */
export const MAX_JSON_DEPTH = 32;
/** Faults listed before the reader stops counting. */
const MAX_FAULTS = 50;

export type JsonValue = null | boolean | number | string | JsonValue[] | { [key: string]: JsonValue };

type JsonFaultCode = "malformed-json" | "too-deep" | "duplicate-key" | "forbidden-key" | "number-out-of-range";

export interface JsonFault {
  readonly code: JsonFaultCode;
  /** JSON Pointer of the value at fault; the innermost open value for malformed text. */
  readonly pointer: string;
  /** Counted from 1. */
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export type JsonReading =
  | { readonly ok: true; readonly value: JsonValue }
  | { readonly ok: false; readonly faults: readonly JsonFault[] };

/** Keys that a careless merge would turn into a change of the prototype. */
const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids bare control characters in strings.
const PLAIN_TEXT = /[^"\\\u0000-\u001f]*/y;
const SPACE = /[ \t\n\r]*/y;
const FOUR_HEX_DIGITS = /[0-9a-fA-F]{4}/y;
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  "\\": "\\",
  "/": "/",
  b: "\b",
  f: "\f",
  n: "\n",
  r: "\r",
  t: "\t",
};
const HEXADECIMAL = 16;
const ESCAPED_UNIT_DIGITS = 4;

/** Thrown inside the reader to leave it at the first fault after which the text makes no sense. */
class Stop extends Error {}

/**
 * Reads JSON text. Malformed text and excess depth end the reading at once; the other faults are gathered, so that a
 * caller sees all of them in one answer.
 */
export function readJson(text: string, maxDepth: number = MAX_JSON_DEPTH): JsonReading {
  const reader = new Reader(text, maxDepth);
  try {
    const value = reader.document();
    return reader.faults.length === 0 ? { ok: true, value } : { ok: false, faults: reader.faults };
  } catch (thrown) {
    if (thrown instanceof Stop) return { ok: false, faults: reader.faults };
    throw thrown;
  }
}

/** One step of a JSON Pointer (RFC 6901: `~` and `/` escaped). */
export function pointerStep(key: string | number): string {
  return `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`;
}

class Reader {
  readonly faults: JsonFault[] = [];
  private at = 0;
  private readonly path: (string | number)[] = [];

  constructor(
    private readonly text: string,
    private readonly maxDepth: number,
  ) {
    if (text.charCodeAt(0) === BYTE_ORDER_MARK) this.at = 1;
  }

  document(): JsonValue {
    const value = this.value(0);
    this.space();
    if (this.at < this.text.length) this.malformed("text after the end of the JSON value");
    return value;
  }

  private value(depth: number): JsonValue {
    this.space();
    const first = this.text[this.at];
    if (first === "{" || first === "[") {
      if (depth >= this.maxDepth) {
        this.fault("too-deep", `Nested deeper than ${this.maxDepth} levels.`);
        throw new Stop();
      }
      return first === "{" ? this.object(depth + 1) : this.array(depth + 1);
    }
    if (first === '"') return this.string();
    if (first === "t") return this.word("true", true);
    if (first === "f") return this.word("false", false);
    if (first === "n") return this.word("null", null);
    return this.number();
  }

  private object(depth: number): JsonValue {
    const result: { [key: string]: JsonValue } = {};
    const seen = new Set<string>();
    this.at += 1;
    this.space();
    if (this.take("}")) return result;
    for (;;) {
      this.space();
      const start = this.at;
      if (this.text[start] !== '"') this.malformed("a key in double quotes is expected here");
      const key = this.string();
      this.path.push(key);
      if (FORBIDDEN_KEYS.has(key)) this.fault("forbidden-key", `The key "${key}" is not accepted.`, start);
      else if (seen.has(key)) this.fault("duplicate-key", "This key is given twice in one object.", start);
      seen.add(key);
      this.space();
      if (!this.take(":")) this.malformed("a colon is expected here");
      const value = this.value(depth);
      if (!FORBIDDEN_KEYS.has(key)) result[key] = value;
      this.path.pop();
      this.space();
      if (this.take("}")) return result;
      if (!this.take(",")) this.malformed("a comma or a closing brace is expected here");
    }
  }

  private array(depth: number): JsonValue {
    const result: JsonValue[] = [];
    this.at += 1;
    this.space();
    if (this.take("]")) return result;
    for (;;) {
      this.path.push(result.length);
      result.push(this.value(depth));
      this.path.pop();
      this.space();
      if (this.take("]")) return result;
      if (!this.take(",")) this.malformed("a comma or a closing bracket is expected here");
    }
  }

  private string(): string {
    this.at += 1;
    let result = "";
    for (;;) {
      PLAIN_TEXT.lastIndex = this.at;
      result += PLAIN_TEXT.exec(this.text)?.[0] ?? "";
      this.at = PLAIN_TEXT.lastIndex;
      if (this.take('"')) return result;
      if (!this.take("\\")) this.malformed("a string is not closed, or holds a bare control character");
      const letter = this.text[this.at] ?? "";
      this.at += 1;
      if (letter === "u") {
        FOUR_HEX_DIGITS.lastIndex = this.at;
        const digits = FOUR_HEX_DIGITS.exec(this.text)?.[0];
        if (digits === undefined) this.malformed("\\u wants four hexadecimal digits");
        result += String.fromCharCode(Number.parseInt(digits, HEXADECIMAL));
        this.at += ESCAPED_UNIT_DIGITS;
      } else {
        const character = ESCAPES[letter];
        if (character === undefined) this.malformed("this escape is not one of JSON's");
        result += character;
      }
    }
  }

  private number(): number {
    const start = this.at;
    NUMBER.lastIndex = start;
    const token = NUMBER.exec(this.text)?.[0];
    if (token === undefined) {
      this.malformed(start >= this.text.length ? "the text ends too early" : "a JSON value is expected here");
    }
    this.at += token.length;
    const value = Number(token);
    if (!Number.isFinite(value)) this.fault("number-out-of-range", "This number is too large to be held.", start);
    return value;
  }

  private word<T extends boolean | null>(word: string, value: T): T {
    if (!this.text.startsWith(word, this.at)) this.malformed("a JSON value is expected here");
    this.at += word.length;
    return value;
  }

  private space(): void {
    SPACE.lastIndex = this.at;
    SPACE.exec(this.text);
    this.at = SPACE.lastIndex;
  }

  private take(character: string): boolean {
    if (this.text[this.at] !== character) return false;
    this.at += 1;
    return true;
  }

  private malformed(what: string): never {
    this.fault("malformed-json", `Not JSON: ${what}.`);
    throw new Stop();
  }

  private fault(code: JsonFaultCode, message: string, at: number = this.at): void {
    if (this.faults.length >= MAX_FAULTS) throw new Stop();
    const before = this.text.slice(0, at);
    const line = before.split("\n").length;
    const column = at - before.lastIndexOf("\n");
    this.faults.push({ code, pointer: this.path.map(pointerStep).join(""), line, column, message });
  }
}

const BYTE_ORDER_MARK = 0xfeff;
