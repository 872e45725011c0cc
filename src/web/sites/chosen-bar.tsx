/** The sites chosen for comparison, at hand while the list scrolls. */
import { hrefOf } from "../route.ts";
import { keep, useStore } from "../state/store.ts";

const LEAST_COMPARED = 2;

export function ChosenBar() {
  const chosen = useStore((state) => state.kept.chosen);
  const opened = useStore((state) => state.opened);
  const nameOf = (id: string) => opened?.sites.find((site) => site.id === id)?.name ?? id;
  return (
    <aside class="chosen-bar" aria-label="Chosen to compare">
      <span>{chosen.map(nameOf).join(", ")}</span>
      {chosen.length >= LEAST_COMPARED ? (
        <a class="button strong" href={hrefOf({ view: "compare", ids: chosen })}>
          Compare {chosen.length}
        </a>
      ) : (
        <span class="quiet">Choose one more</span>
      )}
      <button type="button" class="button" onClick={() => keep({ chosen: [] })}>
        Clear
      </button>
    </aside>
  );
}
