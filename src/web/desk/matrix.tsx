/** Bookings by units: a mark and a word in every cell, the unit that goes framed, why not on pressing. */
import { useState } from "preact/hooks";
import type { Cell } from "../../trip/desk/cell.ts";
import type { DeskPlan, DeskTripPlan } from "../../trip/desk/desk.ts";
import { VerdictMark } from "../shared/verdict-mark.tsx";
import { useStore } from "../state/store.ts";
import { type DeskFiles, nameOf, wireOf } from "./files.ts";
import { dayText, shortName, WORKS_MARK, WORKS_WORDS } from "./words.ts";

interface MatrixProps {
  readonly files: DeskFiles;
  /** Null until it is worked out. */
  readonly plan: DeskPlan | null;
}

interface Chosen {
  readonly trip: string;
  readonly unit: string;
}

export function Matrix({ files, plan }: MatrixProps) {
  const units = useStore((state) => state.kept.units);
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const fleet = files.fleet.list.map(wireOf);
  const rows = plan?.trips ?? [];
  const waiting = plan === null ? files.trips.list.map(wireOf) : [];
  const trip = rows.find((one) => one.id === chosen?.trip);
  const cell = trip?.units.find((one) => one.unit === chosen?.unit);
  return (
    <section class="panel" aria-labelledby="matrix-title">
      <h2 id="matrix-title">Which unit for which booking</h2>
      <p class="quiet">
        The best unit of each row has place 1: it works, with the least to buy, to pack and to borrow. Press a cell to
        read why.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled by keyboard too. */}
      <section class="matrix-frame" tabIndex={0} aria-label="Table of bookings and units">
        <table class="matrix">
          <thead>
            <tr>
              <th scope="col">Booking</th>
              {fleet.map((unit) => (
                <th key={String(unit["id"])} scope="col">
                  <span title={nameOf(unit)}>{shortName(nameOf(unit))}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((one) => (
              <tr key={one.id} data-trip={one.id}>
                <th scope="row">
                  {one.name}
                  <span class="quiet"> {dayText(one.from, units)}</span>
                </th>
                {fleet.map((unit) => (
                  <MatrixCell key={String(unit["id"])} trip={one} unit={String(unit["id"])} choose={setChosen} />
                ))}
              </tr>
            ))}
            {waiting.map((one) => (
              <tr key={String(one["id"])}>
                <th scope="row">{nameOf(one)}</th>
                {fleet.map((unit) => (
                  <td key={String(unit["id"])} class="matrix-waiting">
                    <VerdictMark verdict="waiting" size={26} />
                    <span class="unseen">not worked out yet</span>
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p class="matrix-why" role="status" data-part="matrix-why">
        {cell !== undefined && trip !== undefined && (
          <>
            <b>
              {cell.name} for {trip.name}, place {cell.rank}:
            </b>{" "}
            {cell.why}
          </>
        )}
      </p>
    </section>
  );
}

interface CellProps {
  readonly trip: DeskTripPlan;
  readonly unit: string;
  readonly choose: (chosen: Chosen) => void;
}

export function kitText({ toBuy, toPack, lent }: Cell["counts"]): string {
  const parts = [`pack ${toPack}`, ...(toBuy === 0 ? [] : [`buy ${toBuy}`]), ...(lent === 0 ? [] : [`borrow ${lent}`])];
  return parts.join(", ");
}

function MatrixCell({ trip, unit, choose }: CellProps) {
  const cell = trip.units.find((one) => one.unit === unit);
  if (cell === undefined) return <td />;
  const goes = trip.unit === unit;
  return (
    <td class={goes ? "matrix-goes" : ""} data-unit={unit} data-works={cell.works}>
      <button type="button" onClick={() => choose({ trip: trip.id, unit })}>
        <VerdictMark verdict={WORKS_MARK[cell.works]} size={26} />
        <span class="matrix-words">
          <b>{WORKS_WORDS[cell.works]}</b>
          <span>{kitText(cell.counts)}</span>
          <span>
            place {cell.rank}
            {goes && <strong>, goes</strong>}
          </span>
        </span>
      </button>
    </td>
  );
}
