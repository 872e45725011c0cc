/** The hookup card of one stay on its site. */

import { useWatched } from "../../desk/watched.ts";
import { hrefOf } from "../../route.ts";
import { useStore } from "../../state/store.ts";
import { bookState } from "../book.ts";
import { SiteCardSheet } from "../site-card.tsx";
import { optionsOfStay } from "../use-rows.ts";
import { stayName } from "../words.ts";

export function StayCard({ stay: id }: { readonly stay: string }) {
  const { book } = useWatched(bookState);
  const opened = useStore((state) => state.opened);
  const stay = book?.stays.find((one) => one.id === id);
  const site = stay?.place?.site;
  return (
    <section class="card stay-card">
      <p class="back">
        <a href={hrefOf({ view: "host", id: "office" })}>Office</a>
      </p>
      <div class="card-head">
        <h2>
          {stay === undefined ? "No such stay" : stayName(stay)}
          {site !== undefined && `: ${opened?.sites.find((one) => one.id === site)?.name ?? site}`}
        </h2>
        {site !== undefined && (
          <button type="button" class="button strong" onClick={() => print()}>
            Print
          </button>
        )}
      </div>
      {stay === undefined && <p class="trouble">The list has no stay of this id.</p>}
      {stay !== undefined && site === undefined && <p class="trouble">This stay has no site yet.</p>}
      {stay !== undefined && site !== undefined && (
        <SiteCardSheet rig={stay.rig} options={optionsOfStay(stay)} site={site} />
      )}
    </section>
  );
}
