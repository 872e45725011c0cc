/**
 * The one store of the page.
 *
 * What it holds:
 * - `kept`: what stays on the device from visit to visit: the rig as wire JSON (what `parseRig` reads, exactly as typed
 *   or imported; never the completed rig), the units, what is asked for (`question`, the wire form of fit options),
 *   the chosen campground's id, filters, order, the sites chosen for comparison, and the fixes that were applied,
 *   by site.
 * - everything else is of this visit: the opened campground, the ranked rows and how far the ranking is.
 *
 * How to use it:
 * - read in a component: `const rig = useStore((state) => state.kept.rig)`; the component draws anew when that changes.
 * - change what is kept: `keep({ units: "us" })` or `keep({ rig })`. Give new objects, never change old ones in place.
 *   A new rig, units or question starts the ranking anew by itself (see session.ts).
 * - change the rest: `store.set({ ... })`, only from session.ts.
 *
 * A view that edits the rig keeps its draft to itself and calls `keep({ rig })` when the draft is worth answering with;
 * `core.checkRig(draft)` (core/client.ts) tells its errors by field and gives the completed rig. A view that needs an
 * answer calls `core.fit(...)`. No view imports the core's code, only its types: the code runs in workers.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { FixChange } from "../../fit/answer.ts";
import type { FitOptionsInput } from "../../fit/options.ts";
import type { Language } from "../../trip/card/card.ts";
import type { OpenedCampground, SiteRow } from "../core/protocol.ts";
import type { WindChoice } from "../wind/choice.ts";

export type Units = "us" | "metric";
export type WireRig = Readonly<Record<string, unknown>>;
export type Order = "rank" | "margin" | "shelter" | "name";

/** Where wind comes from, in the order of a row's `wind`. */
export const WINDS_FROM = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"] as const;
export type WindFrom = (typeof WINDS_FROM)[number];

export interface Filters {
  readonly power: boolean;
  readonly sewer: boolean;
  readonly pullThrough: boolean;
  readonly accessible: boolean;
  readonly shade: boolean;
  /** Hides what does not fit. */
  readonly fitting: boolean;
  /** Only sites that are not highly exposed to wind from there; empty for any. */
  readonly windFrom: "" | WindFrom;
}

export const NO_FILTERS: Filters = {
  power: false,
  sewer: false,
  pullThrough: false,
  accessible: false,
  shade: false,
  fitting: false,
  windFrom: "",
};

/** Wire form of the options without what the page sets itself. */
export type Question = Omit<FitOptionsInput, "units" | "detail">;

/** A change that was applied, with the words under which it was offered. */
export interface AppliedFix {
  readonly title: string;
  readonly change: FixChange;
}

export interface Kept {
  readonly rig: WireRig;
  readonly units: Units;
  readonly question: Question;
  readonly campground: string | null;
  readonly filters: Filters;
  readonly order: Order;
  /** Sites to compare, by id, in the order of choosing. */
  readonly chosen: readonly string[];
  /** By site id; cleared for every site when the rig changes. */
  readonly fixes: Readonly<Record<string, readonly AppliedFix[]>>;
  /** The wind that sites are judged by. */
  readonly wind: WindChoice;
  /** On a narrow screen: list or map. */
  readonly narrowView: "list" | "map";
  /** Language of the hookup cards. */
  readonly cardLanguage: Language;
}

export interface Listed {
  readonly id: string;
  readonly name: string;
  readonly sites: number;
  /** Where it can be loaded from now. */
  readonly from: "server" | "device";
}

export interface Ranking {
  readonly rows: ReadonlyMap<string, SiteRow>;
  readonly done: number;
  readonly of: number;
  readonly running: boolean;
}

export interface PageState {
  readonly kept: Kept;
  /** Null until a campground is opened. */
  readonly opened: OpenedCampground | null;
  readonly campgrounds: readonly Listed[];
  readonly ranking: Ranking;
  /** Words on what went wrong last, or null. */
  readonly trouble: string | null;
  /** False when the rig cannot be read: then nothing is ranked. */
  readonly rigRead: boolean;
  /** True while the answers come from what this device keeps, without the server. */
  readonly withoutServer: boolean;
}

export interface Store<State> {
  get(): State;
  set(change: Partial<State>): void;
  subscribe(listener: () => void): () => void;
}

export function makeStore<State extends object>(initial: State): Store<State> {
  let state = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => state,
    set: (change) => {
      state = { ...state, ...change };
      for (const listener of [...listeners]) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

export const NO_RANKING: Ranking = { rows: new Map(), done: 0, of: 0, running: false };

let shared: Store<PageState> | null = null;

/** Called once by main.tsx with what the device kept. */
export function openStore(kept: Kept): Store<PageState> {
  shared = makeStore<PageState>({
    kept,
    opened: null,
    campgrounds: [],
    ranking: NO_RANKING,
    trouble: null,
    rigRead: true,
    withoutServer: false,
  });
  return shared;
}

/** The store of the page. */
export function theStore(): Store<PageState> {
  if (shared === null) throw new Error("The store is opened by main.tsx before anything is drawn.");
  return shared;
}

/** A part of the state; draws the component anew when that part is another object or value. */
export function useStore<Part>(select: (state: PageState) => Part): Part {
  const store = theStore();
  const [, redraw] = useState(0);
  const value = select(store.get());
  const last = useRef({ select, value });
  last.current = { select, value };
  useEffect(() => {
    const hear = () => {
      if (!Object.is(last.current.select(store.get()), last.current.value)) redraw((count) => count + 1);
    };
    hear();
    return store.subscribe(hear);
  }, [store]);
  return value;
}

/** Changes what stays on the device. */
export function keep(change: Partial<Kept>): void {
  const store = theStore();
  const { kept } = store.get();
  const cleared = change.rig === undefined ? {} : { fixes: {} };
  store.set({ kept: { ...kept, ...cleared, ...change } });
}
