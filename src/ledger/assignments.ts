/** Where stays stand: moves by hand, locks, and whole plans that a host accepts. */
import { recordChange } from "./changes.ts";
import { purgeHolds, readHold, removeHold } from "./holds.ts";
import { type Act, instant, type Ledger, LedgerRefusal, type RefusalPart } from "./ledger.ts";
import { type OutletWish, releaseStay, takeSite } from "./occupation.ts";
import { expectPlan, growPlan } from "./plan-number.ts";
import { readStay, type Stay, type StayPlace } from "./stays.ts";

/** One stay from the site where the caller has seen it to another; null is no site. */
export interface Move {
  readonly stay: string;
  readonly from: string | null;
  readonly to: string | null;
  readonly outlets: readonly OutletWish[];
  /** True when the new site is promised to the stay. */
  readonly lock: boolean;
  /** A hold that the stay takes the place of; null for none. */
  readonly hold: string | null;
}

/**
 * Moves stays, all or none: every stay leaves its site before the first takes a new one, so that two may change
 * places. Refused when a stay is not where the caller has seen it, is locked, or somebody else has the new site.
 */
export function moveStays(ledger: Ledger, act: Act, moves: readonly Move[]): readonly Stay[] {
  purgeHolds(ledger, act);
  const faults: RefusalPart[] = [];
  const before = moves.map((move, index) => {
    const stay = readStay(ledger, act.campground, move.stay);
    const fault = stay === null ? absent(move.stay) : faultOfMove(stay, move);
    if (fault !== null) faults.push({ ...fault, pointer: `/${index}${fault.pointer}` });
    return stay;
  });
  throwAny(faults);
  const known = before.filter((stay) => stay !== null);
  for (const stay of known) if (stay.place !== null) releaseStay(ledger, act.campground, stay.id);
  endHolds(ledger, act, moves, faults);
  const places = known.map((stay, index): StayPlace | null => {
    const { to, lock, outlets } = moves[index] as Move;
    if (to === null) return null;
    return collect(faults, `/${index}`, () => {
      const got = takeSite(ledger, act.campground, stay.id, { site: to, locked: lock, outlets }, stay);
      return { site: to, locked: lock, outlets: got };
    });
  });
  throwAny(faults);
  growPlan(ledger, act.campground);
  return known.map((stay, index) => writePlace(ledger, act, stay, places[index] ?? null));
}

/** Ends the holds that stays take the place of. One that has ended meanwhile may have left its site to others. */
function endHolds(ledger: Ledger, act: Act, moves: readonly Move[], faults: RefusalPart[]): void {
  moves.forEach(({ hold: id }, index) => {
    if (id === null) return;
    const hold = readHold(ledger, act.campground, id);
    if (hold !== null) removeHold(ledger, act, hold);
    else faults.push({ code: "changed", pointer: `/${index}/hold`, message: `There is no hold ${id} now.` });
  });
}

function faultOfMove(stay: Stay, move: Move): RefusalPart | null {
  const at = stay.place?.site ?? null;
  if (at !== move.from) {
    const where = at === null ? "has no site" : `is on site ${at}`;
    return { code: "changed", pointer: "/from", message: `The stay ${stay.id} ${where} now.` };
  }
  if (stay.place?.locked === true && move.to !== at) {
    return {
      code: "locked",
      pointer: "/stay",
      message: `Site ${at} is locked for the stay ${stay.id}: unlock it first.`,
    };
  }
  return statusFault(stay);
}

function statusFault(stay: Stay): RefusalPart | null {
  if (stay.status !== "cancelled" && stay.status !== "departed") return null;
  return { code: "wrong-status", pointer: "/stay", message: `The stay ${stay.id} is ${stay.status}.` };
}

const absent = (stay: string): RefusalPart => ({
  code: "absent",
  pointer: "/stay",
  message: `There is no stay ${stay}.`,
});

/** Locks or unlocks the sites of stays. One that is so already is left as it is. */
export function lockStays(ledger: Ledger, act: Act, stays: readonly string[], locked: boolean): readonly Stay[] {
  const faults: RefusalPart[] = [];
  const found = stays.map((id, index) => {
    const stay = readStay(ledger, act.campground, id);
    const fault =
      stay === null
        ? absent(id)
        : stay.place === null
          ? ({ code: "wrong-status", pointer: "", message: `The stay ${id} has no site.` } as const)
          : null;
    if (fault !== null) faults.push({ ...fault, pointer: `/${index}` });
    return stay;
  });
  throwAny(faults);
  const known = found.filter((stay) => stay !== null);
  const changing = known.filter((stay) => stay.place?.locked !== locked);
  if (changing.length > 0) growPlan(ledger, act.campground);
  return known.map((stay) => {
    if (stay.place === null || stay.place.locked === locked) return stay;
    ledger.sql.run(
      "UPDATE assignment SET locked = ? WHERE campground = ? AND stay = ?",
      locked ? 1 : 0,
      act.campground,
      stay.id,
    );
    return writePlace(ledger, act, stay, { ...stay.place, locked });
  });
}

