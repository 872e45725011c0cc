/** The departures of one day: which unit goes, why not the others, what is loaded into it. */
import type { Cell } from "../../trip/desk/cell.ts";
import type { DeskPlan, DeskTripPlan } from "../../trip/desk/desk.ts";
import type { LoadWords } from "../core/trip-protocol.ts";
import { hrefOf } from "../route.ts";
import { plural } from "../shared/words.ts";
import { useStore } from "../state/store.ts";
import { setTrip, tripOf } from "./files.ts";
import { loadOfDesk } from "./load.ts";
import { LoadList } from "./load-list.tsx";
import { kitText } from "./matrix.tsx";
import { dayText, peopleText } from "./words.ts";
import { WorksMark } from "./works.tsx";

export const EVERY_DAY = "all";

/** Today when something leaves today, else the next day on which something does, else the first of all. */
export function dayToShow(days: readonly string[], today: string): string {
  return days.find((day) => day >= today) ?? days[0] ?? EVERY_DAY;
}

interface DeparturesProps {
  readonly plan: DeskPlan;
  readonly words: LoadWords;
  readonly day: string;
  readonly setDay: (day: string) => void;
}

export function Departures({ plan, words, day, setDay }: DeparturesProps) {
  const units = useStore((state) => state.kept.units);
  const days = [...new Set(plan.trips.map((trip) => trip.from))];
  const shown = plan.trips.filter((trip) => day === EVERY_DAY || trip.from === day);
  const on = (from: string) => plan.trips.filter((trip) => trip.from === from).length;
  return (
    <section class="departures" aria-labelledby="departures-title">
      <div class="departures-head">
        <h2 id="departures-title">Departures</h2>
        <label>
          Day
          <select value={day} onChange={(event) => setDay(event.currentTarget.value)}>
            {days.map((one) => (
              <option key={one} value={one}>
                {dayText(one, units)} ({on(one)})
              </option>
            ))}
            <option value={EVERY_DAY}>Every day ({plan.trips.length})</option>
          </select>
        </label>
        <a class="button strong" href={hrefOf({ view: "papers", id: day })}>
          Print cards and pick lists
        </a>
      </div>
      {shown.map((trip) => (
        <Departure
          key={trip.id}
          trip={trip}
          words={words}
          names={new Map(plan.trips.map((one) => [one.id, one.name]))}
        />
      ))}
    </section>
  );
}

interface DepartureProps {
  readonly trip: DeskTripPlan;
  readonly words: LoadWords;
  /** Names of bookings by id. */
  readonly names: ReadonlyMap<string, string>;
}

function Departure({ trip, words, names }: DepartureProps) {
  const units = useStore((state) => state.kept.units);
  const cell = trip.units.find((one) => one.unit === trip.unit) ?? null;
  const stops = cell?.stops ?? trip.units[0]?.stops ?? [];
  const title = `departure-${trip.id}`;
  return (
    <article class="panel departure" aria-labelledby={title} data-trip={trip.id}>
      <div class="departure-head">
        <div>
          <h3 id={title}>{trip.name}</h3>
          <p>
            {dayText(trip.from, units)} to {dayText(trip.to, units)}, {peopleText(trip.party)},{" "}
            {plural(stops.length, "stop")}
          </p>
        </div>
        <p class="departure-links">
          <a class="button" href={hrefOf({ view: "trip", id: trip.id })}>
            Trip
          </a>
          <a class="button" href={hrefOf({ view: "papers", id: trip.id })}>
            Papers
          </a>
        </p>
      </div>
      {cell === null ? (
        <p class="trouble" data-part="goes">
          No unit goes. {trip.why}
        </p>
      ) : (
        <div class="goes" data-part="goes">
          <WorksMark works={cell.works} size={36} />
          <p>
            <strong>{cell.name}</strong> {trip.given ? "is booked" : "is proposed"}. {trip.why}
            {!trip.given && cell.rank > 1 && " The units before it are wanted for other trips."}
          </p>
        </div>
      )}
      {trip.clashes.length > 0 && (
        <p class="trouble">
          The same unit is out at that time with: {trip.clashes.map((id) => names.get(id) ?? id).join(", ")}.
        </p>
      )}
      <details>
        <summary>All {trip.units.length} units, the best first, and why not the others</summary>
        <ol class="unit-list">
          {trip.units.map((one) => (
            <UnitItem key={one.unit} cell={one} trip={trip} />
          ))}
        </ol>
        {trip.given && (
          <button type="button" class="button" onClick={() => give(trip.id, null)}>
            Let the desk propose a unit
          </button>
        )}
      </details>
      {cell !== null && (
        <details open>
          <summary>Pick list for {cell.name}</summary>
          <LoadList list={`${trip.id} ${cell.unit}`} boxes={loadOfDesk(trip, words)} />
        </details>
      )}
    </article>
  );
}

/** Fixes the unit of a booking, or leaves it to the desk. */
function give(trip: string, unit: string | null): void {
  const booking = tripOf(trip);
  if (booking === null) return;
  const { unit: _unit, ...rest } = booking;
  setTrip(unit === null ? rest : { ...rest, unit });
}

function UnitItem({ cell, trip }: { readonly cell: Cell; readonly trip: DeskTripPlan }) {
  const sites = cell.stops.flatMap(({ site }) => site ?? []).join(", ");
  return (
    <li data-unit={cell.unit}>
      <WorksMark works={cell.works} />
      <p>
        <b>{cell.name}</b>, {kitText(cell.counts)}.{" "}
        {cell.works === "yes" ? `Works${sites === "" ? "" : ` at ${sites}`}.` : cell.why}
      </p>
      {cell.unit === trip.unit ? (
        <span class="quiet">{trip.given ? "booked" : "proposed"}</span>
      ) : (
        <button type="button" class="button" onClick={() => give(trip.id, cell.unit)}>
          Take it <span class="unseen">: {cell.name}</span>
        </button>
      )}
    </li>
  );
}
