/** Reading and changing a rig record in its wire form, by path. Nothing is changed in place. */
import type { WireRig } from "../state/store.ts";

export type Path = readonly (string | number)[];

/** JSON Pointer of a path, as errors name it. */
export function pointerOf(path: Path): string {
  return path.map((part) => `/${String(part).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

export function valueAt(value: unknown, path: Path): unknown {
  let here = value;
  for (const part of path) {
    if (Array.isArray(here) && typeof part === "number") here = here[part];
    else if (isObject(here) && Object.hasOwn(here, part)) here = here[part];
    else return undefined;
  }
  return here;
}

export function listAt(rig: WireRig, key: string): readonly Readonly<Record<string, unknown>>[] {
  const list = rig[key];
  return Array.isArray(list) ? list.map((entry) => (isObject(entry) ? entry : {})) : [];
}

/** True for what need not be written: nothing, an empty object or list. */
function isNothing(value: unknown): boolean {
  return (
    value === undefined ||
    (Array.isArray(value) ? value.length === 0 : isObject(value) && Object.keys(value).length === 0)
  );
}

function changed(here: unknown, [part, ...rest]: Path, value: unknown): unknown {
  if (part === undefined) return value;
  if (typeof part === "number") {
    const list = Array.isArray(here) ? [...here] : [];
    const next = changed(list[part], rest, value);
    // An entry of a list is taken out only by name of the entry itself; emptied of its fields it stays.
    if (rest.length === 0 && next === undefined) list.splice(part, 1);
    else list[part] = next ?? {};
    return list;
  }
  const object = isObject(here) ? here : {};
  const next = changed(Object.hasOwn(object, part) ? object[part] : undefined, rest, value);
  if (isNothing(next)) return Object.fromEntries(Object.entries(object).filter(([key]) => key !== part));
  return { ...object, [part]: next };
}

/** The record with another value at the path; undefined takes the field, or the entry of a list, out. */
export function withValue(rig: WireRig, path: Path, value: unknown): WireRig {
  return changed(rig, path, value) as WireRig;
}

export function withEntry(rig: WireRig, list: string, entry: Readonly<Record<string, unknown>>): WireRig {
  return { ...rig, [list]: [...listAt(rig, list), entry] };
}
