/** Three small changes of every day: a walk-in, a receptacle that failed, guests who stay longer. */
import { useEffect, useState } from "preact/hooks";
import { useWatched } from "../../desk/watched.ts";
import { addDays } from "../../desk/words.ts";
import { announce } from "../../shared/announce.tsx";
import { plural } from "../../shared/words.ts";
import { useStore } from "../../state/store.ts";
import { freshKey, refusalWords } from "../api.ts";
import { type Book, bookState, type HostStay } from "../book.ts";
import { plannerOf } from "../core/client.ts";
import type { Edit, EditOptionTold, EditTold } from "../core/protocol.ts";
import { type GateAnswers, rigOf } from "../gate/answers.ts";
import { Questions } from "../gate/questions.tsx";
import { nightsText, stayName } from "../words.ts";
import { commit, type Draft } from "./commit.ts";
import { movesText } from "./moves.ts";

const KINDS = [
  ["walk-in", "Walk-in"],
  ["failed", "Failed outlet"],
  ["later", "Late departure"],
] as const;
type Kind = (typeof KINDS)[number][0];

/** Nights ahead for which fits are made before anybody asks. */
const WARM_NIGHTS = 3;

type State =
  | { readonly step: "ask" }
  | { readonly step: "working"; readonly done: number }
  | { readonly step: "told"; readonly draft: Draft; readonly told: EditTold }
  | { readonly step: "done"; readonly words: string }
  | { readonly step: "refused"; readonly words: string };

export function Changes({ book }: { readonly book: Book }) {
  const [kind, setKind] = useState<Kind>("walk-in");
  const [state, setState] = useState<State>({ step: "ask" });
  useEffect(() => {
    plannerOf(book.campground)
      .warm(book, addDays(book.today, WARM_NIGHTS))
      .catch((fault: unknown) => console.warn(fault));
  }, [book.campground]);
  const work = async (draft: Draft) => {
    setState({ step: "working", done: 0 });
    try {
      const planner = plannerOf(book.campground);
      const told = await planner.edit(book, editOf(draft), (done) => setState({ step: "working", done }));
      setState({ step: "told", draft, told });
      announce(`${plural(told.options.length, "option")}.`);
    } catch (fault) {
      setState({ step: "refused", words: refusalWords(fault) });
    }
  };
  const take = async (draft: Draft, option: EditOptionTold | null) => {
    setState({ step: "working", done: 1 });
    const words = await commit(bookState.get().book ?? book, draft, option?.moves ?? []);
    setState(words === null ? { step: "done", words: "Done; the board shows it." } : { step: "refused", words });
    announce(words ?? "Done.");
  };
  return (
    <section class="changes" aria-label="Change" data-step={state.step}>
      <fieldset class="office-parts" aria-label="What happened">
        {KINDS.map(([id, name]) => (
          <button
            key={id}
            type="button"
            class="button"
            aria-pressed={kind === id}
            onClick={() => {
              setKind(id);
              setState({ step: "ask" });
            }}
          >
            {name}
          </button>
        ))}
      </fieldset>
      {kind === "walk-in" && <WalkIn book={book} onAsk={work} />}
      {kind === "failed" && <Failed book={book} onAsk={work} />}
      {kind === "later" && <Later book={book} onAsk={work} />}
      {state.step === "working" && (
        <p class="searching" role="status">
          <progress max={1} value={state.done} aria-label="Options" /> Fitting whoever could move.
        </p>
      )}
      {state.step === "refused" && (
        <p class="trouble" role="alert">
          {state.words}
        </p>
      )}
      {state.step === "done" && <p role="status">{state.words}</p>}
      {state.step === "told" && (
        <Options book={book} told={state.told} onTake={(option) => take(state.draft, option)} />
      )}
    </section>
  );
}

function editOf(draft: Draft): Edit {
  switch (draft.kind) {
    case "walk-in":
      return { kind: "place", stay: draft.stay };
    case "failed":
      return { kind: "closure", closure: draft.closure, sites: draft.sites };
    case "later":
      return { kind: "later", stay: draft.stay.id, departure: draft.departure };
  }
}

interface OptionsProps {
  readonly book: Book;
  readonly told: EditTold;
  readonly onTake: (option: EditOptionTold | null) => void;
}

function Options({ book, told, onTake }: OptionsProps) {
  const opened = useStore((state) => state.opened);
  const nameOf = (site: string | null) => opened?.sites.find(({ id }) => id === site)?.name ?? site ?? "no site";
  const who = (id: string) => {
    const stay = book.stays.find((one) => one.id === id);
    return stay === undefined ? id : stayName(stay);
  };
  return (
    <div class="options" data-part="options">
      {told.bound.length > 0 && (
        <p class="trouble">
          Talk to them first, they are in house or were promised the site: {told.bound.map(who).join(", ")}.
        </p>
      )}
      {told.nothingToDo && (
        <p>
          Nobody has to move.{" "}
          <button type="button" class="button strong" onClick={() => onTake(null)}>
            Enter it
          </button>
        </p>
      )}
      {!told.nothingToDo && told.options.length === 0 && (
        <p class="trouble">
          No plan with up to three moves helps
          {told.unplaced.length > 0 && `: no site for ${told.unplaced.map(who).join(", ")}`}.
          {!told.complete && " Not every chain of moves could be tried."}
        </p>
      )}
      <ol>
        {told.options.map((option) => (
          <li key={JSON.stringify(option.moves)}>
            <b class="moved-count">{option.moved}</b>
            <span>
              {option.moved === 0 ? "Nobody who could stay is moved: " : `${plural(option.moved, "stay")} moved: `}
              {movesText(option.moves, book, nameOf)}
            </span>
            <button type="button" class="button strong" onClick={() => onTake(option)}>
              Take it
            </button>
          </li>
        ))}
      </ol>
    </div>
  );
}

