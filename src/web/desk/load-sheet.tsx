/** The pick list of a unit on paper: one sheet, boxes to tick with a pencil. */
import type { TripPlan } from "../../trip/plan.ts";
import { useOneSheet } from "../card/one-sheet.ts";
import { useStore } from "../state/store.ts";
import { loadOfTrip } from "./load.ts";
import { whyText } from "./load-list.tsx";
import { dayText, peopleText } from "./words.ts";

interface SheetProps {
  readonly plan: TripPlan;
  readonly trip: string;
  readonly unit: string;
}

export function LoadSheet({ plan, trip, unit }: SheetProps) {
  const units = useStore((state) => state.kept.units);
  const sheet = useOneSheet([plan, units]);
  return (
    <div class="card-sheet load-sheet" ref={sheet} data-part="load-sheet">
      <div class="card-inner">
        <header class="card-title">
          <p class="card-site">
            <strong>Pick list: {unit}</strong>
          </p>
          <p>
            {trip}, {peopleText(plan.party)}
          </p>
          <p class="card-verdict">
            {dayText(plan.from, units)} to {dayText(plan.to, units)}
          </p>
        </header>
        <ol class="sheet-stops">
          {plan.stops.map((stop) => (
            <li key={stop.index}>
              {dayText(stop.arrive, units)}: {stop.fit === null ? stop.name : stop.fit.site.name}
              {stop.card === null ? " (no site to hook up at, no card)" : ""}
            </li>
          ))}
        </ol>
        <p>
          <strong>What touches sewage never shares a box with what touches drinking water.</strong>
        </p>
        <div class="card-columns">
          {loadOfTrip(plan.kit).map((box) => (
            <section key={box.id} data-box={box.id}>
              <h2>{box.title}</h2>
              <ul class="sheet-things">
                {box.things.map((thing) => (
                  <li key={thing.id}>
                    <span class="card-box" aria-hidden="true" />
                    <strong>{thing.title}</strong> ({thing.where}). <span class="card-why">{whyText(thing)}</span>
                  </li>
                ))}
              </ul>
            </section>
          ))}
        </div>
      </div>
    </div>
  );
}
