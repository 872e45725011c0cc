/** A plan proposed, with what is known of how good it is, and accepted whole or not at all. */
import { useEffect, useRef, useState } from "preact/hooks";
import { announce } from "../../shared/announce.tsx";
import { plural } from "../../shared/words.ts";
import { useStore } from "../../state/store.ts";
import { ask, campgroundPath, isStale, refusalWords } from "../api.ts";
import { type Book, rereadBook } from "../book.ts";
import { stayName } from "../words.ts";
import { ruleText } from "./rules.ts";
import { type Progress, type Proposed, propose } from "./search-stream.ts";

type State =
  | { readonly step: "ask" | "accepted" }
  | { readonly step: "searching"; readonly progress: Progress | null }
  | { readonly step: "proposed" | "sending"; readonly plan: Proposed }
  | { readonly step: "refused"; readonly words: string };

const EFFORTS = [
  ["quick", "Quick"],
  ["usual", "Usual"],
  ["thorough", "Thorough"],
] as const;

export function Proposal({ book }: { readonly book: Book }) {
  const [state, setState] = useState<State>({ step: "ask" });
  const [effort, setEffort] = useState("usual");
  const [most, setMost] = useState("");
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);
  const base = `${campgroundPath(book.campground)}/assignment`;
  const search = async () => {
    const controller = new AbortController();
    stop.current = controller;
    setState({ step: "searching", progress: null });
    const options = { effort, ...(most === "" ? {} : { maxMoves: Number(most) }) };
    try {
      const plan = await propose(`${base}/propose`, { options }, controller.signal, (progress) =>
        setState({ step: "searching", progress }),
      );
      setState({ step: "proposed", plan });
      announce(standingText(plan));
    } catch (fault) {
      setState(controller.signal.aborted ? { step: "ask" } : { step: "refused", words: refusalWords(fault) });
    }
  };
  const accept = async (plan: Proposed) => {
    setState({ step: "sending", plan });
    const entries = plan.places
      .filter(({ bound }) => !bound)
      .map(({ stay, site, outlets }) => ({ stay, site, outlets }));
    const { status, value, bound } = plan;
    try {
      await ask(`${base}/accept`, {
        method: "POST",
        body: { entries, about: { status, value, bound } },
        match: `"plan-${plan.planVersion}"`,
      });
      setState({ step: "accepted" });
      announce("The plan is accepted.");
    } catch (fault) {
      const words = isStale(fault)
        ? "Somebody has changed the plan since this one was proposed. Nothing was changed: propose again."
        : refusalWords(fault);
      setState({ step: "refused", words });
    } finally {
      await rereadBook();
    }
  };
  return (
    <section class="proposal" aria-label="Propose a plan" data-step={state.step}>
      <ProposalForm
        effort={effort}
        most={most}
        step={state.step}
        onEffort={setEffort}
        onMost={setMost}
        onSearch={search}
        onStop={() => stop.current?.abort()}
      />
      {state.step === "searching" && <Searching progress={state.progress} />}
      {state.step === "refused" && (
        <p class="trouble" role="alert">
          {state.words}
        </p>
      )}
      {state.step === "accepted" && <p role="status">The plan is accepted; the board shows it.</p>}
      {(state.step === "proposed" || state.step === "sending") && (
        <Plan plan={state.plan} book={book} sending={state.step === "sending"} onAccept={() => accept(state.plan)} />
      )}
    </section>
  );
}

interface ProposalFormProps {
  readonly effort: string;
  readonly most: string;
  readonly step: State["step"];
  readonly onEffort: (effort: string) => void;
  readonly onMost: (most: string) => void;
  readonly onSearch: () => void;
  readonly onStop: () => void;
}

