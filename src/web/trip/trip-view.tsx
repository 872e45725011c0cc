/** A trip: stops in order with their sites, tanks carried over, kit to pack, a card for each stop. */
import "../desk/desk.css";
import "./trip.css";
import { useEffect, useState } from "preact/hooks";
import type { TripPlan } from "../../trip/plan.ts";
import { useTools } from "../context.ts";
import type { PlanFault, TripTold } from "../core/trip-protocol.ts";
import { deskFiles, nameOf, type Wire } from "../desk/files.ts";
import { checkTrip, desks, jobOf, trips, workTrip } from "../desk/jobs.ts";
import { loadOfTrip } from "../desk/load.ts";
import { LoadList } from "../desk/load-list.tsx";
import { Progress } from "../desk/progress.tsx";
import { useWatched } from "../desk/watched.ts";
import { dayText, peopleText } from "../desk/words.ts";
import { WorksMark } from "../desk/works.tsx";
import { hrefOf } from "../route.ts";
import { announce } from "../shared/announce.tsx";
import { plural } from "../shared/words.ts";
import { useStore } from "../state/store.ts";
import { keepTrip, MINE, ownTrip, tripBody, tripShown } from "./draft.ts";
import { StopPanel } from "./stop-panel.tsx";
import { Tanks } from "./tanks.tsx";
import { TripForm } from "./trip-form.tsx";

const NO_FAULTS: readonly PlanFault[] = [];
/** A hand that changes several fields rests this long before they are checked, milliseconds. */
const REST = 250;

