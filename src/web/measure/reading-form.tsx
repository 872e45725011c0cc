/** Entering what the tape says: between two marks, or from the pad's edges. Made for a thumb. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { announce } from "../shared/announce.tsx";
import { type Units, useStore } from "../state/store.ts";
import { LengthInput, lengthText } from "./length-input.tsx";
import { nextReading } from "./next-reading.ts";
import type { Solved } from "./solve-walk.ts";
import type { WalkState } from "./use-walk.ts";
import { type AcrossFrom, labelOf, type Walk } from "./walk.ts";

interface FormProps {
  readonly state: WalkState;
  readonly solved: Solved;
}

export function ReadingForm({ state, solved }: FormProps) {
  const [way, setWay] = useState<"tape" | "offset">("tape");
  return (
    <section class="panel reading" aria-label="What the tape says">
      <fieldset class="reading-ways" aria-label="How it was measured">
        <button type="button" class="button" aria-pressed={way === "tape"} onClick={() => setWay("tape")}>
          Between two marks
        </button>
        <button type="button" class="button" aria-pressed={way === "offset"} onClick={() => setWay("offset")}>
          From the pad's edges
        </button>
      </fieldset>
      {way === "tape" ? <TapeForm state={state} solved={solved} /> : <OffsetForm state={state} />}
    </section>
  );
}

interface PickProps {
  readonly label: string;
  readonly value: string;
  readonly walk: Walk;
  readonly without?: (kind: string, id: string) => boolean;
  readonly onPick: (id: string) => void;
}

function MarkPick({ label, value, walk, without, onPick }: PickProps) {
  const id = useId();
  return (
    <div class="pick">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onPick(event.currentTarget.value)}>
        {walk.marks
          .filter((mark) => without?.(mark.kind, mark.id) !== true)
          .map(({ id: mark, label: name }) => (
            <option key={mark} value={mark}>
              {name}
            </option>
          ))}
      </select>
    </div>
  );
}

const EMPTY = { whole: "", part: "" };

function TapeForm({ state, solved }: FormProps) {
  const { walk, change } = state;
  const units = useStore((page) => page.kept.units);
  const next = nextReading(walk, solved);
  const [pair, setPair] = useState(next ?? { from: "rear-left", to: "rear-right" });
  const [typed, setTyped] = useState(EMPTY);
  const [wrong, setWrong] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  // After each reading the next one is offered, as long as nothing is half typed.
  const suggested = next === null ? "" : `${next.from} ${next.to}`;
  useEffect(() => {
    if (next !== null && typed.whole === "" && typed.part === "") setPair(next);
  }, [suggested]);
  const add = (event: Event) => {
    event.preventDefault();
    const distance = lengthText(typed, units);
    if (pair.from === pair.to) return setWrong("A tape goes from one mark to another.");
    if (distance === null)
      return setWrong(
        units === "us" ? "Write feet and inches, for instance 12 and 6 1/2." : "Write metres, for instance 3.82.",
      );
    const again = walk.readings.findIndex(
      ({ from, to }) => (from === pair.from && to === pair.to) || (from === pair.to && to === pair.from),
    );
    const reading = { ...pair, distance };
    change((now) => ({
      ...now,
      readings:
        again < 0 ? [...now.readings, reading] : now.readings.map((one, index) => (index === again ? reading : one)),
    }));
    announce(
      `${labelOf(walk, pair.from)} to ${labelOf(walk, pair.to)}: ${distance}${again < 0 ? "" : ", in place of the earlier one"}.`,
    );
    setWrong(null);
    setTyped(EMPTY);
    form.current?.querySelector("input")?.focus();
  };
  return (
    <form class="reading-form" ref={form} onSubmit={add} noValidate>
      <div class="picks">
        <MarkPick label="From" value={pair.from} walk={walk} onPick={(from) => setPair({ ...pair, from })} />
        <MarkPick
          label="To"
          value={pair.to}
          walk={walk}
          without={(_, id) => id === pair.from}
          onPick={(to) => setPair({ ...pair, to })}
        />
      </div>
      <LengthInput name="Distance along the ground" typed={typed} onType={setTyped} wrong={wrong} />
      <button type="submit" class="button strong big">
        Add this distance
      </button>
      {next === null && solved.contradictions.length + solved.questions.length === 0 && (
        <p class="quiet">Everything is fixed and checked. More distances only make it surer.</p>
      )}
    </form>
  );
}

const ACROSS: readonly { readonly value: AcrossFrom; readonly label: string }[] = [
  { value: "left-edge", label: "left of the pad's left edge" },
  { value: "right-edge", label: "right of the pad's right edge" },
  { value: "middle-left", label: "left of the pad's middle" },
  { value: "middle-right", label: "right of the pad's middle" },
];

function offsetText(typed: { whole: string; part: string }, units: Units): string | null {
  return typed.whole === "" && typed.part === "" ? null : lengthText(typed, units, true);
}

function OffsetForm({ state }: { readonly state: WalkState }) {
  const { walk, change } = state;
  const units = useStore((page) => page.kept.units);
  const free = walk.marks.filter(({ kind }) => kind !== "corner");
  const done = new Set(walk.offsets.map(({ mark }) => mark));
  const [mark, setMark] = useState(free.find(({ id }) => !done.has(id))?.id ?? free[0]?.id ?? "");
  const [along, setAlong] = useState(EMPTY);
  const [behind, setBehind] = useState(false);
  const [across, setAcross] = useState(EMPTY);
  const [acrossFrom, setAcrossFrom] = useState<AcrossFrom>("left-edge");
  const [wrong, setWrong] = useState<string | null>(null);
  const add = (event: Event) => {
    event.preventDefault();
    const [first, second] = [offsetText(along, units), offsetText(across, units)];
    if (mark === "") return setWrong("Add a mark first, below.");
    if (first === null || second === null) return setWrong("Both distances are needed; zero is a distance too.");
    const offset = { mark, along: behind ? `-${first}` : first, across: second, acrossFrom };
    change((now) => ({ ...now, offsets: [...now.offsets.filter((one) => one.mark !== mark), offset] }));
    announce(`${labelOf(walk, mark)}: placed from the pad's edges.`);
    setWrong(null);
    setAlong(EMPTY);
    setAcross(EMPTY);
    const left = free.find(({ id }) => id !== mark && !done.has(id));
    if (left !== undefined) setMark(left.id);
  };
  return (
    <form class="reading-form" onSubmit={add} noValidate>
      <MarkPick label="Mark" value={mark} walk={walk} without={(kind) => kind === "corner"} onPick={setMark} />
      <LengthInput
        name={`Along the pad, ${behind ? "behind" : "from"} the rear edge`}
        typed={along}
        onType={setAlong}
        wrong={null}
      />
      <label class="tick">
        <input type="checkbox" checked={behind} onChange={(event) => setBehind(event.currentTarget.checked)} />
        It stands behind the rear edge
      </label>
      <LengthInput name="Sideways" typed={across} onType={setAcross} wrong={wrong} />
      <div class="pick">
        <label for="sideways">Sideways is</label>
        <select
          id="sideways"
          value={acrossFrom}
          onChange={(event) => setAcrossFrom(event.currentTarget.value as AcrossFrom)}
        >
          {ACROSS.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      </div>
      <button type="submit" class="button strong big">
        Place this mark
      </button>
      <p class="quiet">Left and right: you stand at the rear edge and look to the exit.</p>
    </form>
  );
}