function ProposalForm({ effort, most, step, onEffort, onMost, onSearch, onStop }: ProposalFormProps) {
  return (
    <form
      class="office-form"
      onSubmit={(event) => {
        event.preventDefault();
        onSearch();
      }}
    >
      <label>
        Effort
        <select value={effort} onChange={(event) => onEffort(event.currentTarget.value)}>
          {EFFORTS.map(([id, name]) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label>
        Most stays moved
        <input
          type="number"
          min="0"
          inputMode="numeric"
          placeholder="any"
          value={most}
          onInput={(event) => onMost(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button strong" disabled={step === "searching" || step === "sending"}>
        Propose
      </button>
      {step === "searching" && (
        <button type="button" class="button" onClick={onStop}>
          Cancel
        </button>
      )}
    </form>
  );
}

const PHASES: Readonly<Record<Progress["phase"], string>> = {
  fits: "Fitting every rig at every site",
  start: "A first plan",
  search: "Looking for better plans",
  bound: "How good a plan can be at all",
  "led-search": "Looking where something is left to gain",
  repair: "Mending parts exactly",
  check: "Checking the plan",
};

function Searching({ progress }: { readonly progress: Progress | null }) {
  return (
    <div class="searching" role="status">
      <progress max={1} value={progress?.done ?? 0} aria-label="Search" />
      <span>{progress === null ? "Waiting for its turn." : `${PHASES[progress.phase]}.`}</span>
    </div>
  );
}

const points = (value: number): string => value.toFixed(0);

/** What is known of how good the plan is, and never more. */
export function standingText({ status, value, bound, gap, gapShare }: Proposed): string {
  if (status === "optimal") return `Optimal: no plan is worth more than ${points(value)} points.`;
  if (status === "bound-unknown" || bound === null || gap === null) {
    return `Bound unknown: worth ${points(value)} points; how far that is from the best is not known.`;
  }
  const share = gapShare === null ? "" : `, at most ${(gapShare * 100).toFixed(2)} % of the points of fit`;
  return `Feasible: worth ${points(value)} points, no plan more than ${points(bound)}; gap ${points(gap)}${share}.`;
}

interface PlanProps {
  readonly plan: Proposed;
  readonly book: Book;
  readonly sending: boolean;
  readonly onAccept: () => void;
}

function Plan({ plan, book, sending, onAccept }: PlanProps) {
  const opened = useStore((state) => state.opened);
  const nameOf = (site: string | null) => opened?.sites.find(({ id }) => id === site)?.name ?? site ?? "no site";
  const who = (id: string) => {
    const stay = book.stays.find((one) => one.id === id);
    return stay === undefined ? id : stayName(stay);
  };
  const before = new Map(book.stays.map(({ id, place }) => [id, place?.site ?? null]));
  const changed = plan.places.filter(({ stay, site }) => before.get(stay) !== site);
  const lost = plan.released.filter(({ stay }) => !plan.places.some((one) => one.stay === stay));
  const { placed, unplaced, moved } = plan.counts;
  return (
    <div class="plan-proposed" data-part="plan" data-status={plan.status}>
      <p>
        <strong>{standingText(plan)}</strong>
        {plan.work.cutShort && " The search was cut short."}
      </p>
      <p>
        {plural(placed, "stay")} placed, {unplaced} without a site, {plural(moved, "stay")} moved from where they are
        now.
      </p>
      {changed.length === 0 && <p>Nobody changes place.</p>}
      {changed.length > 0 && (
        <table class="plan-changes">
          <thead>
            <tr>
              <th scope="col">Stay</th>
              <th scope="col">From</th>
              <th scope="col">To</th>
              <th scope="col">Instead, and what it costs</th>
            </tr>
          </thead>
          <tbody>
            {changed.map(({ stay, site, alternatives }) => (
              <tr key={stay}>
                <th scope="row">{who(stay)}</th>
                <td>{nameOf(before.get(stay) ?? null)}</td>
                <td>{nameOf(site)}</td>
                <td>
                  {alternatives.length === 0
                    ? "no other site"
                    : alternatives.map((one) => `${nameOf(one.site)} ${costText(one.cost)}`).join(", ")}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {lost.length > 0 && <p>Without the site that they had: {lost.map(({ stay }) => who(stay)).join(", ")}.</p>}
      {plan.unplaced.length > 0 && (
        <ul aria-label="Without a site in this plan">
          {plan.unplaced.map(({ stay, blocking }) => (
            <li key={stay}>
              <b>{who(stay)}</b>:{" "}
              {blocking
                .slice(0, 3)
                .map(({ rule, sites }) => `${plural(sites, "site")}: ${ruleText(rule)}`)
                .join("; ")}
            </li>
          ))}
        </ul>
      )}
      <button type="button" class="button strong" disabled={sending} onClick={onAccept}>
        {sending ? "Being accepted" : "Accept this plan"}
      </button>
    </div>
  );
}

const costText = (cost: number): string => (Math.round(cost) === 0 ? "(as good)" : `(-${points(cost)})`);
