/** The gate: four questions, then a site and two spares. Works without signal with the last list. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { useWatched } from "../../desk/watched.ts";
import { addDays } from "../../desk/words.ts";
import { announce } from "../../shared/announce.tsx";
import { VerdictMark } from "../../shared/verdict-mark.tsx";
import { plural } from "../../shared/words.ts";
import { promising } from "../../state/session.ts";
import { useStore } from "../../state/store.ts";
import { type Book, bookState, refreshBook, rereadBook } from "../book.ts";
import { SiteCardSheet } from "../site-card.tsx";
import { useRigRows } from "../use-rows.ts";
import { nightsText } from "../words.ts";
import { answersText, type GateAnswers, rigOf, takenWords } from "./answers.ts";
import { freeSites, type Offer, offersOf } from "./choose.ts";
import { Expected } from "./expected.tsx";
import { dropLate, type Entered, enter, enterAll, lateArrival, lateArrivals } from "./late.ts";
import { Questions } from "./questions.tsx";

/** At the gate at night nothing can be fetched. */
const AT_THE_GATE = { kitPolicy: "aboard" } as const;
const MOST_NIGHTS = 14;

const isWhole = (answers: Partial<GateAnswers>): answers is GateAnswers =>
  [answers.length, answers.plug, answers.slides, answers.second].every((one) => one !== undefined);

export function Gate() {
  const { book } = useWatched(bookState);
  const { waiting } = useWatched(lateArrivals);
  const [answers, setAnswers] = useState<Partial<GateAnswers>>({});
  const [nights, setNights] = useState(1);
  const [round, setRound] = useState(0);
  const [changing, setChanging] = useState(false);
  const [given, setGiven] = useState<GivenSite | null>(null);
  useEffect(() => {
    void refreshBook();
  }, []);
  if (book === null) return null;
  const again = () => {
    setAnswers({});
    setNights(1);
    setChanging(false);
    setGiven(null);
    setRound(round + 1);
    scrollTo(0, 0);
  };
  if (given !== null) return <Given {...given} onAgain={again} />;
  return (
    <div class="gate" key={round} data-asked={isWhole(answers) && !changing ? "done" : "asking"}>
      {waiting.some(({ refused }) => refused !== null) && <Waiting />}
      <div class="gate-ask">
        {isWhole(answers) && (
          <p class="gate-summary">
            <span>{answersText(answers)}</span>
            <button type="button" class="button" onClick={() => setChanging(!changing)}>
              {changing ? "Done" : "Change"}
            </button>
          </p>
        )}
        <Questions answers={answers} onAnswer={(answer) => setAnswers({ ...answers, ...answer })} />
        <Nights nights={nights} onChange={setNights} />
      </div>
      {isWhole(answers) ? (
        <Offers book={book} answers={answers} nights={nights} onGiven={setGiven} onAgain={again} />
      ) : (
        <Expected book={book} />
      )}
      {waiting.length > 0 && waiting.every(({ refused }) => refused === null) && <Waiting />}
    </div>
  );
}

function Nights({ nights, onChange }: { readonly nights: number; readonly onChange: (nights: number) => void }) {
  return (
    <div class="gate-nights">
      <span id="gate-nights">Nights</span>
      <button
        type="button"
        class="button"
        aria-label="One night less"
        disabled={nights <= 1}
        onClick={() => onChange(nights - 1)}
      >
        −
      </button>
      <output aria-labelledby="gate-nights">{nights}</output>
      <button
        type="button"
        class="button"
        aria-label="One night more"
        disabled={nights >= MOST_NIGHTS}
        onClick={() => onChange(nights + 1)}
      >
        +
      </button>
    </div>
  );
}

interface OffersProps {
  readonly book: Book;
  readonly answers: GateAnswers;
  readonly nights: number;
  readonly onGiven: (given: GivenSite) => void;
  readonly onAgain: () => void;
}

interface GivenSite {
  readonly offer: Offer;
  readonly rig: Readonly<Record<string, unknown>>;
  readonly how: Entered | "sending";
}

