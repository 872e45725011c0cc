/** Dates, party and stops of a trip; what is wrong stands at its field, as the core says it. */
import { useEffect, useState } from "preact/hooks";
import { useTools } from "../context.ts";
import type { PlanFault } from "../core/trip-protocol.ts";
import { type CampgroundRecord, campgroundRecord } from "../desk/campgrounds.ts";
import { type Wire, wireOf } from "../desk/files.ts";
import { addDays } from "../desk/words.ts";
import { useStore } from "../state/store.ts";
import { FormField, faultsAt } from "./form-field.tsx";

interface FormProps {
  readonly trip: Wire;
  readonly errors: readonly PlanFault[];
  readonly edit: (trip: Wire) => void;
}

const stopsOf = (trip: Wire): readonly Wire[] => (Array.isArray(trip["stops"]) ? trip["stops"].map(wireOf) : []);

/** A whole number stays text while it is none, so that the core can say what is wrong with it. */
function counted(text: string): unknown {
  const plain = text.trim();
  return /^-?\d+$/.test(plain) ? Number(plain) : plain === "" ? undefined : plain;
}

function without(wire: Wire, ...keys: readonly string[]): Wire {
  return Object.fromEntries(Object.entries(wire).filter(([key]) => !keys.includes(key)));
}

function set(wire: Wire, key: string, value: unknown): Wire {
  return value === undefined ? without(wire, key) : { ...wire, [key]: value };
}

export function TripForm({ trip, errors, edit }: FormProps) {
  const stops = stopsOf(trip);
  const party = wireOf(trip["party"]);
  const setStops = (next: readonly Wire[]) => edit({ ...trip, stops: next });
  const add = () => {
    const last = stops.at(-1);
    const arrive = String(last?.["leave"] ?? "");
    const leave = /^\d{4}-\d\d-\d\d$/.test(arrive) ? addDays(arrive, 1) : "";
    setStops([...stops, { arrive, leave, offGrid: true }]);
  };
  const move = (from: number, to: number) => {
    const next = [...stops];
    const [taken] = next.splice(from, 1);
    if (taken === undefined) return;
    next.splice(to, 0, taken);
    setStops(next);
  };
  return (
    <div class="trip-form" data-part="trip-form">
      <div class="form-row">
        {(["adults", "children"] as const).map((key) => (
          <FormField
            key={key}
            id={`party-${key}`}
            label={key === "adults" ? "Adults" : "Children"}
            pointers={[`/party/${key}`, ...(key === "adults" ? ["/party"] : [])]}
            errors={errors}
          >
            {(shared) => (
              <input
                type="text"
                inputMode="numeric"
                {...shared}
                value={String(party[key] ?? "")}
                onInput={(event) => edit({ ...trip, party: set(party, key, counted(event.currentTarget.value)) })}
              />
            )}
          </FormField>
        ))}
      </div>
      <ol class="stop-forms">
        {stops.map((stop, index) => (
          <li key={index}>
            <StopForm
              stop={stop}
              index={index}
              errors={errors}
              edit={(next) => setStops(stops.map((one, at) => (at === index ? next : one)))}
            />
            <p class="form-tools">
              <button type="button" class="button" disabled={index === 0} onClick={() => move(index, index - 1)}>
                Earlier <span class="unseen">: stop {index + 1}</span>
              </button>
              <button
                type="button"
                class="button"
                disabled={index === stops.length - 1}
                onClick={() => move(index, index + 1)}
              >
                Later <span class="unseen">: stop {index + 1}</span>
              </button>
              <button
                type="button"
                class="button"
                disabled={stops.length === 1}
                onClick={() => setStops(stops.filter((_, at) => at !== index))}
              >
                Leave out <span class="unseen">: stop {index + 1}</span>
              </button>
            </p>
          </li>
        ))}
      </ol>
      <button type="button" class="button" onClick={add}>
        Add a stop
      </button>
    </div>
  );
}

interface StopFormProps {
  readonly stop: Wire;
  readonly index: number;
  readonly errors: readonly PlanFault[];
  readonly edit: (stop: Wire) => void;
}

type Kind = "site" | "campground" | "offGrid";
const KINDS: readonly { readonly kind: Kind; readonly title: string }[] = [
  { kind: "site", title: "This site" },
  { kind: "campground", title: "The best free site" },
  { kind: "offGrid", title: "No site, off the grid" },
];

const kindOf = (stop: Wire): Kind =>
  stop["offGrid"] === true ? "offGrid" : stop["site"] === undefined ? "campground" : "site";

function campgroundOf(stop: Wire): string {
  return String(wireOf(stop["site"])["campground"] ?? stop["campground"] ?? "");
}

/** A stop at another kind of place keeps its dates and what is said about the weather. */
function placed(stop: Wire, kind: Kind, campground: string, site: string): Wire {
  const changed = campground !== campgroundOf(stop);
  const kept = without(stop, "site", "campground", "offGrid", ...(changed ? ["among", "taken", "lends"] : []));
  if (kind === "offGrid") return { ...without(kept, "among", "taken", "lends"), offGrid: true };
  return kind === "campground" ? { ...kept, campground } : { ...kept, site: { campground, site } };
}

