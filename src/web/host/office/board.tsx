/** The board: nights across, sites down, stays as bars that can be carried to another site. */
import { useEffect, useMemo, useRef } from "preact/hooks";
import { nightsOf } from "../../../ledger/dates.ts";
import type { SiteCard, SiteRow } from "../../core/protocol.ts";
import { useWatched } from "../../desk/watched.ts";
import { addDays, dayText } from "../../desk/words.ts";
import { announce } from "../../shared/announce.tsx";
import { VerdictMark } from "../../shared/verdict-mark.tsx";
import { promising } from "../../state/session.ts";
import { useStore } from "../../state/store.ts";
import { type Book, bookState, type HostStay } from "../book.ts";

import { optionsOfStay, useRigRows } from "../use-rows.ts";
import { nightsText, rigText, stayName } from "../words.ts";
import { type Carried, carryState, holdOver, land, leaveIt, letGo, pickUp, standingAt } from "./carry.ts";
import { CarryBar } from "./carry-bar.tsx";
import { type Run, runsOf } from "./grid.ts";
import { TakenMark } from "./taken-mark.tsx";
import { type Dragging, SITE_ROW, useDrag } from "./use-drag.ts";
import { Why } from "./why.tsx";

const byName = (one: SiteCard, other: SiteCard): number => one.name.localeCompare(other.name, "en", { numeric: true });

interface BoardProps {
  readonly book: Book;
  readonly first: string;
  readonly days: number;
  readonly unplaced: readonly HostStay[];
}