/** A line of a plan: the site that a stay gets, or null. */
export interface PlanEntry {
  readonly stay: string;
  readonly site: string | null;
  readonly outlets: readonly string[];
}

/**
 * Accepts a plan that was made from the plan of number `expected`: every stay of it gets its site, all or none.
 * Stays that it does not name stay where they are. Refused when it moves a locked stay or guests in house.
 */
export function acceptPlan(
  ledger: Ledger,
  act: Act,
  expected: number,
  entries: readonly PlanEntry[],
  about: Readonly<Record<string, unknown>>,
): { readonly version: number; readonly moved: readonly Stay[] } {
  expectPlan(ledger, act.campground, expected);
  purgeHolds(ledger, act);
  const faults: RefusalPart[] = [];
  const moving: { readonly index: number; readonly stay: Stay; readonly entry: PlanEntry }[] = [];
  entries.forEach((entry, index) => {
    const stay = readStay(ledger, act.campground, entry.stay);
    const fault = stay === null ? absent(entry.stay) : faultOfEntry(stay, entry);
    if (fault !== null) faults.push({ ...fault, pointer: `/${index}${fault.pointer}` });
    else if (stay !== null && !isSame(stay.place, entry)) moving.push({ index, stay, entry });
  });
  throwAny(faults);
  for (const { stay } of moving) if (stay.place !== null) releaseStay(ledger, act.campground, stay.id);
  const placed = moving.map(({ index, stay, entry }): StayPlace | null => {
    const { site } = entry;
    if (site === null) return null;
    const locked = stay.place?.locked ?? false;
    return collect(faults, `/${index}`, () => {
      const outlets = takeSite(ledger, act.campground, stay.id, { site, locked, outlets: entry.outlets }, stay);
      return { site, locked, outlets };
    });
  });
  throwAny(faults);
  const version = growPlan(ledger, act.campground);
  const moved = moving.map(({ stay }, index) => writePlace(ledger, act, stay, placed[index] ?? null));
  ledger.sql.run(
    "INSERT INTO accepted_plan (campground, version, at, actor, body) VALUES (?, ?, ?, ?, ?)",
    act.campground,
    version,
    instant(ledger),
    act.actor,
    JSON.stringify({ ...about, entries }),
  );
  recordChange(ledger, act, {
    kind: "plan",
    subject: String(version),
    action: "accepted",
    version,
    before: { version: expected },
    after: { version, moved: moved.length },
  });
  return { version, moved };
}

function faultOfEntry(stay: Stay, { site }: PlanEntry): RefusalPart | null {
  const at = stay.place?.site ?? null;
  if (at === null || at === site) return statusFault(stay);
  if (stay.place?.locked === true) {
    return { code: "locked", pointer: "/site", message: `Site ${at} is locked for the stay ${stay.id}.` };
  }
  if (stay.status === "in-house") {
    return { code: "locked", pointer: "/site", message: `The guests of the stay ${stay.id} are on site ${at} now.` };
  }
  return statusFault(stay);
}

function isSame(place: StayPlace | null, { site, outlets }: PlanEntry): boolean {
  if (place === null || site === null) return place === null && site === null;
  return place.site === site && sorted(place.outlets) === sorted(outlets);
}

const sorted = (outlets: readonly string[]): string => JSON.stringify([...new Set(outlets)].sort());

/** Makes the stay's version grow and logs where it stands now. */
function writePlace(ledger: Ledger, act: Act, before: Stay, place: StayPlace | null): Stay {
  const version = before.version + 1;
  ledger.sql.run("UPDATE stay SET version = ? WHERE campground = ? AND id = ?", version, act.campground, before.id);
  const onlyLock = before.place !== null && place !== null && before.place.site === place.site;
  recordChange(ledger, act, {
    kind: "assignment",
    subject: before.id,
    action:
      onlyLock && before.place?.locked !== place.locked
        ? place.locked
          ? "locked"
          : "unlocked"
        : place === null
          ? "removed"
          : before.place === null
            ? "created"
            : "changed",
    version,
    before: before.place,
    after: place,
  });
  return { ...before, version, place };
}

/** Runs one step and gathers its refusal (then gives null), so that every fault of a list is told at once. */
function collect<T>(faults: RefusalPart[], pointer: string, step: () => T): T | null {
  try {
    return step();
  } catch (thrown) {
    if (!(thrown instanceof LedgerRefusal)) throw thrown;
    faults.push(...thrown.parts.map((part) => ({ ...part, pointer: pointer + part.pointer })));
    return null;
  }
}

function throwAny(parts: readonly RefusalPart[]): void {
  const [first, ...rest] = parts;
  if (first !== undefined) throw new LedgerRefusal([first, ...rest]);
}
