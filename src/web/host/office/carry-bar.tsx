/** What is in the hand: who, over which site, whether it would do, and what else can be done with it. */
import { useRef } from "preact/hooks";
import type { SiteCard, SiteRow } from "../../core/protocol.ts";
import { useWatched } from "../../desk/watched.ts";
import { hrefOf } from "../../route.ts";
import { announce } from "../../shared/announce.tsx";
import { VerdictMark } from "../../shared/verdict-mark.tsx";
import { useStore } from "../../state/store.ts";
import type { Book } from "../book.ts";
import { nightsText, rigText, stayName } from "../words.ts";
import { type Carried, carryState, land, leaveIt, letGo, settle, standingAt } from "./carry.ts";
import { TakenMark } from "./taken-mark.tsx";

interface CarryBarProps {
  readonly book: Book;
  readonly carried: Carried;
  readonly rows: ReadonlyMap<string, SiteRow>;
  readonly names: readonly SiteCard[];
}

export function CarryBar({ book, carried, rows, names }: CarryBarProps) {
  const units = useStore((state) => state.kept.units);
  const { refused, mayInsist, sending } = useWatched(carryState);
  const panel = useRef<HTMLElement>(null);
  const { stay, over, landing } = carried;
  const row = over === null ? null : (rows.get(over) ?? null);
  const standing = over === null ? null : standingAt(book, stay, over, row, units);
  const own = stay.place?.site ?? null;
  const name = names.find(({ id }) => id === over)?.name ?? over;
  const insist = async () => {
    if (standing !== null && (await land(book, standing, true))) announce(`${stayName(stay)} stands on ${name}.`);
  };
  return (
    <section class="carry-bar" ref={panel} aria-label="In the hand" data-state={standing?.state}>
      <div class="carry-words">
        <p>
          <strong>{stayName(stay)}</strong> {rigText(stay.rig, units)}; {nightsText(stay, units)}
        </p>
        {over !== null && over !== own && (
          <p class="carry-over">
            {standing?.state === "no" ? (
              <TakenMark size={24} />
            ) : (
              <VerdictMark verdict={row?.verdict ?? "waiting"} size={24} />
            )}
            <b>{name}</b> {standing?.words}
          </p>
        )}
        {(over === null || over === own) && (
          <p class="quiet carry-help">
            Choose a site with the arrows, or press its name; Enter puts it down, Escape leaves it.
          </p>
        )}
        {refused !== null && (
          <p class="trouble" role="alert" data-part="refused">
            Not moved. {refused}
          </p>
        )}
      </div>
      <div class="carry-tools">
        <button
          type="button"
          class="button strong"
          disabled={over === null || over === own || landing || sending}
          onClick={letGo}
        >
          {landing ? "Landing" : "Put it down here"}
        </button>
        {mayInsist && (
          <button type="button" class="button" disabled={sending} onClick={insist}>
            Put it there all the same
          </button>
        )}
        <button type="button" class="button" onClick={leaveIt}>
          Leave it
        </button>
        {own !== null && <More book={book} stay={stay} sending={sending} />}
      </div>
    </section>
  );
}

interface MoreProps {
  readonly book: Book;
  readonly stay: Carried["stay"];
  readonly sending: boolean;
}

/** What else can be done with a stay that has a site. */
function More({ book, stay, sending }: MoreProps) {
  return (
    <details class="carry-more">
      <summary class="button">More</summary>
      <button
        type="button"
        class="button"
        disabled={sending}
        onClick={() => settle(book, stay, stay.place?.locked === true ? "unlock" : "lock")}
      >
        {stay.place?.locked === true ? "Take the promise back" : "Promise the site"}
      </button>
      <button
        type="button"
        class="button"
        disabled={sending || stay.place?.locked === true}
        onClick={() => settle(book, stay, "release")}
      >
        Take the site away
      </button>
      <a class="button" href={hrefOf({ view: "host", id: `card~${stay.id}` })} onClick={leaveIt}>
        Card
      </a>
    </details>
  );
}
