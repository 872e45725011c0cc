/** Who is expected today, for those who come with a booking: their site at once, the card one press away. */
import { hrefOf } from "../../route.ts";
import { plural } from "../../shared/words.ts";
import { useStore } from "../../state/store.ts";
import type { Book } from "../book.ts";
import { rigText, stayName } from "../words.ts";

export function Expected({ book }: { readonly book: Book }) {
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const due = book.stays.filter((stay) => stay.arrival === book.today && stay.status === "expected");
  const nameOf = (site: string) => opened?.sites.find((one) => one.id === site)?.name ?? site;
  return (
    <details class="gate-expected">
      <summary>{plural(due.length, "booked rig")} expected today</summary>
      <ul>
        {due.map((stay) => (
          <li key={stay.id}>
            <strong>{stay.place === null ? "No site yet" : nameOf(stay.place.site)}</strong>
            <span>
              {stayName(stay)}, {rigText(stay.rig, units)}
            </span>
            {stay.place !== null && (
              <a class="button" href={hrefOf({ view: "host", id: `card~${stay.id}` })}>
                Card
              </a>
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}