export function Board({ book, first, days, unplaced }: BoardProps) {
  const opened = useStore((state) => state.opened)!;
  const { carried } = useWatched(carryState);
  const sites = useMemo(() => [...opened.sites].sort(byName), [opened]);
  const order = useMemo(() => promising(opened.sites, null), [opened]);
  const { rows } = useRigRows(carried?.stay.rig ?? null, optionsOfStay(carried?.stay ?? {}), order);
  const ghost = useRef<HTMLDivElement>(null);
  const drag = useDrag((x, y) => {
    ghost.current?.style.setProperty("translate", `${x + 12}px ${y + 8}px`);
  });
  useCarrying(book, carried, rows, sites);
  const nights = nightsOf(first, addDays(first, days));
  return (
    <>
      <Unplaced stays={unplaced} drag={drag} />
      <section
        class={`board-frame ${carried === null ? "" : "carrying"}`}
        aria-label="Nights and sites"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keys.
        tabIndex={0}
      >
        <table class="board" data-rows={rows.size}>
          <thead>
            <tr>
              <th scope="col">Site</th>
              {nights.map((night) => (
                <th key={night} scope="col" class={night === book.today ? "today" : ""}>
                  <NightName night={night} />
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {sites.map((card) => (
              <BoardRow
                key={card.id}
                book={book}
                card={card}
                runs={runsOf(book, card.id, first, days)}
                carried={carried}
                row={rows.get(card.id) ?? null}
                drag={drag}
              />
            ))}
          </tbody>
        </table>
      </section>
      {carried?.by === "pointer" && (
        <div class="ghost" ref={ghost} aria-hidden="true">
          {stayName(carried.stay)}
          <Under book={book} carried={carried} rows={rows} />
        </div>
      )}
      {carried?.by === "keys" && <CarryBar book={book} carried={carried} rows={rows} names={sites} />}
    </>
  );
}

/** "Wed" over "Nov 25". */
function NightName({ night }: { readonly night: string }) {
  const units = useStore((state) => state.kept.units);
  const [weekday = "", ...rest] = dayText(night, units).split(/,? /);
  return (
    <>
      {weekday} <span class="night-day">{rest.join(" ")}</span>
    </>
  );
}

interface UnderProps {
  readonly book: Book;
  readonly carried: Carried;
  readonly rows: ReadonlyMap<string, SiteRow>;
}

/** What the fit says of the site under the hand. */
function Under({ book, carried, rows }: UnderProps) {
  const units = useStore((state) => state.kept.units);
  const { stay, over } = carried;
  if (over === null || over === stay.place?.site) return null;
  return <small>{standingAt(book, stay, over, rows.get(over) ?? null, units).words}</small>;
}

/** Keys while something is carried, what is read out, and the landing once the fit is known. */
function useCarrying(
  book: Book,
  carried: Carried | null,
  rows: ReadonlyMap<string, SiteRow>,
  sites: readonly SiteCard[],
): void {
  const units = useStore((state) => state.kept.units);
  const over = carried?.over ?? null;
  const row = over === null ? null : (rows.get(over) ?? null);
  const standing = carried === null || over === null ? null : standingAt(book, carried.stay, over, row, units);
  const name = sites.find(({ id }) => id === over)?.name ?? over;
  useEffect(() => {
    if (carried?.landing !== true || standing === null || standing.state === "waiting") return;
    const who = stayName(carried.stay);
    void land(book, standing).then((landed) =>
      announce(landed ? `${who} stands on ${name}.` : `Refused: ${standing.words}`),
    );
  }, [carried, standing?.state]);
  useEffect(() => {
    if (carried?.by !== "keys" || standing === null || carried.landing) return;
    announce(over === carried.stay.place?.site ? `${name}: where it stands now.` : `${name}. ${standing.words}`);
  }, [over, standing?.state]);
  useEffect(() => {
    const hear = (event: KeyboardEvent) => carryByKey(event, sites);
    addEventListener("keydown", hear, true);
    return () => removeEventListener("keydown", hear, true);
  }, [sites]);
  useEffect(() => {
    if (carried?.by !== "keys" || over === null) return;
    document.querySelector(`[${SITE_ROW}="${CSS.escape(over)}"]`)?.scrollIntoView({ block: "nearest" });
  }, [over, carried?.by]);
}

/** Arrows carry from site to site, Enter puts down, Escape leaves it where it was. */
function carryByKey(event: KeyboardEvent, sites: readonly SiteCard[]): void {
  const { carried } = carryState.get();
  if (carried?.by !== "keys") return;
  const inBar = event.target instanceof Element && event.target.closest(".carry-bar") !== null;
  const last = sites.length - 1;
  const at = sites.findIndex(({ id }) => id === carried.over);
  const to = { ArrowDown: at + 1, ArrowUp: at < 0 ? last : at - 1, Home: 0, End: last }[event.key];
  const puts = (event.key === "Enter" || event.key === " ") && !inBar;
  if (to !== undefined) holdOver(sites[Math.max(0, Math.min(last, to))]?.id ?? null);
  else if (event.key === "Escape") leaveIt();
  else if (!puts) return;
  else if (!event.repeat) letGo();
  event.preventDefault();
  event.stopPropagation();
}

interface RowProps {
  readonly book: Book;
  readonly card: SiteCard;
  readonly runs: readonly Run[];
  readonly carried: Carried | null;
  readonly row: SiteRow | null;
  readonly drag: Dragging;
}

function BoardRow({ book, card, runs, carried, row, drag }: RowProps) {
  const units = useStore((state) => state.kept.units);
  const standing = carried === null ? null : standingAt(book, carried.stay, card.id, row, units);
  return (
    <tr {...{ [SITE_ROW]: card.id }} class={carried?.over === card.id ? "over" : ""} data-standing={standing?.state}>
      <th scope="row">
        {carried === null ? (
          <span>{card.name}</span>
        ) : (
          <button type="button" tabIndex={-1} class="board-pick" onClick={() => holdOver(card.id)}>
            {standing?.state === "no" ? <TakenMark /> : <VerdictMark verdict={row?.verdict ?? "waiting"} size={20} />}
            {card.name}
          </button>
        )}
      </th>
      {runs.map((run) => (
        <Cell key={run.from} run={run} carried={carried} drag={drag} />
      ))}
    </tr>
  );
}

interface CellProps {
  readonly run: Run;
  readonly carried: Carried | null;
  readonly drag: Dragging;
}

function Cell({ run: { way, nights, before, after, clash }, carried, drag }: CellProps) {
  if (way === null) return <td />;
  if (way.kind !== "stay") {
    const words =
      way.kind === "hold"
        ? `held${way.hold.why === null ? "" : `: ${way.hold.why}`}`
        : `closed${way.closure.why === null ? "" : `: ${way.closure.why}`}`;
    return (
      <td colSpan={nights} class={`board-${way.kind}`}>
        <span>{words}</span>
      </td>
    );
  }
  const edges = `${before ? "from-before" : ""} ${after ? "goes-on" : ""}`;
  return (
    <td colSpan={nights}>
      <Bar stay={way.stay} edges={edges} clash={clash} isCarried={carried?.stay.id === way.stay.id} drag={drag} />
    </td>
  );
}

interface BarProps {
  readonly stay: HostStay;
  readonly edges?: string;
  readonly clash?: boolean;
  readonly isCarried: boolean;
  readonly drag: Dragging;
}

function Bar({ stay, edges = "", clash = false, isCarried, drag }: BarProps) {
  const units = useStore((state) => state.kept.units);
  const state = stay.status === "in-house" ? "in house" : stay.place?.locked === true ? "promised" : null;
  const notes = [rigText(stay.rig, units), nightsText(stay, units), ...(state === null ? [] : [state])];
  if (clash) notes.push("its site is closed");
  return (
    <button
      type="button"
      class={`bar ${edges} ${state === null ? "" : state.replace(" ", "-")} ${isCarried ? "carried" : ""} ${clash ? "clash" : ""}`}
      data-stay={stay.id}
      aria-pressed={isCarried}
      title={notes.join("; ")}
      onPointerDown={(event) => drag.onPointerDown(event, stay)}
      onClick={(event) => !drag.wasDrag(event) && pickUp(stay, "keys")}
    >
      {state === "in house" && <StateMark path="M4 15L16 4L28 15V28H4Z" />}
      {state === "promised" && <StateMark path="M8 14V10A8 8 0 0 1 24 10V14M4 14H28V29H4Z" />}
      {clash && <b aria-hidden="true">!</b>}
      <span>{stay.party?.name ?? stay.id}</span>
      <span class="unseen">
        {stay.party?.name === undefined ? "" : ` (${stay.id})`}, {notes.join("; ")}
      </span>
    </button>
  );
}

function StateMark({ path }: { readonly path: string }) {
  return (
    <svg class="state-mark" width="14" height="14" viewBox="0 0 32 32" aria-hidden="true">
      <path d={path} />
    </svg>
  );
}

interface UnplacedProps {
  readonly stays: readonly HostStay[];
  readonly drag: Dragging;
}

function Unplaced({ stays, drag }: UnplacedProps) {
  const { carried } = useWatched(carryState);
  const { book } = useWatched(bookState);
  if (book === null || stays.length === 0) return null;
  return (
    <section class="unplaced" aria-label="Without a site">
      <h2>Without a site</h2>
      <ul>
        {stays.map((stay) => (
          <li key={stay.id}>
            <Bar stay={stay} isCarried={carried?.stay.id === stay.id} drag={drag} />
            <Why stay={stay} book={book} />
          </li>
        ))}
      </ul>
    </section>
  );
}