function Offers({ book, answers, nights, onGiven, onAgain }: OffersProps) {
  const opened = useStore((state) => state.opened)!;
  const units = useStore((state) => state.kept.units);
  const { waiting } = useWatched(lateArrivals);
  const place = useRef<HTMLElement>(null);
  const rig = useMemo(() => rigOf(answers), [answers]);
  const span = { arrival: book.today, departure: addDays(book.today, nights) };
  const kept = useRef<readonly string[] | null>(null);
  const taken = new Set(waiting.map(({ site }) => site));
  const free = freeSites(book, opened.sites, span, taken);
  // A list that changes while somebody chooses must not start everything anew; what is gone is left out below.
  const key = JSON.stringify([answers, nights]);
  const keyed = useRef(key);
  if (kept.current === null || keyed.current !== key) kept.current = promising(free, lengthOf(answers));
  keyed.current = key;
  const { rows, done, trouble } = useRigRows(rig, AT_THE_GATE, kept.current);
  const offers = offersOf(book, free, rows, span, answers, units);
  useEffect(() => {
    if (place.current !== null && place.current.getBoundingClientRect().bottom > innerHeight) scrollTo(0, 0);
  }, []);
  useEffect(() => {
    if (done) announce(offers[0] === undefined ? "No free site fits." : `${offers[0].card.name}. ${offers[0].reason}`);
  }, [done]);
  const give = async (offer: Offer) => {
    onGiven({ offer, rig, how: "sending" });
    const how = await enter(lateArrival(book.campground, offer.card.id, span, rig));
    onGiven({ offer, rig, how });
    if (how !== "waits") void rereadBook();
  };
  const of = kept.current.length;
  return (
    <section class="gate-offers" ref={place} aria-label="Sites to offer" data-done={done}>
      {!done && (
        <p class="gate-looking" role="status">
          <progress max={of} value={rows.size} aria-label="Free sites looked at" /> {rows.size} of{" "}
          {plural(of, "free site")}
        </p>
      )}
      {trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {done && trouble === null && offers.length === 0 && (
        <p class="trouble" role="alert">
          {of === 0
            ? "Every site is taken, held or closed for these nights."
            : `None of the ${plural(of, "free site")} is known to fit. Ring the host before anybody parks.`}
        </p>
      )}
      <ol>
        {offers.map((offer, index) => (
          <li key={offer.card.id} class={index === 0 ? "gate-first" : "gate-spare"} data-site={offer.card.id}>
            <VerdictMark verdict={offer.row.verdict} size={index === 0 ? 44 : 32} />
            <div>
              <strong>{offer.card.name}</strong>
              <p>{offer.reason}</p>
            </div>
            <button
              type="button"
              class="button strong"
              disabled={!done}
              aria-label={`Give ${offer.card.name}`}
              onClick={() => give(offer)}
            >
              Give
            </button>
          </li>
        ))}
      </ol>
      <div class="gate-foot">
        <button type="button" class="button" onClick={onAgain}>
          Start over
        </button>
        <p class="quiet">{takenWords(answers)}</p>
      </div>
    </section>
  );
}

function lengthOf({ length }: GateAnswers): number {
  const METRES_PER_FOOT = 0.3048;
  const [number, unit] = length.split(" ");
  return Number(number) * (unit === "ft" ? METRES_PER_FOOT : 1);
}

const GIVEN_WORDS: Readonly<Record<Entered | "sending", string>> = {
  sending: "Being entered.",
  entered: "Entered in the book.",
  waits: "Kept on this device: it is entered when there is a signal again. The site is offered to nobody else here.",
  refused: "The server would not have it, see above. Do not send anybody there before that is settled.",
};

interface GivenProps extends GivenSite {
  readonly onAgain: () => void;
}

function Given({ offer, how, rig, onAgain }: GivenProps) {
  return (
    <section class="gate-given" aria-label="Given" data-how={how}>
      {how === "refused" && <Waiting />}
      <p class="gate-name">
        <VerdictMark verdict={offer.row.verdict} size={44} />
        <strong>{offer.card.name}</strong>
      </p>
      <p role="status" class={how === "refused" ? "trouble" : "quiet"}>
        {GIVEN_WORDS[how]}
      </p>
      <div class="gate-foot">
        <button type="button" class="button strong" onClick={onAgain}>
          Next rig
        </button>
        <button type="button" class="button" onClick={() => print()}>
          Print the card
        </button>
      </div>
      <SiteCardSheet rig={rig} options={AT_THE_GATE} site={offer.card.id} />
    </section>
  );
}

function Waiting() {
  const { waiting } = useWatched(lateArrivals);
  const { isKept } = useWatched(bookState);
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const nameOf = (site: string) => opened?.sites.find((one) => one.id === site)?.name ?? site;
  const send = async () => {
    await enterAll();
    await rereadBook();
  };
  return (
    <section class="panel gate-waiting" aria-label="Not entered yet" data-part="waiting">
      <h2>{plural(waiting.length, "late arrival")} not entered yet</h2>
      <ul>
        {waiting.map((one) => (
          <li key={one.id}>
            {nameOf(one.site)}, {nightsText(one, units)}
            {one.refused !== null && (
              <>
                <span class="gate-refused">Refused: {one.refused}</span>
                <button type="button" class="button" onClick={() => dropLate(one.id)}>
                  Settled by hand
                </button>
              </>
            )}
          </li>
        ))}
      </ul>
      <button type="button" class="button" disabled={isKept} onClick={send}>
        {isKept ? "Enter them when there is a signal" : "Enter them now"}
      </button>
    </section>
  );
}
