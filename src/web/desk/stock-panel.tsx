/** The depot's stock by date: what runs short and who wants it, then what is out. */
import type { DeskPlan, StockPlan } from "../../trip/desk/desk.ts";
import type { StockPeriod } from "../../trip/desk/reserve.ts";
import { type Units, useStore } from "../state/store.ts";
import { dayText } from "./words.ts";

function span({ from, to }: StockPeriod, units: Units): string {
  return from === to ? dayText(from, units) : `${dayText(from, units)} to ${dayText(to, units)}`;
}

export function StockPanel({ plan }: { readonly plan: DeskPlan }) {
  const units = useStore((state) => state.kept.units);
  const names = new Map(plan.trips.map((trip) => [trip.id, trip.name]));
  const used = plan.stock.filter(({ periods }) => periods.length > 0);
  const short = used.flatMap((thing) =>
    thing.periods.filter((one) => one.short > 0).map((period) => ({ thing, period })),
  );
  return (
    <section class="panel" aria-labelledby="stock-title" data-part="stock">
      <h2 id="stock-title">Stock by date</h2>
      {short.length === 0 ? (
        <p>Nothing runs short for these bookings.</p>
      ) : (
        <ul class="shortages">
          {short.map(({ thing, period }) => (
            <li key={`${thing.stock} ${period.from}`} data-short={period.short}>
              <span class="short-mark" aria-hidden="true">
                !
              </span>
              <p>
                <b>
                  {period.short} missing: {thing.description}
                </b>
                , {span(period, units)}. {period.out} wanted, the depot has {thing.count}. Wanted by{" "}
                {period.trips.map((id) => names.get(id) ?? id).join(", ")}.
              </p>
            </li>
          ))}
        </ul>
      )}
      {used.length > 0 && (
        <details>
          <summary>Everything that is out, by date</summary>
          <StockTable used={used} units={units} />
        </details>
      )}
    </section>
  );
}

function StockTable({ used, units }: { readonly used: readonly StockPlan[]; readonly units: Units }) {
  return (
    <table class="stock-table">
      <thead>
        <tr>
          <th scope="col">Thing</th>
          <th scope="col">Days</th>
          <th scope="col">Out</th>
          <th scope="col">Left</th>
        </tr>
      </thead>
      <tbody>
        {used.map((thing) =>
          thing.periods.map((period, index) => (
            <tr key={`${thing.stock} ${period.from}`} class={period.short > 0 ? "is-short" : ""}>
              {index === 0 && (
                <th scope="rowgroup" rowSpan={thing.periods.length}>
                  {thing.description}
                </th>
              )}
              <td>{span(period, units)}</td>
              <td>
                {period.out} of {thing.count}
              </td>
              <td>{period.short > 0 ? `${period.short} short` : period.left}</td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}
