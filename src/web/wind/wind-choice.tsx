/** Choosing a wind: none, one by hand, an invented day that is replayed, or the forecast for dates. */
import { keep, useStore } from "../state/store.ts";
import { COMPASS, FASTEST, NO_WIND, shownSpeed, speedOf, speedUnit, type WindChoice } from "./choice.ts";
import { REPLAYED } from "./days.ts";

type Kind = WindChoice["kind"];

const FIRST_SPEED = 8.9408;
const choose = (wind: WindChoice): void => keep({ wind });

interface ChoiceProps {
  /** Days can be replayed at an invented campground only: they have its clock and its weather. */
  readonly invented: boolean;
  /** True when the server has a forecast service. */
  readonly forecast: boolean;
  /** The direction to begin with. */
  readonly from: string;
}

function firstOf(kind: Kind, from: string): WindChoice {
  switch (kind) {
    case "none":
      return NO_WIND;
    case "hand":
      return { kind, speed: FIRST_SPEED, from };
    case "day":
      return { kind, id: REPLAYED[0].id };
    case "dates":
      return { kind, from: "", to: "" };
  }
}

export function WindChoiceForm({ invented, forecast, from }: ChoiceProps) {
  const wind = useStore((state) => state.kept.wind);
  const offered: readonly { readonly kind: Kind; readonly name: string; readonly shown: boolean }[] = [
    { kind: "none", name: "The site alone", shown: true },
    { kind: "hand", name: "A wind I expect", shown: true },
    { kind: "day", name: "An invented day", shown: invented },
    { kind: "dates", name: "The forecast", shown: forecast },
  ];
  return (
    <div class="wind-choice">
      <fieldset class="chips">
        <legend class="wind-legend">Wind to judge by</legend>
        {offered
          .filter((one) => one.shown || one.kind === wind.kind)
          .map(({ kind, name }) => (
            <label key={kind} class={`chip ${wind.kind === kind ? "on" : ""}`}>
              <input
                type="radio"
                name="wind-kind"
                checked={wind.kind === kind}
                onChange={() => choose(firstOf(kind, from))}
              />
              {name}
            </label>
          ))}
      </fieldset>
      {wind.kind === "hand" && <ByHand speed={wind.speed} from={wind.from} />}
      {wind.kind === "day" && <Days id={wind.id} />}
      {wind.kind === "dates" && <Dates from={wind.from} to={wind.to} />}
    </div>
  );
}

function ByHand({ speed, from }: { readonly speed: number; readonly from: string }) {
  const units = useStore((state) => state.kept.units);
  const most = shownSpeed(FASTEST, units);
  return (
    <div class="wind-fields">
      <label>
        Gusts up to ({speedUnit(units)})
        <input
          type="number"
          inputMode="numeric"
          min="0"
          max={most}
          step="1"
          value={shownSpeed(speed, units)}
          onInput={(event) => {
            const shown = event.currentTarget.valueAsNumber;
            if (shown >= 0 && shown <= most) choose({ kind: "hand", speed: speedOf(shown, units), from });
          }}
        />
      </label>
      <label>
        Wind from
        <select value={from} onChange={(event) => choose({ kind: "hand", speed, from: event.currentTarget.value })}>
          {COMPASS.map((word) => (
            <option key={word} value={word}>
              {word}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}

function Days({ id }: { readonly id: string }) {
  return (
    <div class="wind-fields">
      <label>
        Day to replay
        <select value={id} onChange={(event) => choose({ kind: "day", id: event.currentTarget.value })}>
          {REPLAYED.map((day) => (
            <option key={day.id} value={day.id}>
              {day.name} (invented)
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}

function Dates({ from, to }: { readonly from: string; readonly to: string }) {
  return (
    <div class="wind-fields">
      <label>
        Arriving
        <input
          type="date"
          value={from}
          onChange={(event) => choose({ kind: "dates", from: event.currentTarget.value, to })}
        />
      </label>
      <label>
        Leaving
        <input
          type="date"
          value={to}
          min={from}
          onChange={(event) => choose({ kind: "dates", from, to: event.currentTarget.value })}
        />
      </label>
    </div>
  );
}
