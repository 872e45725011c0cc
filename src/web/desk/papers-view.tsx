/** Everything that is handed over for departures, one sheet after another: the pick list of a unit, a card per stop. */
import "./desk.css";
import "../card/card.css";
import "./papers.css";
import { useEffect } from "preact/hooks";
import type { TripPlan } from "../../trip/plan.ts";
import { CardSheet } from "../card/card-sheet.tsx";
import { useTools } from "../context.ts";
import type { TripTold } from "../core/trip-protocol.ts";
import { hrefOf } from "../route.ts";
import { plural } from "../shared/words.ts";
import { useStore } from "../state/store.ts";
import { MINE, tripBody, tripShown, unitOf } from "../trip/draft.ts";
import { EVERY_DAY } from "./departures.tsx";
import { type DeskFiles, deskFiles, nameOf, type Wire, wireOf } from "./files.ts";
import { desks, type Job, jobOf, trips, type Units, workTrip } from "./jobs.ts";
import { LoadSheet } from "./load-sheet.tsx";
import { Progress } from "./progress.tsx";
import { useWatched } from "./watched.ts";
import { dayText } from "./words.ts";

const leaves = (trip: Wire): string => {
  const [first] = Array.isArray(trip["stops"]) ? trip["stops"] : [];
  return String(trip["from"] ?? wireOf(first)["arrive"] ?? "");
};

/** Bookings of an address: one by its id, those of a day, or all. */
function idsOf(id: string, files: DeskFiles): readonly string[] {
  const all = files.trips.list.map(wireOf);
  if (id === MINE || all.some((trip) => trip["id"] === id)) return [id];
  const those = id === EVERY_DAY ? all : all.filter((trip) => leaves(trip) === id);
  const sorted = [...those].sort((a, b) => (leaves(a) < leaves(b) ? -1 : 1));
  return sorted.map((trip) => String(trip["id"]));
}

interface Paper {
  readonly id: string;
  readonly trip: Wire;
  /** Null while no unit is known. */
  readonly body: Wire | null;
  readonly unit: string;
  readonly job: Job<TripTold>;
}

function unitName(id: string, trip: Wire, files: DeskFiles, units: Units, rig: Wire): string {
  if (id === MINE) return nameOf(rig);
  const unit = unitOf(trip, files, units);
  const found = files.fleet.list.map(wireOf).find((one) => one["id"] === unit);
  return found === undefined ? "" : nameOf(found);
}

export function PapersView({ id }: { readonly id: string }) {
  const tools = useTools();
  const kept = useStore((state) => state.kept);
  const opened = useStore((state) => state.opened);
  const files = useWatched(deskFiles);
  useWatched(desks);
  const jobs = useWatched(trips);
  const papers = idsOf(id, files).flatMap((one): Paper[] => {
    const trip = tripShown(one, opened?.id ?? kept.campground);
    if (trip === null) return [];
    const body = tripBody(one, trip, kept);
    const job = body === null ? ({ state: "none" } as const) : jobOf(jobs, body);
    return [{ id: one, trip, body, unit: unitName(one, trip, files, kept.units, kept.rig), job }];
  });
  const start = async () => {
    for (const { body } of papers) if (body !== null) await workTrip(tools, body);
  };
  useEffect(() => {
    void start();
  }, [id, papers.map(({ body }) => body === null).join()]);
  const ready = papers.filter(({ job }) => job.state === "done").length;
  const waiting = papers.find(({ job, body }) => body !== null && job.state !== "done");
  const all = papers.length > 0 && ready === papers.filter(({ body }) => body !== null).length && ready > 0;
  return (
    <article class="papers" data-ready={all}>
      <p class="back">
        <a href={hrefOf(id === MINE ? { view: "trip", id } : { view: "desk" })}>{id === MINE ? "My trip" : "Desk"}</a>
      </p>
      <div class="departure-head">
        <h1>{titleOf(id, papers, kept.units)}</h1>
        <button type="button" class="button strong" disabled={!all} onClick={() => print()}>
          Print
        </button>
      </div>
      <p class="quiet papers-said">
        One pick list for each unit and one card for each stop with a site, each on a sheet of its own.{" "}
        {plural(ready, "trip")} of {papers.length} ready.
      </p>
      {papers.length === 0 && <p class="trouble">Nothing leaves then.</p>}
      {papers
        .filter(({ body }) => body === null)
        .map(({ id: one, trip }) => (
          <p key={one} class="trouble">
            {nameOf(trip)}: no unit goes on this trip yet. <a href={hrefOf({ view: "desk" })}>Let the desk find one</a>
          </p>
        ))}
      {waiting !== undefined && <Progress job={waiting.job} what={nameOf(waiting.trip)} start={() => void start()} />}
      {papers.map((paper) => (
        <Sheets key={paper.id} paper={paper} />
      ))}
    </article>
  );
}

function titleOf(id: string, papers: readonly Paper[], units: Units): string {
  if (id === EVERY_DAY) return "Papers for every departure";
  const [one] = papers;
  return one !== undefined && one.id === id ? `Papers: ${nameOf(one.trip)}` : `Papers for ${dayText(id, units)}`;
}

function Sheets({ paper: { job, trip, unit } }: { readonly paper: Paper }) {
  if (job.state !== "done") return null;
  if (!job.told.ok) {
    return (
      <p class="trouble">
        {nameOf(trip)} cannot be worked out: {job.told.errors[0]?.message}
      </p>
    );
  }
  const { plan } = job.told;
  return plan === null ? null : <PlanSheets plan={plan} trip={nameOf(trip)} unit={unit} />;
}

function PlanSheets({ plan, trip, unit }: { readonly plan: TripPlan; readonly trip: string; readonly unit: string }) {
  return (
    <section class="paper-sheets" aria-label={`Papers of ${trip}`}>
      <LoadSheet plan={plan} trip={trip} unit={unit} />
      {plan.stops.map(
        ({ index, fit, card }) => fit !== null && card !== null && <CardSheet key={index} fit={fit} card={card} />,
      )}
    </section>
  );
}