interface FormProps {
  readonly book: Book;
  readonly onAsk: (draft: Draft) => void;
}

const KEY_SHOWN = 8;

function WalkIn({ book, onAsk }: FormProps) {
  const [answers, setAnswers] = useState<Partial<GateAnswers>>({});
  const [arrival, setArrival] = useState(book.today);
  const [departure, setDeparture] = useState(addDays(book.today, 1));
  const { length, plug, slides, second } = answers;
  const whole = length !== undefined && plug !== undefined && slides !== undefined && second !== undefined;
  const start = () => {
    if (!whole) return;
    const rig = rigOf({ length, plug, slides, second });
    const id = `walk-in-${arrival}-${freshKey().slice(0, KEY_SHOWN)}`;
    const stay: HostStay = { id, version: 0, arrival, departure, status: "expected", rig, place: null };
    onAsk({ kind: "walk-in", stay });
  };
  return (
    <form
      class="office-form"
      onSubmit={(event) => {
        event.preventDefault();
        start();
      }}
    >
      <Questions answers={answers} onAnswer={(answer) => setAnswers({ ...answers, ...answer })} />
      <label>
        From
        <input
          type="date"
          value={arrival}
          min={book.today}
          onChange={(event) => setArrival(event.currentTarget.value)}
        />
      </label>
      <label>
        To
        <input
          type="date"
          value={departure}
          min={addDays(arrival, 1)}
          onChange={(event) => setDeparture(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button strong" disabled={!whole || departure <= arrival}>
        Show the options
      </button>
    </form>
  );
}

function Failed({ book, onAsk }: FormProps) {
  const opened = useStore((state) => state.opened);
  const [site, setSite] = useState("");
  const [outlet, setOutlet] = useState("");
  const [until, setUntil] = useState("");
  const cards = [...(opened?.sites ?? [])].sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
  const outlets = book.outlets.filter(({ sites }) => sites.includes(site));
  const start = () => {
    const whole = outlet === "";
    const closure = {
      id: `closure-${freshKey().slice(0, KEY_SHOWN)}`,
      site: whole ? site : null,
      outlet: whole ? null : outlet,
      firstNight: book.today,
      until: until === "" ? null : until,
      why: whole ? "closed" : "failed",
    };
    onAsk({
      kind: "failed",
      closure,
      sites: whole ? [site] : (outlets.find(({ id }) => id === outlet)?.sites ?? [site]),
    });
  };
  return (
    <form
      class="office-form"
      onSubmit={(event) => {
        event.preventDefault();
        start();
      }}
    >
      <label>
        Site
        <select
          value={site}
          required
          onChange={(event) => {
            setSite(event.currentTarget.value);
            setOutlet("");
          }}
        >
          <option value="">choose</option>
          {cards.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label>
        What failed
        <select value={outlet} onChange={(event) => setOutlet(event.currentTarget.value)}>
          <option value="">the whole site</option>
          {outlets.map(({ id, service, type, sites }) => (
            <option key={id} value={id}>
              {service} {type ?? "tap"}
              {sites.length > 1 ? `, shared by ${sites.length}` : ""}
            </option>
          ))}
        </select>
      </label>
      <label>
        Works again on
        <input
          type="date"
          value={until}
          min={addDays(book.today, 1)}
          onChange={(event) => setUntil(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button strong" disabled={site === ""}>
        Show the options
      </button>
      <p class="quiet">Without a day it stays closed until somebody opens it.</p>
    </form>
  );
}

function Later({ book, onAsk }: FormProps) {
  const units = useStore((state) => state.kept.units);
  const [id, setId] = useState("");
  const [departure, setDeparture] = useState("");
  const { book: now } = useWatched(bookState);
  const stays = (now ?? book).stays.filter(({ place }) => place !== null);
  const stay = stays.find((one) => one.id === id);
  return (
    <form
      class="office-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (stay !== undefined) onAsk({ kind: "later", stay, departure });
      }}
    >
      <label>
        Who stays longer
        <select
          value={id}
          required
          onChange={(event) => {
            const chosen = stays.find((one) => one.id === event.currentTarget.value);
            setId(event.currentTarget.value);
            setDeparture(chosen === undefined ? "" : addDays(chosen.departure, 1));
          }}
        >
          <option value="">choose</option>
          {stays.map((one) => (
            <option key={one.id} value={one.id}>
              {stayName(one)}, {nightsText(one, units)}
            </option>
          ))}
        </select>
      </label>
      <label>
        Leaves now on
        <input
          type="date"
          value={departure}
          {...(stay === undefined ? {} : { min: addDays(stay.departure, 1) })}
          onChange={(event) => setDeparture(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button strong" disabled={stay === undefined || departure <= (stay?.departure ?? "")}>
        Show the options
      </button>
    </form>
  );
}
