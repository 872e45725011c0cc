/** Choosing a site by looking: the list with its reasons, the map beside it, filters above both. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { CampMapView } from "../map/camp-map-view.tsx";
import { goTo } from "../route.ts";
import { announce } from "../shared/announce.tsx";
import { plural } from "../shared/words.ts";
import { keep, useStore } from "../state/store.ts";
import { ChosenBar } from "./chosen-bar.tsx";
import { FilterBar } from "./filter-bar.tsx";
import { arrangeList } from "./listing.ts";
import { Place } from "./place.tsx";
import { SiteList } from "./site-list.tsx";

export function Sites() {
  const opened = useStore((state) => state.opened);
  const trouble = useStore((state) => state.trouble);
  return (
    <div class="sites">
      <Place />
      {trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {opened === null ? trouble === null && <p class="quiet">Opening the campground.</p> : <Choice />}
    </div>
  );
}

/** Says once when the ranking is complete; each row on its own would be noise. */
function useAnnouncedRanking(): void {
  const { running, done, of } = useStore((state) => state.ranking);
  const before = useRef(running);
  useEffect(() => {
    if (before.current && !running && of > 0 && done === of) announce(`All ${of} sites are worked out.`);
    before.current = running;
  }, [running]);
}

function Choice() {
  const opened = useStore((state) => state.opened)!;
  const ranking = useStore((state) => state.ranking);
  const { filters, order, narrowView, chosen } = useStore((state) => state.kept);
  const [lit, setLit] = useState<string | null>(null);
  useAnnouncedRanking();
  const listed = useMemo(
    () => arrangeList(opened.sites, ranking.rows, filters, order),
    [opened, ranking.rows, filters, order],
  );
  const hidden = opened.sites.length - listed.length;
  return (
    <>
      <FilterBar />
      <div class="state-row">
        <p class="count" data-part="count">
          {plural(listed.length, "site")} shown
          {hidden > 0 && `, ${hidden} hidden by the filters (what a record does not say counts as no)`}
        </p>
        <Progress />
      </div>
      <fieldset class="narrow-switch" aria-label="List or map">
        {(["list", "map"] as const).map((view) => (
          <button
            key={view}
            type="button"
            class="button"
            aria-pressed={narrowView === view}
            onClick={() => keep({ narrowView: view })}
          >
            {view === "list" ? "List" : "Map"}
          </button>
        ))}
      </fieldset>
      <div class={`choice shows-${narrowView}`}>
        <SiteList listed={listed} lit={lit} onLight={setLit} />
        <CampMapView
          opened={opened}
          listed={listed}
          lit={lit}
          onLight={setLit}
          onOpen={(id) => goTo({ view: "site", id })}
        />
      </div>
      {chosen.length > 0 && <ChosenBar />}
    </>
  );
}

function Progress() {
  const { done, of, running } = useStore((state) => state.ranking);
  const rigRead = useStore((state) => state.rigRead);
  if (!rigRead) {
    return (
      <p class="trouble" role="alert">
        The rig cannot be read yet, so nothing is worked out. <a href="#/rig">Mend the rig</a>.
      </p>
    );
  }
  if (!running) return null;
  return (
    <div class="progress">
      <progress max={of} value={done} aria-label="Sites worked out" />
      <span>
        {done} of {of} worked out
      </span>
    </div>
  );
}
