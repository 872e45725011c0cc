/** One stop: the site chosen and the two in hand, tanks at a glance, what may run, the card. */
import { useState } from "preact/hooks";
import type { StopPlan } from "../../trip/plan.ts";
import type { NextChance, StopSupplies } from "../../trip/supplies/types.ts";
import { dayText } from "../desk/words.ts";
import { WorksMark } from "../desk/works.tsx";
import { later } from "../shared/later.tsx";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";
import { availableText, plural } from "../shared/words.ts";
import { useStore } from "../state/store.ts";
import { Running } from "./running.tsx";

const TripCard = later(() => import("./trip-card.tsx").then((module) => module.TripCard));

interface StopProps {
  readonly stop: StopPlan;
  readonly supplies: StopSupplies | null;
}

export function StopPanel({ stop, supplies }: StopProps) {
  const units = useStore((state) => state.kept.units);
  const { fit, index, next, blocking, card } = stop;
  const title = `stop-${index + 1}`;
  return (
    <li class="panel stop" data-stop={index + 1} data-works={stop.works}>
      <div class="stop-head">
        <div>
          <h3 id={title}>
            {index + 1}. {fit === null ? stop.name : fit.site.name}
          </h3>
          <p class="quiet">
            {fit !== null && stop.name !== fit.site.name ? `${stop.name}, ` : ""}
            {dayText(stop.arrive, units)} to {dayText(stop.leave, units)}, {plural(stop.nights, "night")}
          </p>
        </div>
        <WorksMark works={stop.works} size={36} />
      </div>
      {fit !== null && <p>{fit.headline}</p>}
      {fit === null && blocking === null && <p>No site and no hookups: the rig lives on what it carries.</p>}
      {blocking !== null && <p class="trouble">{blocking.why}</p>}
      {next.length > 0 && (
        <div>
          <h4>If that site cannot be had</h4>
          <ul class="next-sites">
            {next.map((site) => (
              <li key={site.id}>
                <VerdictMark verdict={site.verdict} size={22} />
                <span>
                  <b>{site.name}</b>: {verdictWords(site.verdict).toLowerCase()}
                  {site.bestMargin === null ? "" : `, ${availableText(Math.max(site.bestMargin, 0), units)} to spare`}.
                  {site.served ? "" : ` ${site.headline}`}
                </span>
              </li>
            ))}
          </ul>
        </div>
      )}
      {supplies !== null && <StopTanks supplies={supplies} />}
      <Running running={stop.running} />
      {fit !== null && card !== null && <CardFold stop={stop} />}
    </li>
  );
}

function chance(what: string, next: NextChance | null): string {
  if (next === null) return `${what}: no place for it is on record after this.`;
  return `${what} next at ${next.name}${next.sure ? "" : " (not known whether it serves this rig)"}, day ${next.day}.`;
}

function StopTanks({ supplies }: { readonly supplies: StopSupplies }) {
  const { nextDump, nextFill, visits, black, grey, notes } = supplies;
  return (
    <div class="stop-tanks">
      <p>
        {chance("Empty", nextDump)} {chance("Fill", nextFill)}
      </p>
      <details>
        <summary>Tanks at this stop</summary>
        <p>{black.why}</p>
        <p>{grey.why}</p>
        {visits.map((visit) => (
          <section key={visit.station}>
            <h4>{visit.name}</h4>
            <p>{visit.why}</p>
            <ol>
              {visit.steps.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          </section>
        ))}
        {notes.map(({ id, text }) => (
          <p key={id}>{text}</p>
        ))}
      </details>
    </div>
  );
}

/** The sheet is drawn when somebody looks at it. */
function CardFold({ stop }: { readonly stop: StopPlan }) {
  const [open, setOpen] = useState(false);
  const { fit, card } = stop;
  if (fit === null || card === null) return null;
  return (
    <details class="card-fold" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Hookup card for this stop</summary>
      {open && <TripCard fit={fit} card={card} />}
    </details>
  );
}
