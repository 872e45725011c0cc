/** The wind at one site: the rose beside the plan, a wind to judge by, and the hours of a stay. Loaded when it is shown. */
import "./wind.css";
import { useEffect, useState } from "preact/hooks";
import { PlanPicture } from "../compare/plan-picture.tsx";
import type { FitAnswer, WindAwning, WindTold } from "../core/protocol.ts";
import { useStore } from "../state/store.ts";
import { dayText, hourText } from "./hour-words.ts";
import { HoursStrip } from "./hours-strip.tsx";
import { hasForecasts } from "./server.ts";
import { useWind } from "./use-wind.ts";
import { WindChoiceForm } from "./wind-choice.tsx";

/** Where a wind by hand begins when the record states no prevailing wind. */
const MOSTLY = "W";

interface WindSectionProps {
  readonly answer: FitAnswer;
  /** True while a fuller answer is on its way: the core is not asked twice. */
  readonly partial: boolean;
}

export function WindSection({ answer, partial }: WindSectionProps) {
  const opened = useStore((state) => state.opened);
  const { told, trouble } = useWind(answer, partial);
  const forecast = useForecasts();
  return (
    <section class="panel wind" aria-labelledby="wind-title" data-part="wind">
      <h2 id="wind-title">Wind and awning</h2>
      {told !== null && <Exposure told={told} name={answer.fit.site.name} />}
      <WindChoiceForm invented={opened?.invented ?? false} forecast={forecast} from={told?.prevailing ?? MOSTLY} />
      {trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {told === null && trouble === null && (
        <p class="quiet" role="status">
          The wind is being worked out.
        </p>
      )}
      {told !== null && <Told told={told} />}
      {told !== null && <p class="wind-caution">{told.caution}</p>}
    </section>
  );
}

/** A campground that only this device has is unknown to the server, which then has no forecast for it. */
function useForecasts(): boolean {
  const [has, setHas] = useState(false);
  const known = useStore((state) =>
    state.campgrounds.some((one) => one.id === state.opened?.id && one.from === "server"),
  );
  useEffect(() => {
    hasForecasts().then(setHas);
  }, []);
  return has && known;
}

/** What the map alone says. */
function Exposure({ told, name }: { readonly told: WindTold; readonly name: string }) {
  const { rose, exposure } = told;
  return (
    <div class="wind-answer">
      {exposure.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {rose !== null && (
        <>
          <div class="wind-rose">
            <PlanPicture svg={rose.svg} label={`Wind rose of ${name}`} />
          </div>
          <details>
            <summary>What the rose says, in words</summary>
            <ul>
              {rose.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
            <p class="quiet">{rose.key}</p>
          </details>
        </>
      )}
    </div>
  );
}

function Told({ told }: { readonly told: WindTold }) {
  const { wind, awnings } = told;
  if (awnings.length === 0) return <p>The rig has no awning on record, so there are no hours to tell.</p>;
  if (wind === null) return null;
  return (
    <div class="wind-answer" data-part="wind-answer">
      {wind.forecast !== null && <p class="quiet">{wind.forecast.attribution}</p>}
      {wind.problem !== null && <p>{wind.problem.text}</p>}
      {awnings.map((awning) => (
        <Awning key={awning.id} awning={awning} several={awnings.length > 1} />
      ))}
      {wind.stay !== null && (
        <p class="quiet">
          {wind.stay.timeZoneGiven
            ? `Local times, ${wind.stay.timeZone}.`
            : "Times are in UTC: the campground's own are not on record."}
        </p>
      )}
      <details>
        <summary>What is left out</summary>
        <ul>
          {wind.notModelled.map((one) => (
            <li key={one}>{one}</li>
          ))}
          {[...new Set(awnings.flatMap((awning) => awning.wind?.flags.map((flag) => flag.text) ?? []))].map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </details>
    </div>
  );
}

/** A low level is a figure and no word of leave. */
const LEVEL_WORDS = {
  low: "level low",
  moderate: "level moderate",
  high: "level high",
  retract: "retract",
  unknown: "unknown",
} as const;

function Awning({ awning, several }: { readonly awning: WindAwning; readonly several: boolean }) {
  const units = useStore((state) => state.kept.units);
  const { wind, hours, id } = awning;
  return (
    <>
      {several && <h3>{id}</h3>}
      {wind === null ? (
        <p>Nothing is known about the wind at this awning then.</p>
      ) : (
        <p data-part="worst">
          <span class="wind-word" data-level={wind.level}>
            {LEVEL_WORDS[wind.level]}
          </span>{" "}
          {wind.hour !== null && `Worst: ${dayText(wind.hour)}, ${hourText(wind.hour, units)}. `}
          {wind.why}
        </p>
      )}
      {hours !== null && <HoursStrip hours={hours} />}
    </>
  );
}
