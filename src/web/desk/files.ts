/** Fleet, bookings and stock of the desk: files of the reader's own, or the invented ones of the demo. */
import demoFleet from "../../../data/demo/fleet.json" with { type: "json" };
import demoStock from "../../../data/demo/stock.json" with { type: "json" };
import demoTrips from "../../../data/demo/trips.json" with { type: "json" };
import { makeStore } from "../state/store.ts";
import { readShelf, writeShelf } from "./watched.ts";

/** As a file calls its list, and as a request does. */
export const PARTS = ["fleet", "trips", "stock"] as const;
export type Part = (typeof PARTS)[number];

interface HeldList {
  /** As it was written; the core reads it and says what is wrong with it. */
  readonly list: readonly unknown[];
  /** What the file says about itself. */
  readonly note: string | null;
  /** True for the demo's own. */
  readonly demo: boolean;
}

export type DeskFiles = Readonly<Record<Part, HeldList>>;

const DEMO: DeskFiles = {
  fleet: { list: demoFleet.fleet, note: demoFleet.note, demo: true },
  trips: { list: demoTrips.trips, note: demoTrips.note, demo: true },
  stock: { list: demoStock.stock, note: demoStock.note, demo: true },
};

const KEY = "padwright-desk";

function heldIn(value: unknown): HeldList | null {
  if (typeof value !== "object" || value === null) return null;
  const { list, note } = value as { readonly list?: unknown; readonly note?: unknown };
  return Array.isArray(list) ? { list, note: typeof note === "string" ? note : null, demo: false } : null;
}

function readFiles(): DeskFiles {
  const kept = readShelf(KEY) as Partial<Record<Part, unknown>> | null;
  const at = (part: Part) => heldIn(kept?.[part]) ?? DEMO[part];
  return { fleet: at("fleet"), trips: at("trips"), stock: at("stock") };
}

export const deskFiles = makeStore<DeskFiles>(readFiles());

function keepFiles(change: Partial<DeskFiles>): void {
  deskFiles.set(change);
  const files = deskFiles.get();
  writeShelf(KEY, Object.fromEntries(PARTS.filter((part) => !files[part].demo).map((part) => [part, files[part]])));
}

export function setList(part: Part, list: readonly unknown[], note: string | null): void {
  keepFiles({ [part]: { list, note, demo: false } });
}

export const backToDemo = (part: Part): void => keepFiles({ [part]: DEMO[part] });

/** The list of a file's text under its own name, or as the whole file; throws with words for the reader. */
export function listOf(part: Part, text: string): { readonly list: readonly unknown[]; readonly note: string | null } {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch {
    throw new Error("This file is no JSON.");
  }
  if (Array.isArray(value)) return { list: value, note: null };
  const { [part]: list, note } = (typeof value === "object" && value !== null ? value : {}) as Record<string, unknown>;
  if (!Array.isArray(list)) throw new Error(`This file has no list "${part}".`);
  return { list, note: typeof note === "string" ? note : null };
}

/** The file of a part, as `listOf` reads it. */
export function textOf(part: Part): string {
  const { list, note } = deskFiles.get()[part];
  return `${JSON.stringify({ ...(note === null ? {} : { note }), [part]: list }, null, 2)}\n`;
}

export type Wire = Readonly<Record<string, unknown>>;

export const wireOf = (value: unknown): Wire =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Wire) : {};

export const nameOf = (one: Wire): string => String(one["name"] ?? one["id"] ?? "without a name");

export function tripOf(id: string): Wire | null {
  return (
    deskFiles
      .get()
      .trips.list.map(wireOf)
      .find((one) => one["id"] === id) ?? null
  );
}

/** Puts a booking in the place of the one that has its id. */
export function setTrip(trip: Wire): void {
  const { list, note } = deskFiles.get().trips;
  setList(
    "trips",
    list.map((one) => (wireOf(one)["id"] === trip["id"] ? trip : one)),
    note,
  );
}
