/** The hours of a stay: a cell for each, by letter and pattern, and every hour in words for those who want them. */
import type { AwningHourAnswer } from "../../fit/wind/answer.ts";
import { formatSpeed } from "../../units/print.ts";
import { plural } from "../shared/words.ts";
import { type Units, useStore } from "../state/store.ts";
import { byDay, counted, hourText, SIGNALS, stretches } from "./hour-words.ts";

interface HoursProps {
  readonly hours: readonly AwningHourAnswer[];
}

const gustText = (speed: number | null, units: Units): string =>
  speed === null ? "not known" : formatSpeed(speed, units, { round: "up" });

export function HoursStrip({ hours }: HoursProps) {
  const units = useStore((state) => state.kept.units);
  return (
    <div class="hours" data-part="hours">
      {byDay(hours).map(({ day, hours: ofDay }) => (
        <div key={ofDay[0]?.start} class="hours-day">
          <h3>{day}</h3>
          <ol class="hour-strip" aria-label={`Hours of ${day}`}>
            {ofDay.map(({ start, local, signal, speed }) => (
              <li key={start} class={`hour ${SIGNALS[signal].className}`} data-signal={signal}>
                <span class="hour-time">{hourText(local, units)}</span>
                <span class="hour-letter" aria-hidden="true">
                  {SIGNALS[signal].letter}
                </span>
                <span class="unseen">
                  : {signal}, gust at the awning {gustText(speed, units)}
                </span>
              </li>
            ))}
          </ol>
        </div>
      ))}
      <ul class="hour-key" aria-label="Hours by signal">
        {counted(hours).map(({ signal, count }) => (
          <li key={signal}>
            <span class={`hour ${SIGNALS[signal].className}`} aria-hidden="true">
              <span class="hour-letter">{SIGNALS[signal].letter}</span>
            </span>
            {signal}: {plural(count, "hour")}
          </li>
        ))}
      </ul>
      <details>
        <summary>Every hour in words</summary>
        {byDay(hours).map(({ day, hours: ofDay }) => (
          <div key={ofDay[0]?.start}>
            <h3>{day}</h3>
            <ul class="hour-words">
              {stretches(ofDay).map(({ first, last }) => (
                <li key={first.start}>
                  <b>
                    {first === last
                      ? hourText(first.local, units)
                      : `${hourText(first.local, units)} and on to the hour of ${hourText(last.local, units)}`}
                    : {first.signal}.
                  </b>{" "}
                  {first.why}
                </li>
              ))}
            </ul>
          </div>
        ))}
      </details>
    </div>
  );
}
