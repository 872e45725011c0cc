/** Every mark with what is known of it and what it lacks; questions of side; heights; readings to take back. */
import { formatLength } from "../../units/print.ts";
import { useStore } from "../state/store.ts";
import { lackOf } from "./next-reading.ts";
import type { Solved } from "./solve-walk.ts";
import type { WalkState } from "./use-walk.ts";
import { ADDABLE, labelOf, metresOf, type WalkMark, withMark, withoutMark } from "./walk.ts";
import { contradictionWords, differenceWords, placeWords } from "./words.ts";

interface MarksProps {
  readonly state: WalkState;
  readonly solved: Solved;
}

/** What has to be settled before anything else: contradictions and two places for one mark. */
export function Questions({ state, solved }: MarksProps) {
  const units = useStore((page) => page.kept.units);
  const { walk, change } = state;
  if (solved.questions.length + solved.contradictions.length === 0) return null;
  return (
    <section class="panel measure-questions" aria-label="To settle">
      {solved.contradictions.map((one) => (
        <p key={`${one.from} ${one.to}`} class="measure-wrong" data-part="contradiction">
          {contradictionWords(one, walk, units)}
        </p>
      ))}
      {solved.questions.map(({ id, places: [one, other] }) => (
        <fieldset key={id} class="measure-question">
          <legend>Where is the {labelOf(walk, id)}? The tapes leave two places.</legend>
          {[one, other].map((place, index) => (
            <button
              key={differenceWords(place, index === 0 ? other : one)}
              type="button"
              class="button big"
              onClick={() => change((now) => ({ ...now, choices: { ...now.choices, [id]: place } }))}
            >
              <b>{index === 0 ? "A" : "B"}</b>
              <span>
                {differenceWords(place, index === 0 ? other : one)}
                <small>{placeWords(place, units)}</small>
              </span>
            </button>
          ))}
        </fieldset>
      ))}
    </section>
  );
}

export function Marks({ state, solved }: MarksProps) {
  const { walk, change } = state;
  const free = walk.marks.filter(({ kind }) => kind !== "corner");
  return (
    <section class="panel marks" aria-label="Marks">
      <h2>Marks</h2>
      <ul class="mark-list">
        {free.map((mark) => (
          <MarkRow key={mark.id} mark={mark} state={state} solved={solved} />
        ))}
      </ul>
      <div class="pick">
        <label for="another-mark">Another mark</label>
        <select
          id="another-mark"
          value=""
          onChange={(event) => {
            const what = event.currentTarget.value;
            event.currentTarget.value = "";
            change((now) => withMark(now, what));
          }}
        >
          <option value="">choose what it is</option>
          {ADDABLE.map(({ what, label }) => (
            <option key={what} value={what}>
              {label}
            </option>
          ))}
        </select>
      </div>
    </section>
  );
}

const HEIGHT_OF: Readonly<Record<string, string>> = {
  power: "Height of its receptacle",
  water: "Height of its outlet",
  fill: "Height of its outlet",
  sewer: "Height of its rim above the ground",
  cable: "Height of its socket",
};

interface RowProps extends MarksProps {
  readonly mark: WalkMark;
}

function MarkRow({ mark, state, solved }: RowProps) {
  const units = useStore((page) => page.kept.units);
  const { walk, change } = state;
  const place = solved.places.find(({ id }) => id === mark.id);
  const lack = lackOf(walk, solved, mark.id);
  const asked = solved.questions.some(({ id }) => id === mark.id);
  const set = (member: "height" | "radius", text: string) =>
    change((now) => ({
      ...now,
      marks: now.marks.map((one) => {
        if (one.id !== mark.id) return one;
        const { [member]: _, ...rest } = one;
        return text.trim() === "" ? rest : { ...rest, [member]: withUnit(text, units) };
      }),
    }));
  const extra = mark.kind === "hookup" ? "height" : mark.kind === "thing" ? "radius" : null;
  return (
    <li class="mark-row" data-mark={mark.id}>
      <div class="mark-words">
        <strong>{mark.label}</strong>
        {place !== undefined && (
          <span data-part="placed">
            {placeWords(place, units)}; good to {formatLength(place.sigma, units, { round: "up" })}
          </span>
        )}
        {asked && <span class="measure-wrong">One of two places: settle it above.</span>}
        {lack !== null && <span class="quiet">{lack}</span>}
      </div>
      {extra !== null && <ExtraInput key={units} mark={mark} member={extra} onSet={(text) => set(extra, text)} />}
      <button
        type="button"
        class="button"
        onClick={() => change((now) => withoutMark(now, mark.id))}
        aria-label={`Take the ${mark.label} away`}
      >
        ×
      </button>
    </li>
  );
}

/** A bare number is in the small unit of the system: heights and radii are read so off a tape. */
function withUnit(text: string, units: "us" | "metric"): string {
  const plain = text.trim().replace(",", ".");
  return /^[\d.]+$/.test(plain) ? `${plain} ${units === "us" ? "in" : "cm"}` : plain;
}

interface ExtraProps {
  readonly mark: WalkMark;
  readonly member: "height" | "radius";
  readonly onSet: (text: string) => void;
}

function ExtraInput({ mark, member, onSet }: ExtraProps) {
  const units = useStore((page) => page.kept.units);
  const given = mark[member] ?? "";
  const wrong = given !== "" && metresOf(given) === null;
  const label = member === "radius" ? "Radius, if it is in the way" : (HEIGHT_OF[mark.service ?? ""] ?? "Height");
  return (
    <label class="mark-extra">
      <span>{label}</span>
      <input
        type="text"
        value={given}
        placeholder={units === "us" ? "in" : "cm"}
        aria-invalid={wrong ? "true" : undefined}
        onChange={(event) => onSet(event.currentTarget.value)}
      />
      {wrong && <span class="measure-wrong">This is no length.</span>}
    </label>
  );
}

export function Readings({ state, solved }: MarksProps) {
  const { walk, change } = state;
  const units = useStore((page) => page.kept.units);
  const wrong = new Map(solved.contradictions.map((one) => [one.reading, one.residual]));
  if (walk.readings.length + walk.offsets.length === 0) return null;
  return (
    <section class="panel" aria-label="Readings">
      <h2>Readings</h2>
      <ul class="mark-list">
        {walk.readings.map(({ from, to, distance }, index) => {
          const residual = wrong.get(index);
          return (
            <li key={`${from} ${to}`} class="mark-row">
              <div class="mark-words">
                <span>
                  {labelOf(walk, from)} to {labelOf(walk, to)}: <strong>{distance}</strong>
                </span>
                {residual !== undefined && (
                  <span class="measure-wrong">off by {formatLength(Math.abs(residual), units, { round: "up" })}</span>
                )}
              </div>
              <button
                type="button"
                class="button"
                aria-label={`Take back ${labelOf(walk, from)} to ${labelOf(walk, to)}`}
                onClick={() => change((now) => ({ ...now, readings: now.readings.filter((_, at) => at !== index) }))}
              >
                ×
              </button>
            </li>
          );
        })}
        {walk.offsets.map(({ mark, along, across, acrossFrom }) => (
          <li key={mark} class="mark-row">
            <div class="mark-words">
              <span>
                {labelOf(walk, mark)}: <strong>{along}</strong> along, <strong>{across}</strong> from the{" "}
                {acrossFrom.replace("-", " ")}
              </span>
            </div>
            <button
              type="button"
              class="button"
              aria-label={`Take back the place of the ${labelOf(walk, mark)}`}
              onClick={() => change((now) => ({ ...now, offsets: now.offsets.filter((one) => one.mark !== mark) }))}
            >
              ×
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
