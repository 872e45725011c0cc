/**
 * A rig may say its lines in short (a cord with its plug, a hose) or give each connection a place. The short forms are
 * turned into connections when a place is given; the first four numbers are edited wherever they stand.
 */
import type { WireRig } from "../state/store.ts";
import { listAt, type Path, valueAt, withEntry, withValue } from "./wire.ts";

export type ShortKey = "power" | "waterHose" | "sewerHose" | "cableCord";
const SERVICE_OF: Readonly<Record<ShortKey, string>> = {
  power: "power",
  waterHose: "water",
  sewerHose: "sewer",
  cableCord: "cable",
};

/** Place of a service in `connections`; -1 when there is none. */
export function connectionOf(rig: WireRig, service: string): number {
  return listAt(rig, "connections").findIndex((entry) => entry["service"] === service);
}

/** Where the plug, the cord and the drain hose of this record are written. */
export function startPaths(rig: WireRig): { readonly plug: Path; readonly cord: Path; readonly hose: Path } {
  const power = connectionOf(rig, "power");
  const sewer = connectionOf(rig, "sewer");
  return {
    plug: power < 0 ? ["power", "plug"] : ["connections", power, "plug"],
    cord: power < 0 ? ["power", "cord"] : ["connections", power, "line", "length"],
    hose: sewer < 0 ? ["sewerHose"] : ["connections", sewer, "line", "length"],
  };
}

/** The key of a short form from a completed connection's pointer; null for one that has its entry already. */
export function shortKeyOf(pointer: string): ShortKey | null {
  const key = pointer.slice(1);
  return Object.hasOwn(SERVICE_OF, key) ? (key as ShortKey) : null;
}

const present = (entries: Readonly<Record<string, unknown>>) =>
  Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined));

/** The record with this short form as an entry of `connections` on the given wall; nothing else is said of it. */
export function asConnection(rig: WireRig, key: ShortKey, side: string): WireRig {
  const service = SERVICE_OF[key];
  const without = withValue(rig, [key], undefined);
  if (key !== "power") return withEntry(without, "connections", { service, side, line: { length: rig[key] } });
  const field = (name: string) => valueAt(rig, ["power", name]);
  const line = present({ length: field("cord"), gauge: field("gauge") });
  const entry = {
    service,
    side: field("side") ?? side,
    ...present({ fromRear: field("fromRear"), height: field("height"), plug: field("plug"), line }),
  };
  return withEntry(without, "connections", entry);
}

/** The record with its short awning as an entry of `awnings`. */
export function asAwnings(rig: WireRig, side: string): WireRig {
  const awning = valueAt(rig, ["awning"]);
  if (typeof awning !== "object" || awning === null) return rig;
  return withEntry(withValue(rig, ["awning"], undefined), "awnings", { side, ...awning });
}
