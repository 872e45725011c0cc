/**
 * The book of stays as the page has it: who comes when, where they stand, what is held and what is closed. It is read
 * whole, watched by the feed of changes, and kept on the device without names, so that the gate works without signal.
 */
import { localDate, nightsOf } from "../../ledger/dates.ts";
import { readShelf, writeShelf } from "../desk/watched.ts";
import { makeStore } from "../state/store.ts";
import { ask, campgroundPath, HostRefusal, signIn } from "./api.ts";

export interface HostStay {
  readonly id: string;
  readonly version: number;
  readonly arrival: string;
  readonly departure: string;
  readonly status: "expected" | "in-house" | "departed" | "cancelled";
  readonly rig: Readonly<Record<string, unknown>>;
  readonly needs?: Readonly<Record<string, string>>;
  readonly kitPolicy?: "any" | "aboard";
  readonly accessible?: boolean;
  readonly tight?: boolean;
  readonly mustHave?: readonly string[];
  readonly wishes?: readonly string[];
  readonly group?: string;
  readonly priority?: number;
  readonly party?: {
    readonly name?: string;
    readonly people?: number;
    readonly plate?: string;
    readonly note?: string;
  };
  readonly place: { readonly site: string; readonly locked: boolean; readonly outlets: readonly string[] } | null;
}

export interface HostHold {
  readonly id: string;
  readonly site: string;
  readonly arrival: string;
  readonly departure: string;
  readonly why: string | null;
}

export interface HostClosure {
  readonly id: string;
  readonly site: string | null;
  readonly outlet: string | null;
  readonly firstNight: string;
  readonly until: string | null;
  readonly why: string | null;
}

export interface HostOutlet {
  readonly id: string;
  readonly service: "power" | "water" | "fill";
  readonly type: string | null;
  readonly sites: readonly string[];
  readonly state: string | null;
}

export interface Book {
  readonly campground: string;
  /** When it was read, milliseconds since 1970 UTC. */
  readonly readAt: number;
  /** Local date of the campground when it was read. */
  readonly today: string;
  readonly timeZone: string | null;
  readonly stays: readonly HostStay[];
  readonly holds: readonly HostHold[];
  readonly closures: readonly HostClosure[];
  readonly outlets: readonly HostOutlet[];
  /** ETag of the plan as it was before the stays were read. */
  readonly planTag: string;
  readonly cursor: string;
}

interface BookState {
  readonly book: Book | null;
  /** True while the book is the one that the device kept. */
  readonly isKept: boolean;
  readonly trouble: unknown;
}

export const bookState = makeStore<BookState>({ book: null, isKept: false, trouble: null });

const PAGE = 100;
const keyOf = (campground: string): string => `padwright-book-${campground}`;

async function allStays(base: string, from: string): Promise<HostStay[]> {
  const stays: HostStay[] = [];
  let cursor: string | null = null;
  do {
    const more: string = cursor === null ? "" : `&cursor=${encodeURIComponent(cursor)}`;
    const { body } = await ask<{ stays: HostStay[]; nextCursor: string | null }>(
      `${base}/stays?from=${from}&limit=${PAGE}${more}`,
    );
    stays.push(...body.stays);
    cursor = body.nextCursor;
  } while (cursor !== null);
  return stays.filter(({ status }) => status === "expected" || status === "in-house");
}

interface Feed {
  readonly changes: readonly unknown[];
  readonly cursor: string;
}

/** Reads the whole book. The cursor and the plan's tag come first: what changes meanwhile is found later, never lost. */
async function readBook(campground: string, timeZone: string | null): Promise<Book> {
  const base = campgroundPath(campground);
  const readAt = Date.now();
  const today = localDate(readAt, timeZone);
  const feed = await ask<Feed>(`${base}/changes?since=now`);
  const plan = await ask<unknown>(`${base}/assignment?from=${today}`);
  const [stays, holds, closures, outlets] = await Promise.all([
    allStays(base, today),
    ask<{ holds: HostHold[] }>(`${base}/holds?from=${today}`),
    ask<{ closures: HostClosure[] }>(`${base}/closures?from=${today}`),
    ask<{ outlets: HostOutlet[] }>(`${base}/outlets`),
  ]);
  return {
    campground,
    readAt,
    today,
    timeZone,
    stays,
    holds: holds.body.holds,
    closures: closures.body.closures,
    outlets: outlets.body.outlets,
    planTag: plan.tag ?? "",
    cursor: feed.body.cursor,
  };
}

