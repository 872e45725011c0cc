/**
 * Long work and what came of it. A job outlives the view that began it, so that a clerk may look at something else
 * meanwhile; the same question is not worked out twice.
 */

import type { Tools } from "../context.ts";
import type { Running } from "../core/client.ts";
import type { DeskTold, PlanAsked, PlanProgress, TripTold } from "../core/trip-protocol.ts";
import { makeStore, type Store } from "../state/store.ts";
import { campgroundsIn, campgroundTexts } from "./campgrounds.ts";
import { type DeskFiles, type Wire, wireOf } from "./files.ts";
import { readShelf, writeShelf } from "./watched.ts";

export type Job<Told> =
  | { readonly state: "none" | "stopped" }
  | { readonly state: "running"; readonly progress: PlanProgress; readonly stop: () => void }
  | { readonly state: "done"; readonly told: Told }
  | { readonly state: "failed"; readonly message: string };

const NONE = { state: "none" } as const;
const UNKNOWN: PlanProgress = { done: 0, of: 0 };

interface Jobs<Told> {
  readonly byKey: ReadonlyMap<string, Job<Told>>;
}

/** Answers kept at a time; the oldest goes first. */
const MOST_KEPT = 40;

function put<Told>(store: Store<Jobs<Told>>, key: string, job: Job<Told>): void {
  const rest = [...store.get().byKey].filter(([other]) => other !== key);
  store.set({ byKey: new Map([...rest.slice(-MOST_KEPT), [key, job]]) });
}

interface Work<Told> {
  readonly store: Store<Jobs<Told>>;
  readonly key: string;
  readonly ask: () => Promise<PlanAsked>;
  readonly run: (asked: PlanAsked, step: (progress: PlanProgress) => void) => Running<Told | null>;
}

/** Begins the work unless it runs or is done. Resolves when it has ended in whatever way. */
async function work<Told>({ store, key, ask, run }: Work<Told>): Promise<void> {
  const { state } = store.get().byKey.get(key) ?? NONE;
  if (state === "running" || state === "done") return;
  let stopped = false;
  let stopIt = () => {};
  const stop = () => {
    stopped = true;
    stopIt();
    put(store, key, { state: "stopped" });
  };
  put(store, key, { state: "running", progress: UNKNOWN, stop });
  try {
    const asked = await ask();
    if (stopped) return;
    const running = run(asked, (progress) => stopped || put(store, key, { state: "running", progress, stop }));
    stopIt = running.stop;
    const told = await running.answer;
    if (!stopped) put(store, key, told === null ? { state: "stopped" } : { state: "done", told });
  } catch (fault) {
    const message = fault instanceof Error ? fault.message : String(fault);
    if (!stopped) put(store, key, { state: "failed", message });
  }
}

export type Units = "us" | "metric";

export function deskBody({ fleet, trips, stock }: DeskFiles, units: Units): Wire {
  return { fleet: fleet.list, trips: trips.list, stock: stock.list, options: { units } };
}

const DESK_KEY = "padwright-desk-answer";
/** Another build of the page may answer otherwise. */
const keyOf = (body: Wire): string => `${import.meta.url} ${JSON.stringify(body)}`;

/** The last desk is kept on the device, because it takes long. */
function keptDesk(): ReadonlyMap<string, Job<DeskTold>> {
  const { key, told } = wireOf(readShelf(DESK_KEY));
  if (typeof key !== "string" || wireOf(told)["ok"] !== true) return new Map();
  return new Map([[key, { state: "done", told: told as DeskTold }]]);
}

export const desks = makeStore<Jobs<DeskTold>>({ byKey: keptDesk() });
export const trips = makeStore<Jobs<TripTold>>({ byKey: new Map() });

export const jobOf = <Told>({ byKey }: Jobs<Told>, body: Wire): Job<Told> => byKey.get(keyOf(body)) ?? NONE;

export async function workDesk({ core, session }: Tools, body: Wire): Promise<void> {
  const key = keyOf(body);
  const booked = (body["trips"] as readonly unknown[]).map(wireOf);
  await work({
    store: desks,
    key,
    ask: async () => ({ body, campgrounds: await campgroundTexts(session, campgroundsIn(booked)) }),
    run: (asked, step) => core.desk(asked, step),
  });
  const job = jobOf(desks.get(), body);
  if (job.state === "done" && job.told.ok) writeShelf(DESK_KEY, { key, told: job.told });
}

const askedOf = async ({ session }: Tools, body: Wire): Promise<PlanAsked> => ({
  body,
  campgrounds: await campgroundTexts(session, campgroundsIn([body])),
});

export function workTrip(tools: Tools, body: Wire): Promise<void> {
  return work({
    store: trips,
    key: keyOf(body),
    ask: () => askedOf(tools, body),
    run: (asked, step) => tools.core.trip({ ...asked, checkOnly: false }, step),
  });
}

/** What is wrong with a trip, without working it out. */
export async function checkTrip(tools: Tools, body: Wire): Promise<TripTold | null> {
  const asked = await askedOf(tools, body);
  return tools.core.trip({ ...asked, checkOnly: true }, () => {}).answer;
}
