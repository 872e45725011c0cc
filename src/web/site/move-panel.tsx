/** Moving the rig with sliders, which every keyboard and screen reader knows, and the way back. */
import type { Fit } from "../../fit/answer.ts";
import { formatLength } from "../../units/print.ts";
import { marginText, neededText, SERVICE_WORDS } from "../shared/words.ts";
import { useStore } from "../state/store.ts";
import type { Trial } from "./use-trial.ts";

/** How far the sliders reach from the place worked out, metres, and in what steps. */
const ALONG = 5;
const SIDEWAYS = 1.5;
const STEP = 0.05;
const DECIMALS = 2;

interface MovePanelProps {
  readonly fit: Fit;
  readonly trial: Trial;
}

export function MovePanel({ fit, trial }: MovePanelProps) {
  const units = useStore((state) => state.kept.units);
  const stance = fit.stance!;
  const at = trial.place ?? stance;
  const end = stance.facing === "out" ? "rear bumper" : "nose";
  const beyond = at.along < 0 ? "behind the pad's rear edge" : "from the pad's rear edge";
  const sideways =
    Math.abs(at.left) < STEP / 2
      ? "on the middle line"
      : `${formatLength(Math.abs(at.left), units)} ${at.left > 0 ? "left" : "right"} of the middle line`;
  return (
    <section class="panel move" aria-labelledby="move-title">
      <h2 id="move-title">Where the rig stands</h2>
      <p data-part="place">
        Nose {stance.facing}, {end} {formatLength(Math.abs(at.along), units)} {beyond}, {sideways}.
      </p>
      {fit.window !== null && (
        <p data-part="window">
          Stop anywhere between {formatLength(fit.window.along.from, units, { round: "up" })} and{" "}
          {formatLength(fit.window.along.to, units, { round: "down" })} from the rear edge. {fit.window.why}
        </p>
      )}
      <p class="margins-now" aria-hidden="true">
        {(trial.tried?.lines ?? fit.lines).flatMap(({ service, margin }) =>
          margin === null
            ? []
            : [
                <span key={service} class={margin < 0 ? "short" : ""}>
                  {SERVICE_WORDS[service]} {marginText(margin, units)}
                </span>,
              ],
        )}
      </p>
      <div class="sliders">
        <Slider
          name="Along the pad"
          value={at.along}
          middle={stance.along}
          reach={ALONG}
          onInput={(along) => trial.move({ along, left: at.left })}
          text={`${end} ${formatLength(Math.abs(at.along), units)} ${beyond}`}
        />
        <Slider
          name="Sideways"
          value={at.left}
          middle={stance.left}
          reach={SIDEWAYS}
          onInput={(left) => trial.move({ along: at.along, left })}
          text={sideways}
        />
      </div>
      {trial.tried !== null && trial.tried.contacts.length > 0 && (
        <ul class="touches" data-part="touches">
          {trial.tried.contacts.map((one) => (
            <li key={`${one.part} ${one.against}`}>
              Cannot stand here: {one.part} against {one.against}, {neededText(one.depth, units)} too far.
            </li>
          ))}
        </ul>
      )}
      <button type="button" class="button strong" disabled={trial.place === null} onClick={trial.back}>
        Back to the place worked out
      </button>
    </section>
  );
}

interface SliderProps {
  readonly name: string;
  readonly value: number;
  readonly middle: number;
  readonly reach: number;
  readonly text: string;
  readonly onInput: (value: number) => void;
}

function Slider({ name, value, middle, reach, text, onInput }: SliderProps) {
  return (
    <label class="slider">
      {name}
      <input
        type="range"
        min={(middle - reach).toFixed(DECIMALS)}
        max={(middle + reach).toFixed(DECIMALS)}
        step={STEP}
        value={value}
        aria-valuetext={text}
        onInput={(event) => onInput(Number(event.currentTarget.value))}
      />
    </label>
  );
}
