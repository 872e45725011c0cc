/**
 * Two people changed one site: what each of them changed against what both had seen, leaf by leaf. Lists whose entries
 * have ids are told apart by those ids, so that a moved pedestal and a new tap do not get in each other's way.
 */

/** Steps down a record; `#tap` names the entry of a list whose id is `tap`. */
export type RecordPath = readonly string[];
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type JsonObject = { readonly [key: string]: Json };

const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const isIdList = (value: Json | undefined): value is readonly JsonObject[] =>
  Array.isArray(value) &&
  value.length > 0 &&
  value.every((one) => isObject(one) && typeof one["id"] === "string") &&
  new Set(value.map((one) => (one as JsonObject)["id"])).size === value.length;

const keyOf = (path: RecordPath): string => JSON.stringify(path);

/** Every leaf by its path. A list without ids is one leaf. */
function leavesOf(value: Json, path: RecordPath = [], into = new Map<string, Json>()): Map<string, Json> {
  if (isIdList(value)) for (const one of value) leavesOf(one, [...path, `#${String(one["id"])}`], into);
  else if (isObject(value) && Object.keys(value).length > 0) {
    for (const [key, part] of Object.entries(value)) leavesOf(part, [...path, key], into);
  } else into.set(keyOf(path), value);
  return into;
}

export interface RecordChange {
  readonly path: RecordPath;
  /** Undefined: it is not there. */
  readonly before: Json | undefined;
  readonly after: Json | undefined;
}

/** What differs, leaf by leaf. */
export function changesBetween(before: Json, after: Json): readonly RecordChange[] {
  const [one, other] = [leavesOf(before), leavesOf(after)];
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((key) => {
    const change = { path: JSON.parse(key) as RecordPath, before: one.get(key), after: other.get(key) };
    return JSON.stringify(change.before) === JSON.stringify(change.after) ? [] : [change];
  });
}

export interface RecordConflict {
  readonly path: RecordPath;
  readonly base: Json | undefined;
  readonly mine: Json | undefined;
  readonly theirs: Json | undefined;
}

/** Leaves that both changed, and not to the same. */
export function conflictsOf(base: Json, mine: Json, theirs: Json): readonly RecordConflict[] {
  const other = changesBetween(base, theirs);
  return changesBetween(base, mine).flatMap(({ path, before, after }) => {
    const same = other.find((one) => meets(one.path, path));
    if (same === undefined || JSON.stringify(same.after) === JSON.stringify(after)) return [];
    return [{ path, base: before, mine: after, theirs: valueAt(theirs, path) }];
  });
}

/** One path is the other, or lies within it. */
function meets(one: RecordPath, other: RecordPath): boolean {
  const short = Math.min(one.length, other.length);
  return one.slice(0, short).every((step, index) => step === other[index]);
}

/** Members that say how the values beside them are known. */
const PROVENANCE: readonly string[] = ["basis", "accuracy", "accuracyShared", "observedAt", "place"];

/** The entry of a list that a path lies in, or else its parent. */
function ownerOf(path: RecordPath): RecordPath {
  const entry = path.findLastIndex((step) => step.startsWith("#"));
  return entry < 0 ? path.slice(0, -1) : path.slice(0, entry + 1);
}

/**
 * Their record with my changes in it, but for the conflicts in which theirs is chosen. Where their value stays, what
 * they say of how it is known stays too: a measured place must not pass for a guessed one, nor the other way about.
 */
export function mergedRecord(base: Json, mine: Json, theirs: Json, chosen: ReadonlySet<string>): Json {
  const left = conflictsOf(base, mine, theirs).filter(({ path }) => !chosen.has(pathText(path)));
  const keys = new Set(left.map(({ path }) => keyOf(path)));
  const owners = new Set(left.map(({ path }) => keyOf(ownerOf(path))));
  const isTheirs = (path: RecordPath): boolean =>
    keys.has(keyOf(path)) || (PROVENANCE.includes(path.at(-1) ?? "") && owners.has(keyOf(ownerOf(path))));
  return changesBetween(base, mine)
    .filter(({ path }) => !isTheirs(path))
    .reduce<Json>((record, { path, after }) => withValue(record, path, after) ?? record, theirs);
}

/** A path in words: also the name of a choice. */
export const pathText = (path: RecordPath): string =>
  path
    .filter((step) => step !== "properties")
    .map((step) => (step.startsWith("#") ? step.slice(1) : step))
    .join(", ");

function childOf(value: Json | undefined, step: string): Json | undefined {
  if (step.startsWith("#")) {
    return Array.isArray(value) ? value.find((one) => isObject(one) && one["id"] === step.slice(1)) : undefined;
  }
  return isObject(value) ? value[step] : undefined;
}

export const valueAt = (record: Json | undefined, path: RecordPath): Json | undefined =>
  path.reduce<Json | undefined>(childOf, record);

/** The record with a value at a path; undefined takes it away, and whatever is empty for want of it. */
export function withValue(record: Json | undefined, path: RecordPath, value: Json | undefined): Json | undefined {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  const child = withValue(childOf(record, step), rest, value);
  if (step.startsWith("#")) {
    const list = Array.isArray(record) ? (record as readonly JsonObject[]) : [];
    const id = step.slice(1);
    if (child === undefined) return emptied(list.filter((one) => one["id"] !== id));
    const isThere = list.some((one) => one["id"] === id);
    // An entry that was taken away and is given a value again needs its name.
    const named = isObject(child) ? { id, ...child } : child;
    return isThere ? list.map((one) => (one["id"] === id ? named : one)) : [...list, named];
  }
  const { [step]: _gone, ...others } = isObject(record) ? record : {};
  if (child === undefined) return emptied(others);
  return isObject(record) && step in record ? { ...record, [step]: child } : { ...others, [step]: child };
}

function emptied(value: JsonObject | readonly Json[]): Json | undefined {
  const isLeft = Array.isArray(value)
    ? value.some((one) => isObject(one) && Object.keys(one).some((key) => key !== "id"))
    : Object.keys(value).length > 0;
  return isLeft ? (value as Json) : undefined;
}

/** A merge patch (RFC 7396) from one record to the other; null when they are alike. */
export function mergePatchOf(before: Json, after: Json): Json | null {
  if (JSON.stringify(before) === JSON.stringify(after)) return null;
  if (!isObject(before) || !isObject(after)) return after;
  const patch: Record<string, Json> = {};
  for (const key of new Set([...Object.keys(before), ...Object.keys(after)])) {
    const [one, other] = [before[key], after[key]];
    if (JSON.stringify(one) === JSON.stringify(other)) continue;
    patch[key] = other === undefined ? null : isObject(one) && isObject(other) ? mergePatchOf(one, other) : other;
  }
  return patch;
}
