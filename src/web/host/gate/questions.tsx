/** The four questions, each answered by one press of a thumb; pictures first, words under them. */
import "./gate.css";
import type { ComponentChildren } from "preact";
import { useStore } from "../../state/store.ts";
import { type GateAnswers, lengthChoices, PLUGS, SECONDS, SLIDES } from "./answers.ts";

interface QuestionsProps {
  readonly answers: Partial<GateAnswers>;
  readonly onAnswer: (answer: Partial<GateAnswers>) => void;
}

interface Choice {
  readonly value: string;
  readonly name: string;
  readonly picture: ComponentChildren;
}

interface QuestionProps {
  readonly name: keyof GateAnswers;
  readonly title: string;
  readonly choices: readonly Choice[];
  readonly value: string | undefined;
  readonly onPick: (value: string) => void;
}

function Question({ name, title, choices, value, onPick }: QuestionProps) {
  return (
    <fieldset class={`gate-question gate-${name}`} data-question={name}>
      <legend>{title}</legend>
      <div class="gate-choices">
        {choices.map((choice) => (
          <label key={choice.value} class={choice.value === value ? "on" : ""}>
            <input
              type="radio"
              name={`gate-${name}`}
              value={choice.value}
              checked={choice.value === value}
              onChange={() => onPick(choice.value)}
            />
            {choice.picture}
            <span>{choice.name}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

const picture = (width: number, content: ComponentChildren) => (
  <svg viewBox={`0 0 ${width} 24`} width={width} height={24} aria-hidden="true">
    {content}
  </svg>
);

const LONGEST = 44;
const body = (x: number, y: number, width: number, height: number) => (
  <rect x={x} y={y} width={width} height={height} rx="2" class="line" />
);

/** The rig between the posts beside the lane. */
function lengthPicture(index: number, count: number) {
  const long = 10 + ((LONGEST - 12) * (index + 1)) / count;
  return picture(
    LONGEST,
    <>
      {body(1, 6, long - 2, 10)}
      <path d={`M1 19V23M${long} 19V23M1 21H${long}`} class="line" />
    </>,
  );
}

/** The face of the plug: its blades, and the round or half round ground pin. */
const PLUG_PICTURES: Readonly<Record<string, ComponentChildren>> = {
  "nema-14-50": <path d="M8 5V11M16 5V11M11 17H13M12 2.5A2 2 0 0 1 12 6.5A2 2 0 0 1 12 2.5" class="line" />,
  "nema-tt-30": <path d="M7 8L10 13M17 8L14 13M12 15.5A2 2 0 0 1 12 19.5A2 2 0 0 1 12 15.5" class="line" />,
  "nema-5-20": <path d="M9 7V12M13.5 9.5H17M12 15A2 2 0 0 1 12 19A2 2 0 0 1 12 15" class="line" />,
};

const plugPicture = (id: string) =>
  picture(
    24,
    <>
      <circle cx="12" cy="12" r="11" class="line" />
      {PLUG_PICTURES[id] ?? <path d="M5 19L19 5" class="line" />}
    </>,
  );

/** Seen from above, the nose to the right: the street side lies above. */
const slidesPicture = (sides: readonly string[]) =>
  picture(
    40,
    <>
      {body(2, 7, 36, 10)}
      {sides.includes("left") && <path d="M12 7V2H26V7" class="line" />}
      {sides.includes("right") && <path d="M14 17V22H28V17" class="line" />}
      <path d="M34 9.5V14.5" class="line" />
    </>,
  );

const secondPicture = (id: string) =>
  picture(
    52,
    <>
      {id === "none" && body(10, 5, 32, 12)}
      {id === "car" && (
        <>
          {body(20, 4, 31, 13)}
          <path d="M1 17V12L4 8H12L15 12V17ZM15 15H20" class="line" />
        </>
      )}
      {id === "truck" && (
        <>
          {body(1, 4, 29, 13)}
          <path d="M34 17V12H41V7H46L51 12V17ZM30 15H34" class="line" />
        </>
      )}
      <path d="M1 21H51" class="line" />
    </>,
  );

export function Questions({ answers, onAnswer }: QuestionsProps) {
  const units = useStore((state) => state.kept.units);
  const lengths = lengthChoices(units);
  return (
    <div class="gate-questions">
      <Question
        name="length"
        title={`Length between the marks, ${units === "us" ? "ft" : "m"}`}
        value={answers.length}
        onPick={(length) => onAnswer({ length })}
        choices={lengths.map(({ length, name }, index) => ({
          value: length,
          name,
          picture: lengthPicture(index, lengths.length),
        }))}
      />
      <Question
        name="plug"
        title="Plug"
        value={answers.plug}
        onPick={(plug) => onAnswer({ plug: plug as GateAnswers["plug"] })}
        choices={PLUGS.map(({ id, name }) => ({ value: id, name, picture: plugPicture(id) }))}
      />
      <Question
        name="slides"
        title="Slides"
        value={answers.slides}
        onPick={(slides) => onAnswer({ slides: slides as GateAnswers["slides"] })}
        choices={SLIDES.map(({ id, name, sides }) => ({ value: id, name, picture: slidesPicture(sides) }))}
      />
      <Question
        name="second"
        title="Second vehicle"
        value={answers.second}
        onPick={(second) => onAnswer({ second: second as GateAnswers["second"] })}
        choices={SECONDS.map(({ id, name }) => ({ value: id, name, picture: secondPicture(id) }))}
      />
    </div>
  );
}