function useRecord(id: string): CampgroundRecord | null {
  const { session } = useTools();
  const [record, setRecord] = useState<CampgroundRecord | null>(null);
  useEffect(() => {
    let gone = false;
    setRecord(null);
    if (id !== "") void campgroundRecord(session, id).then((found) => gone || setRecord(found));
    return () => {
      gone = true;
    };
  }, [id]);
  return record;
}

function StopForm({ stop, index, errors, edit }: StopFormProps) {
  const opened = useStore((state) => state.opened);
  const listed = useStore((state) => state.campgrounds);
  const at = `/stops/${index}`;
  const kind = kindOf(stop);
  const campground = campgroundOf(stop);
  const record = useRecord(campground);
  const site = String(wireOf(stop["site"])["site"] ?? "");
  const place = (next: Kind, where: string, which: string) => edit(placed(stop, next, where, which));
  const home = campground === "" ? (opened?.id ?? listed[0]?.id ?? "") : campground;
  const first = record?.sites[0]?.id ?? "";
  const ids = [...new Set([...listed.map((one) => one.id), campground])].filter((id) => id !== "");
  const nameOf = (id: string) => listed.find((one) => one.id === id)?.name ?? id;
  const shared = { errors, index };
  return (
    <fieldset class="stop-form">
      <legend>Stop {index + 1}</legend>
      <div class="form-row">
        <DateField {...shared} name="arrive" label="Arrive" stop={stop} edit={edit} />
        <DateField {...shared} name="leave" label="Leave" stop={stop} edit={edit} />
        <FormField id={`stop-${index}-kind`} label="Where" pointers={[at, `${at}/offGrid`]} errors={errors}>
          {(own) => (
            <select
              {...own}
              value={kind}
              onChange={(event) => place(event.currentTarget.value as Kind, home, site === "" ? first : site)}
            >
              {KINDS.map((one) => (
                <option key={one.kind} value={one.kind}>
                  {one.title}
                </option>
              ))}
            </select>
          )}
        </FormField>
        {kind !== "offGrid" && (
          <FormField
            id={`stop-${index}-campground`}
            label="Campground"
            pointers={[`${at}/campground`, `${at}/site/campground`]}
            errors={errors}
          >
            {(own) => (
              <select {...own} value={campground} onChange={(event) => place(kind, event.currentTarget.value, "")}>
                {ids.map((id) => (
                  <option key={id} value={id}>
                    {nameOf(id)}
                  </option>
                ))}
              </select>
            )}
          </FormField>
        )}
        {kind === "site" && (
          <FormField
            id={`stop-${index}-site`}
            label="Site"
            pointers={[`${at}/site/site`, `${at}/site`]}
            errors={errors}
          >
            {(own) => (
              <select {...own} value={site} onChange={(event) => place(kind, campground, event.currentTarget.value)}>
                {!record?.sites.some((one) => one.id === site) && <option value={site}>{site}</option>}
                {record?.sites.map((one) => (
                  <option key={one.id} value={one.id}>
                    {one.name}
                  </option>
                ))}
              </select>
            )}
          </FormField>
        )}
      </div>
      {kind !== "offGrid" && <Offer stop={stop} index={index} errors={errors} edit={edit} />}
    </fieldset>
  );
}

interface DateProps {
  readonly name: "arrive" | "leave";
  readonly label: string;
  readonly stop: Wire;
  readonly index: number;
  readonly errors: readonly PlanFault[];
  readonly edit: (stop: Wire) => void;
}

function DateField({ name, label, stop, index, errors, edit }: DateProps) {
  return (
    <FormField id={`stop-${index}-${name}`} label={label} pointers={[`/stops/${index}/${name}`]} errors={errors}>
      {(own) => (
        <input
          type="date"
          {...own}
          value={String(stop[name] ?? "")}
          onChange={(event) => edit({ ...stop, [name]: event.currentTarget.value })}
        />
      )}
    </FormField>
  );
}

/** Sites on offer and sites that are taken, as ids. */
function Offer({ stop, index, errors, edit }: StopFormProps) {
  const text = (key: string) => (Array.isArray(stop[key]) ? stop[key].map(String).join(", ") : "");
  const listed = (value: string) => {
    const ids = value.split(/[\s,]+/).filter((id) => id !== "");
    return ids.length === 0 ? undefined : ids;
  };
  return (
    <details
      open={(["among", "taken"] as const).some((key) => faultsAt(errors, [`/stops/${index}/${key}`], true).length > 0)}
    >
      <summary>Sites on offer{stop["among"] === undefined ? ": all of the campground" : ""}</summary>
      <div class="form-row">
        {(["among", "taken"] as const).map((key) => (
          <FormField
            key={key}
            id={`stop-${index}-${key}`}
            label={key === "among" ? "Only these (ids)" : "Taken (ids)"}
            pointers={[`/stops/${index}/${key}`]}
            within
            errors={errors}
          >
            {(own) => (
              <input
                type="text"
                {...own}
                value={text(key)}
                onChange={(event) => edit(set(stop, key, listed(event.currentTarget.value)))}
              />
            )}
          </FormField>
        ))}
      </div>
    </details>
  );
}