/** Without the guests: names stay in the memory of the tab. */
function withoutGuests(book: Book): Book {
  return { ...book, stays: book.stays.map(({ party: _party, ...stay }) => stay) };
}

function keptBook(campground: string, timeZone: string | null): Book | null {
  const read = readShelf(keyOf(campground)) as Book | null;
  if (read === null || typeof read !== "object" || !Array.isArray(read.stays)) return null;
  return { ...read, today: localDate(Date.now(), timeZone) };
}

/** Reads the book from the server, or takes the kept one without signal. */
export async function openBook(campground: string, timeZone: string | null): Promise<void> {
  const before = bookState.get();
  try {
    const book = await readBook(campground, timeZone);
    bookState.set({ book, isKept: false, trouble: null });
    writeShelf(keyOf(campground), withoutGuests(book));
  } catch (fault) {
    const own = before.book?.campground === campground ? before.book : null;
    const isOffline = fault instanceof HostRefusal && fault.isOffline;
    const book = own ?? (isOffline ? keptBook(campground, timeZone) : null);
    bookState.set({ book: isOffline ? book : null, isKept: isOffline && book !== null, trouble: fault });
  }
}

/** Looks whether anything changed, and reads the book anew when it did, or when the day has. */
export async function refreshBook(): Promise<void> {
  const { book, isKept } = bookState.get();
  if (book === null) return;
  const { campground, timeZone, cursor, today } = book;
  if (isKept || localDate(Date.now(), timeZone) !== today) return openBook(campground, timeZone);
  try {
    const { body } = await ask<Feed>(`${campgroundPath(campground)}/changes?since=${encodeURIComponent(cursor)}`);
    if (body.changes.length > 0) await openBook(campground, timeZone);
  } catch (fault) {
    if (fault instanceof HostRefusal && fault.isOffline) bookState.set({ isKept: true, trouble: fault });
  }
}

/** Reads it anew at once, after a write of ours. */
export async function rereadBook(): Promise<void> {
  const { book } = bookState.get();
  if (book !== null) await openBook(book.campground, book.timeZone);
}

/** Forgets token and book; the device keeps the list without names for the gate. */
export function signOut(): void {
  signIn(null);
  bookState.set({ book: null, isKept: false, trouble: null });
}

export interface Span {
  readonly arrival: string;
  readonly departure: string;
}

/** ISO dates compare as text; the night of a departure is free. */
export const meets = (one: Span, other: Span): boolean =>
  one.arrival < other.departure && other.arrival < one.departure;

const LAST_DATE = "9999-12-31";
const spanOfClosure = ({ firstNight, until }: HostClosure): Span => ({
  arrival: firstNight,
  departure: until ?? LAST_DATE,
});

export type InTheWay =
  | { readonly kind: "stay"; readonly stay: HostStay }
  | { readonly kind: "hold"; readonly hold: HostHold }
  | { readonly kind: "closure"; readonly closure: HostClosure };

/** What keeps a site from being given for these nights; null when it is free. The stay itself is not in its own way. */
export function inTheWay(book: Book, site: string, span: Span, own: string | null = null): InTheWay | null {
  const closure = book.closures.find((one) => one.site === site && meets(spanOfClosure(one), span));
  if (closure !== undefined) return { kind: "closure", closure };
  const stay = book.stays.find((one) => one.place?.site === site && one.id !== own && meets(one, span));
  if (stay !== undefined) return { kind: "stay", stay };
  const hold = book.holds.find((one) => one.site === site && meets(one, span));
  return hold === undefined ? null : { kind: "hold", hold };
}

/** Nights that the site is free before and after these nights; null where nothing comes. */
export function gapsBeside(book: Book, site: string, span: Span): { before: number | null; after: number | null } {
  const taken: readonly Span[] = [
    ...book.stays.filter((one) => one.place?.site === site),
    ...book.holds.filter((one) => one.site === site),
  ];
  const last = taken
    .filter(({ departure }) => departure <= span.arrival)
    .map(({ departure }) => departure)
    .sort()
    .at(-1);
  const next = taken
    .filter(({ arrival }) => arrival >= span.departure)
    .map(({ arrival }) => arrival)
    .sort()[0];
  return {
    before: last === undefined ? null : nightsOf(last, span.arrival).length,
    after: next === undefined ? null : nightsOf(span.departure, next).length,
  };
}
