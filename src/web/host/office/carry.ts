/** A stay that is picked up: where it would go, whether that would do and why not, and the move itself. */
import type { SiteRow } from "../../core/protocol.ts";
import { marginText, VERDICT_WORDS } from "../../shared/words.ts";
import { makeStore, type Units } from "../../state/store.ts";
import { ask, campgroundPath, refusalWords } from "../api.ts";
import { type Book, type HostStay, inTheWay, rereadBook } from "../book.ts";
import { wayText } from "../words.ts";

export interface Carried {
  readonly stay: HostStay;
  /** Site under the hand. */
  readonly over: string | null;
  /** A pointer holds it, or it waits for keys and presses. */
  readonly by: "pointer" | "keys";
  /** True once it was let go: it lands as soon as the fit is known. */
  readonly landing: boolean;
}

export interface CarryState {
  readonly carried: Carried | null;
  /** Why the last move was not made. */
  readonly refused: string | null;
  /** True when the host may still insist. */
  readonly mayInsist: boolean;
  readonly sending: boolean;
}

const NOTHING: CarryState = { carried: null, refused: null, mayInsist: false, sending: false };

export const carryState = makeStore<CarryState>(NOTHING);

export function pickUp(stay: HostStay, by: Carried["by"]): void {
  carryState.set({ ...NOTHING, carried: { stay, over: stay.place?.site ?? null, by, landing: false } });
}

export const leaveIt = (): void => carryState.set(NOTHING);

export function holdOver(over: string | null): void {
  const { carried } = carryState.get();
  if (carried !== null && carried.over !== over) {
    carryState.set({ carried: { ...carried, over, landing: false }, refused: null, mayInsist: false });
  }
}

/** Lets go: from a pointer over nothing it goes back where it was. */
export function letGo(): void {
  const { carried } = carryState.get();
  if (carried === null) return;
  const stays = carried.over === null || carried.over === (carried.stay.place?.site ?? null);
  if (stays) leaveIt();
  else carryState.set({ carried: { ...carried, by: "keys", landing: true } });
}

export interface Standing {
  readonly state: "waiting" | "yes" | "doubt" | "no";
  readonly words: string;
}

/** Whether the stay could stand there. `doubt`: nobody else is in the way, and the fit says no or does not know. */
export function standingAt(book: Book, stay: HostStay, site: string, row: SiteRow | null, units: Units): Standing {
  const way = inTheWay(book, site, stay, stay.id);
  if (way !== null) return { state: "no", words: wayText(way, units) };
  if (row === null) return { state: "waiting", words: "Being worked out." };
  if (row.verdict === "does not fit" || row.verdict === "unknown") {
    return { state: "doubt", words: `${VERDICT_WORDS[row.verdict]}: ${row.reason}` };
  }
  const margin = row.worst === null ? "" : `, ${row.worst.service} ${marginText(row.worst.margin, units)}`;
  return { state: "yes", words: `${VERDICT_WORDS[row.verdict]}${margin}, free on every night.` };
}

/** Lands a stay that was let go, once the fit is known; what cannot be is said and the stay stays in the hand. */
export async function land(book: Book, standing: Standing, insists = false): Promise<boolean> {
  const { carried, sending } = carryState.get();
  if (carried === null || carried.over === null || sending) return false;
  const { stay, over } = carried;
  const isOpen = standing.state === "yes" || (standing.state === "doubt" && insists);
  if (stay.place?.locked === true) {
    refuse("This stay is promised its site. Take the promise back first.", false);
    return false;
  }
  if (!isOpen) {
    refuse(standing.words, standing.state === "doubt");
    return false;
  }
  carryState.set({ sending: true });
  try {
    const move = { stay: stay.id, from: stay.place?.site ?? null, to: over };
    await ask(`${campgroundPath(book.campground)}/assignment/move`, { method: "POST", body: { moves: [move] } });
    leaveIt();
    return true;
  } catch (fault) {
    refuse(refusalWords(fault), false);
    return false;
  } finally {
    await rereadBook();
  }
}

function refuse(words: string, mayInsist: boolean): void {
  const { carried } = carryState.get();
  if (carried === null) return;
  carryState.set({ carried: { ...carried, landing: false }, refused: words, mayInsist, sending: false });
}

type Act = "lock" | "unlock" | "release";

/** Promises the site, takes the promise back, or takes the site itself. */
export async function settle(book: Book, stay: HostStay, act: Act): Promise<void> {
  const base = `${campgroundPath(book.campground)}/assignment`;
  const stays = act === "release" ? [{ stay: stay.id, from: stay.place?.site }] : [stay.id];
  try {
    carryState.set({ sending: true });
    await ask(`${base}/${act}`, { method: "POST", body: { stays } });
    leaveIt();
  } catch (fault) {
    refuse(refusalWords(fault), false);
  } finally {
    await rereadBook();
  }
}
