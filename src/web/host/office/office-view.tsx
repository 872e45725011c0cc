/** The office: the board, today's arrivals, a plan proposed, small changes of it. */
import "./office.css";
import { useState } from "preact/hooks";
import { useWatched } from "../../desk/watched.ts";
import { addDays } from "../../desk/words.ts";
import { type Book, bookState, type HostStay } from "../book.ts";
import { Arrivals } from "./arrivals.tsx";
import { Board } from "./board.tsx";
import { Changes } from "./changes.tsx";
import { Proposal } from "./proposal.tsx";

const PARTS = [
  ["board", "Board"],
  ["arrivals", "Arrivals"],
  ["propose", "Propose a plan"],
  ["change", "Change"],
] as const;
type Part = (typeof PARTS)[number][0];

const DAYS = 14;
const STEP = 7;

/** Stays without a site that have a night in the span shown or later. */
const unplacedOf = (book: Book, first: string): readonly HostStay[] =>
  book.stays.filter(({ place, departure }) => place === null && departure > first);

export function Office() {
  const { book } = useWatched(bookState);
  const [part, setPart] = useState<Part>("board");
  const [first, setFirst] = useState<string | null>(null);
  if (book === null) return null;
  const from = first ?? book.today;
  const days = matchMedia("(max-width: 40rem)").matches ? STEP : DAYS;
  return (
    <div class="office">
      <div class="office-tools">
        <fieldset class="office-parts" aria-label="Part of the office">
          {PARTS.map(([id, name]) => (
            <button key={id} type="button" class="button" aria-pressed={part === id} onClick={() => setPart(id)}>
              {name}
            </button>
          ))}
        </fieldset>
        {(part === "board" || part === "arrivals") && (
          <fieldset class="office-dates" aria-label="Nights shown">
            <button
              type="button"
              class="button"
              aria-label="A week earlier"
              onClick={() => setFirst(addDays(from, -STEP))}
            >
              ‹
            </button>
            <label>
              <span class="unseen">{part === "board" ? "First night" : "Day of arrival"}</span>
              <input type="date" value={from} onChange={(event) => setFirst(event.currentTarget.value || null)} />
            </label>
            <button
              type="button"
              class="button"
              aria-label="A week later"
              onClick={() => setFirst(addDays(from, STEP))}
            >
              ›
            </button>
          </fieldset>
        )}
      </div>
      {part === "board" && <Board book={book} first={from} days={days} unplaced={unplacedOf(book, from)} />}
      {part === "arrivals" && <Arrivals book={book} day={from} />}
      {part === "propose" && <Proposal book={book} />}
      {part === "change" && <Changes book={book} />}
    </div>
  );
}
