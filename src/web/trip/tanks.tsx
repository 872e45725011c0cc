/** Tanks and energy through all stops, as pictures with the same in words. */
import type { Store } from "../../fit/stay/types.ts";
import type { SuppliesPlan } from "../../trip/supplies/types.ts";
import { formatVolume } from "../../units/print.ts";
import { type Units, useStore } from "../state/store.ts";
import { type ChartPoint, TankChart } from "./tank-chart.tsx";

const TITLES: Readonly<Record<Store, string>> = {
  fresh: "Fresh water",
  grey: "Grey tank",
  black: "Black tank",
  propane: "Propane",
  battery: "Battery",
  generatorFuel: "Generator fuel",
};
const ALL = Object.keys(TITLES) as Store[];

interface TanksProps {
  readonly supplies: SuppliesPlan;
  readonly sizes: Readonly<Record<Store, number | null>>;
}

function pointsOf({ stops }: SuppliesPlan, store: Store): ChartPoint[] {
  return stops.flatMap((stop) => [
    ...stop.days.map(({ day, levels }) => ({ day, level: levels[store] })),
    { day: stop.to, level: stop.after[store] },
  ]);
}

function amountText(store: Store, amount: number, units: Units): string {
  return store === "battery" ? `${Math.floor(amount)} Wh` : formatVolume(amount, units, { round: "down" });
}

/** One known level alone, that at departure, tells nothing of the way. */
const isTold = (points: readonly ChartPoint[]): boolean => points.filter(({ level }) => level.high !== null).length > 1;

export function Tanks({ supplies, sizes }: TanksProps) {
  const units = useStore((state) => state.kept.units);
  const known = ALL.filter((store) => isTold(pointsOf(supplies, store)));
  const unknown = ALL.filter((store) => !known.includes(store));
  const limits = supplies.stops.map(({ from, to }, index) => ({ from, to, title: String(index + 1) }));
  return (
    <section class="panel" aria-labelledby="tanks-title" data-part="tanks">
      <h2 id="tanks-title">Tanks and energy</h2>
      <p>{supplies.lasts.why}</p>
      <p class="quiet">
        The line is expected use, the band reaches from low to high use. Days run from left to right, the numbers below
        are the stops. A triangle marks when a tank is full or empty at expected use, or at the earliest.
      </p>
      <div class="tank-charts">
        {known.map((store) => {
          const size = sizes[store];
          const events = supplies.events.filter((event) => event.store === store);
          return (
            <figure key={store} data-store={store}>
              <figcaption>
                <b>{TITLES[store]}</b>
                {size !== null && <span class="quiet">, holds {amountText(store, size, units)}</span>}
              </figcaption>
              <TankChart
                title={TITLES[store]}
                size={size}
                points={pointsOf(supplies, store)}
                stops={limits}
                events={events}
                amount={(value) => amountText(store, value, units)}
              />
              {events.length > 0 && (
                <ul>
                  {events.map((event) => (
                    <li key={`${event.kind} ${event.stop}`}>{event.why}</li>
                  ))}
                </ul>
              )}
            </figure>
          );
        })}
      </div>
      {unknown.length > 0 && (
        <p class="quiet">
          Not known, because nobody has said how much they hold or how much is used:{" "}
          {unknown.map((store) => TITLES[store]).join(", ")}.
        </p>
      )}
      <Notes supplies={supplies} />
    </section>
  );
}

function Notes({ supplies }: Pick<TanksProps, "supplies">) {
  return (
    <>
      {supplies.cautions.length > 0 && (
        <ul>
          {supplies.cautions.map(({ id, text }) => (
            <li key={id}>{text}</li>
          ))}
        </ul>
      )}
      {supplies.assumed.length > 0 && (
        <details>
          <summary>Assumed of use and tanks ({supplies.assumed.length})</summary>
          <ul>
            {supplies.assumed.map((one) => (
              <li key={`${one.path} ${one.value}`}>
                {one.value} <span class="quiet">{one.source}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
