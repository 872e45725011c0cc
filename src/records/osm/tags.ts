/** Tags of an element: taking them in, reading them with a memory of what was read, and giving the rest on unchanged. */

import type { OsmElement, Tags } from "./element.ts";
import { OSM_LIMITS } from "./limits.ts";
import { type OsmNotes, quoted } from "./notes.ts";

/** Keys that a careless merge would turn into a change of the prototype. */
const PROTOTYPE_KEYS: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);

/** Puts one tag in, unless it is none. The first of two with the same key stands. */
export function putTag(tags: Map<string, string>, key: string, value: string, element: string, notes: OsmNotes): void {
  if (key === "" || value === "") return;
  if (PROTOTYPE_KEYS.has(key)) {
    notes.warn("ignored-tag", element, key, `The key ${quoted(key)} is not taken.`);
  } else if (key.length > OSM_LIMITS.textLength || value.length > OSM_LIMITS.textLength) {
    const text = `A key or value of more than ${OSM_LIMITS.textLength} characters was left out.`;
    notes.warn("ignored-tag", element, key.slice(0, OSM_LIMITS.textLength), text);
  } else if (tags.has(key)) {
    if (tags.get(key) !== value) {
      notes.warn("contradiction", element, key, `The key ${quoted(key)} is given twice; the first value stands.`);
    }
  } else if (tags.size >= OSM_LIMITS.tagsPerElement) {
    notes.warn("ignored-tag", element, key, `More than ${OSM_LIMITS.tagsPerElement} tags; the rest was left out.`);
  } else {
    tags.set(key, value);
  }
}

/** Reads tags of one element and remembers which were read. */
export class TagReader {
  private readonly read = new Set<string>();
  /** Sentences that go into the record beside the tags. */
  readonly remarks: string[] = [];
  readonly tags: Tags;
  readonly key: string;
  private readonly original: Tags;

  constructor(
    element: OsmElement,
    readonly notes: OsmNotes,
  ) {
    this.tags = element.tags;
    this.key = element.key;
    this.original = element.replaced?.original ?? element.tags;
    for (const key of element.replaced?.keys ?? []) this.read.add(key);
  }

  /** The value, trimmed; undefined when there is none. The tag counts as read. */
  get(key: string): string | undefined {
    const value = this.tags.get(key)?.trim();
    if (value === undefined || value === "") return undefined;
    this.read.add(key);
    return value;
  }

  /** The first of several keys that has a value, and that key. */
  first(keys: readonly string[]): { readonly key: string; readonly value: string } | undefined {
    for (const key of keys) {
      const value = this.get(key);
      if (value !== undefined) return { key, value };
    }
    return undefined;
  }

  /** yes or no; another word is warned of and counts as unknown. */
  yesNo(key: string): "yes" | "no" | undefined {
    const value = this.get(key)?.toLowerCase();
    if (value === undefined || value === "yes" || value === "no") return value;
    this.unread(key);
    return undefined;
  }

  /** Takes back that a tag was read: its value was of no use. */
  unread(key: string): void {
    this.read.delete(key);
  }

  warn(code: Parameters<OsmNotes["warn"]>[0], key: string | null, text: string): void {
    this.notes.warn(code, this.key, key, text);
  }

  /** A remark that both the report and the record carry. */
  remark(code: Parameters<OsmNotes["warn"]>[0], key: string | null, text: string): void {
    this.warn(code, key, text);
    this.remarks.push(text);
  }

  /** Counts every tag of a record that was made, as read or as kept. */
  countKept(): void {
    for (const key of this.original.keys()) this.notes.count(key, this.read.has(key) ? "read" : "kept");
  }

  /** What the record keeps of the element, so that nothing is lost. */
  kept(more: Readonly<Record<string, unknown>> = {}): Record<string, unknown> {
    const remarks = this.remarks.length === 0 ? {} : { remarks: [...new Set(this.remarks)] };
    return { id: this.key, tags: tagObject(this.original), ...more, ...remarks };
  }
}

export function tagObject(tags: Tags): Record<string, string> {
  return Object.fromEntries([...tags].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}
