/** Who comes on a day: site, rig, kit to lay out, card. Printed as a list for the desk. */

import { dayText } from "../../desk/words.ts";
import { hrefOf } from "../../route.ts";
import { VerdictMark } from "../../shared/verdict-mark.tsx";
import { plural, VERDICT_WORDS } from "../../shared/words.ts";
import { useStore } from "../../state/store.ts";
import type { Book, HostStay } from "../book.ts";
import { optionsOfStay, useRigRows } from "../use-rows.ts";
import { nightsText, rigText, stayName } from "../words.ts";

export function Arrivals({ book, day }: { readonly book: Book; readonly day: string }) {
  const units = useStore((state) => state.kept.units);
  const due = book.stays.filter(({ arrival }) => arrival === day);
  return (
    <section class="arrivals" aria-label="Arrivals">
      <div class="arrivals-head">
        <h2>
          {plural(due.length, "arrival")}, {dayText(day, units)}
        </h2>
        <button type="button" class="button" disabled={due.length === 0} onClick={() => print()}>
          Print the list
        </button>
      </div>
      <ul>
        {due.map((stay) => (
          <Arrival key={stay.id} stay={stay} />
        ))}
      </ul>
    </section>
  );
}

const NO_SITE: readonly string[] = [];

function Arrival({ stay }: { readonly stay: HostStay }) {
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const site = stay.place?.site ?? null;
  const { rows, done, trouble } = useRigRows(
    site === null ? null : stay.rig,
    optionsOfStay(stay),
    site === null ? NO_SITE : [site],
  );
  const row = site === null ? undefined : rows.get(site);
  const people = stay.party?.people;
  return (
    <li class="arrival" data-stay={stay.id} data-done={done}>
      <VerdictMark verdict={row?.verdict ?? "waiting"} />
      <div class="arrival-site">
        <strong>{site === null ? "No site" : (opened?.sites.find(({ id }) => id === site)?.name ?? site)}</strong>
        {row !== undefined && <span>{VERDICT_WORDS[row.verdict]}</span>}
      </div>
      <div>
        <p>
          <b>{stayName(stay)}</b>
          {people !== undefined && `, ${plural(people, "person", "people")}`}
        </p>
        <p class="quiet">
          {rigText(stay.rig, units)}; {nightsText(stay, units)}
          {stay.status === "in-house" && "; in house"}
        </p>
        {trouble !== null && <p class="trouble">{trouble}</p>}
        {row !== undefined && row.kit.length > 0 && (
          <ul class="arrival-kit" aria-label="Kit">
            {row.kit.map(({ description, where }) => (
              <li key={description}>
                <span class="card-box" aria-hidden="true" /> {description} <span class="quiet">({where})</span>
              </li>
            ))}
          </ul>
        )}
        {row !== undefined && row.kit.length === 0 && <p class="quiet">{row.reason}</p>}
      </div>
      {site !== null && (
        <a class="button" href={hrefOf({ view: "host", id: `card~${stay.id}` })}>
          Card
        </a>
      )}
    </li>
  );
}
