/** The records of a campground: choose a site on the map or in the list, change it, write it back. */
import "./record.css";
import { useState } from "preact/hooks";
import { CampMapView } from "../../map/camp-map-view.tsx";
import { goTo } from "../../route.ts";
import { useStore } from "../../state/store.ts";
import { SiteForm } from "./site-form.tsx";

export function Records({ site }: { readonly site: string }) {
  const opened = useStore((state) => state.opened);
  const rows = useStore((state) => state.ranking.rows);
  const [lit, setLit] = useState<string | null>(site === "" ? null : site);
  if (opened === null) return null;
  const cards = [...opened.sites].sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
  const card = opened.sites.find(({ id }) => id === site);
  const open = (id: string) => goTo({ view: "host", id: `records~${id}` });
  return (
    <div class="records">
      <div class="records-choice">
        <p class="record-field">
          <label for="record-site">Site</label>
          <select id="record-site" value={site} onChange={(event) => open(event.currentTarget.value)}>
            <option value="">choose here or on the map</option>
            {cards.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </p>
        <CampMapView
          opened={opened}
          listed={cards.map((one) => ({ card: one, row: rows.get(one.id) ?? null }))}
          lit={lit}
          onLight={setLit}
          onOpen={open}
        />
      </div>
      {site !== "" && card === undefined && <p class="trouble">There is no site of this id.</p>}
      {card !== undefined && <SiteForm key={card.id} opened={opened} card={card} />}
    </div>
  );
}