/** What is wrong with the trip as it is being edited; nobody waits for it. */
function useFaults(body: Wire | null, edited: boolean): readonly PlanFault[] {
  const tools = useTools();
  const [errors, setErrors] = useState(NO_FAULTS);
  const key = JSON.stringify(body);
  useEffect(() => {
    if (body === null || !edited) return;
    let gone = false;
    const timer = setTimeout(() => {
      checkTrip(tools, body).then(
        (told) => gone || setErrors(told?.ok === false ? told.errors : NO_FAULTS),
        () => {},
      );
    }, REST);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [key, edited]);
  return errors;
}

export function TripView({ id }: { readonly id: string }) {
  const tools = useTools();
  const kept = useStore((state) => state.kept);
  const opened = useStore((state) => state.opened);
  useWatched(deskFiles);
  useWatched(desks);
  useWatched(ownTrip);
  const [draft, setDraft] = useState<Wire | null>(null);
  const saved = tripShown(id, opened?.id ?? kept.campground);
  const trip = draft ?? saved;
  const body = trip === null ? null : tripBody(id, trip, kept);
  const jobs = useWatched(trips);
  const job = body === null ? ({ state: "none" } as const) : jobOf(jobs, body);
  const told: TripTold | null = job.state === "done" ? job.told : null;
  const live = useFaults(body, draft !== null);
  const errors = told?.ok === false ? told.errors : live;
  const start = () => {
    if (trip === null || body === null) return;
    if (draft !== null) keepTrip(id, draft);
    setDraft(null);
    void workTrip(tools, body);
  };
  useEffect(() => {
    if (id !== MINE && draft === null && body !== null && job.state === "none") void workTrip(tools, body);
  }, [id, body === null, opened === null]);
  useEffect(() => {
    if (told?.ok === true) announce("The trip is worked out.");
  }, [told]);
  if (trip === null) return <NoTrip />;
  const plan = told?.ok === true ? told.plan : null;
  return (
    <article class="trip" data-state={job.state} data-trip={id}>
      <p class="back">
        <a href={hrefOf({ view: id === MINE ? "sites" : "desk" })}>{id === MINE ? "All sites" : "Desk"}</a>
      </p>
      <div class="departure-head">
        <h1>{nameOf(trip)}</h1>
        {plan !== null && (
          <a class="button strong" href={hrefOf({ view: "papers", id })}>
            Print cards and pick list
          </a>
        )}
      </div>
      {body === null && (
        <p class="trouble">
          No unit goes on this trip yet. <a href={hrefOf({ view: "desk" })}>Let the desk find one</a>
        </p>
      )}
      <Mend trip={trip} errors={errors} edit={setDraft} open={errors.length > 0 || id === MINE || draft !== null} />
      {errors.length > 0 && <Elsewhere errors={errors} />}
      {body !== null && (job.state !== "done" || draft !== null) && (
        <Progress job={job.state === "done" ? { state: "none" } : job} what="This trip" start={start} />
      )}
      {plan !== null && told?.ok === true && (
        <Answer id={id} unit={String(body?.["unit"] ?? "")} plan={plan} sizes={told.sizes} />
      )}
    </article>
  );
}

function NoTrip() {
  return (
    <article class="trip">
      <h1>Trip</h1>
      <p class="trouble" role="alert">
        There is no such booking. <a href={hrefOf({ view: "desk" })}>All bookings</a>
      </p>
    </article>
  );
}

interface MendProps {
  readonly trip: Wire;
  readonly errors: readonly PlanFault[];
  readonly edit: (trip: Wire) => void;
  readonly open: boolean;
}

/** Once somebody has opened it, only he closes it again. */
function Mend({ trip, errors, edit, open }: MendProps) {
  const [held, setHeld] = useState(open);
  useEffect(() => {
    if (open) setHeld(true);
  }, [open]);
  return (
    <details class="panel" open={held} onToggle={(event) => setHeld(event.currentTarget.open)}>
      <summary>Change dates, party or stops</summary>
      <TripForm trip={trip} errors={errors} edit={edit} />
    </details>
  );
}

const OWN_FIELDS = /^\/(party|stops)\b/;

/** What is wrong and has no field here: the rig, the stock. */
function Elsewhere({ errors }: { readonly errors: readonly PlanFault[] }) {
  const others = errors.filter(({ pointer }) => !OWN_FIELDS.test(pointer));
  return (
    <div class="trouble" role="alert">
      <p>This trip cannot be worked out yet: {plural(errors.length, "fault")}. They stand at their fields.</p>
      {others.length > 0 && (
        <ul>
          {others.map((error) => (
            <li key={`${error.pointer} ${error.message}`}>
              {error.pointer.slice(1).replaceAll("/", " ")}: {error.message} Expected: {error.expected}.
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

interface AnswerProps {
  readonly id: string;
  /** Of the fleet; empty for a rig of one's own. */
  readonly unit: string;
  readonly plan: TripPlan;
  readonly sizes: Parameters<typeof Tanks>[0]["sizes"];
}

function Answer({ id, unit, plan, sizes }: AnswerProps) {
  const units = useStore((state) => state.kept.units);
  const { kit, supplies } = plan;
  return (
    <>
      <div class="goes" data-part="trip-works">
        <WorksMark works={plan.works} size={44} />
        <p>
          <b>{plan.rig.name ?? plan.rig.id ?? "The rig"}</b>, {dayText(plan.from, units)} to {dayText(plan.to, units)},{" "}
          {plural(plan.nights, "night")}, {peopleText(plan.party)}. {plan.headline}
        </p>
      </div>
      <section aria-labelledby="stops-title">
        <h2 id="stops-title">Stops</h2>
        <ol class="stops">
          {plan.stops.map((stop) => (
            <StopPanel key={stop.index} stop={stop} supplies={supplies.stops[stop.index] ?? null} />
          ))}
        </ol>
      </section>
      <Tanks supplies={supplies} sizes={sizes} />
      <section class="panel" aria-labelledby="kit-title">
        <h2 id="kit-title">Kit</h2>
        {kit.alternatives.length > 0 && (
          <ul>
            {kit.alternatives.map((one) => (
              <li key={`${one.description} ${one.insteadOf.join()}`}>
                {one.description} ({one.where}) would do instead of {namesOf(plan, one.insteadOf)}. {one.why}
              </li>
            ))}
          </ul>
        )}
        {!kit.proven && <p class="quiet">A smaller kit was not ruled out: there were too many to try.</p>}
        <LoadList list={`${id} ${unit}`} boxes={loadOfTrip(kit)} level={3} />
      </section>
    </>
  );
}

function namesOf({ kit }: TripPlan, ids: readonly string[]): string {
  return ids.map((id) => kit.items.find((item) => item.id === id)?.description ?? id).join(" and ");
}
