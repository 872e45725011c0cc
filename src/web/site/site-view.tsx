/** One site: the answer, the plan to drag the rig on, and everything that follows from it. */
import "../styles/site.css";
import { useEffect, useRef, useState } from "preact/hooks";
import { PlanPicture } from "../compare/plan-picture.tsx";
import type { FitAnswer } from "../core/protocol.ts";
import { hrefOf } from "../route.ts";
import { announce } from "../shared/announce.tsx";
import { later } from "../shared/later.tsx";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";
import { marginText, SERVICE_WORDS } from "../shared/words.ts";
import { CompareToggle } from "../sites/site-list.tsx";
import { useStore } from "../state/store.ts";
import { Asking } from "./asking.tsx";
import { Fixes } from "./fixes.tsx";
import { LineTable } from "./line-table.tsx";
import { MovePanel } from "./move-panel.tsx";
import { PlanView } from "./plan-view.tsx";
import { Power } from "./power.tsx";
import { Cautions, Folded, Kit } from "./rest.tsx";
import { useFit } from "./use-fit.ts";
import { type Trial, useTrial } from "./use-trial.ts";

/** With its days, its strip and its own style sheet it would hold up the answer that people come for. */
const WindSection = later(() => import("../wind/wind-section.tsx").then((module) => module.WindSection));

const WayIn = later(() => import("./way-in.tsx").then((module) => module.WayIn));

/** Width of an element in whole steps, so that the plan is not drawn anew for every pixel; 0 until it is known. */
const WIDTH_STEP = 20;
const WIDEST_PLAN = 1100;

function useWidth() {
  const element = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    if (element.current === null) return;
    const watch = new ResizeObserver(([entry]) => {
      const wide = Math.min(entry?.contentRect.width ?? 0, WIDEST_PLAN);
      setWidth(Math.floor(wide / WIDTH_STEP) * WIDTH_STEP);
    });
    watch.observe(element.current);
    return () => watch.disconnect();
  }, []);
  return { element, width };
}

export function SiteView({ id }: { readonly id: string }) {
  const opened = useStore((state) => state.opened);
  const card = opened?.sites.find((site) => site.id === id) ?? null;
  const { element, width } = useWidth();
  const { answer, partial, trouble } = useFit(id, width);
  const trial = useTrial(answer, width);
  useAnnouncedMargins(trial);
  const name = card?.name ?? id;
  return (
    <article class="site" data-site={id}>
      <p class="back">
        <a href={hrefOf({ view: "sites" })}>All sites</a>
      </p>
      <div class="site-head">
        <h1>{name}</h1>
        {card !== null && <CompareToggle id={id} name={name} />}
        {card !== null && (
          <>
            <a class="button" href={hrefOf({ view: "card", id })}>
              Hookup card
            </a>
            <a class="button" href={hrefOf({ view: "measure", id })}>
              Measure it
            </a>
          </>
        )}
      </div>
      {opened !== null && card === null && (
        <p class="trouble" role="alert">
          {opened.name} has no site of this name.
        </p>
      )}
      {trouble !== null && card !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {answer !== null && <Verdict answer={answer} partial={partial} />}
      {answer === null && trouble === null && card !== null && <p class="quiet">Working it out.</p>}
      <div class="site-body">
        <div class="site-plan" ref={element}>
          {answer !== null && (
            <PlanView
              fit={answer.fit}
              svg={trial.tried?.plan ?? answer.plan}
              place={trial.place}
              onMove={trial.move}
              onBack={trial.back}
            />
          )}
          {answer !== null && answer.key !== "" && (
            <details class="plan-key">
              <summary>Key to the plan</summary>
              <PlanPicture svg={answer.key} label="Key to the plan" />
            </details>
          )}
        </div>
        {answer !== null && <Answer answer={answer} trial={trial} site={id} partial={partial} />}
      </div>
    </article>
  );
}

/** Reads the margins of a place that was tried, once the hand rests. */
function useAnnouncedMargins({ tried }: Trial): void {
  const units = useStore((state) => state.kept.units);
  useEffect(() => {
    if (tried === null) return;
    const lines = tried.lines
      .filter((line) => line.margin !== null)
      .map((line) => `${SERVICE_WORDS[line.service]} ${marginText(line.margin!, units)}`);
    const touches = tried.contacts.map((one) => `touches ${one.against}`);
    announce([...lines, ...touches].join(", "));
  }, [tried]);
}

function Verdict({ answer, partial }: { readonly answer: FitAnswer; readonly partial: boolean }) {
  const { verdict, headline, probability } = answer.fit;
  return (
    <div class="verdict" data-verdict={verdict}>
      <VerdictMark verdict={verdict} size={44} />
      <div>
        <p class="verdict-title">
          <strong>{verdictWords(verdict)}</strong>
          {probability !== undefined && <span class="quiet"> {sureness(probability)}</span>}
        </p>
        <p class="headline">{withoutVerdict(headline)}</p>
        {partial && (
          <p class="quiet" data-part="partial">
            Fixes and the window to stop in are still being worked out.
          </p>
        )}
      </div>
    </div>
  );
}

/** The verdict stands above the sentence already. */
function withoutVerdict(headline: string): string {
  const rest = headline.replace(/^(Tight|Unknown|Does not fit): /, "");
  return rest.charAt(0).toUpperCase() + rest.slice(1);
}

/** A probability never reads as certain, nor as hopeless. */
const SUREST = 0.99;
const PERCENT = 100;

function sureness(probability: number): string {
  if (probability > SUREST) return "chance that everything required is served: more than 99 %";
  if (probability < 1 - SUREST) return "chance that everything required is served: less than 1 %";
  return `chance that everything required is served: ${Math.floor(probability * PERCENT)} %`;
}

interface AnswerProps {
  readonly answer: FitAnswer;
  readonly trial: Trial;
  readonly site: string;
  readonly partial: boolean;
}

function Answer({ answer, trial, site, partial }: AnswerProps) {
  const { fit, questions } = answer;
  return (
    <div class="site-words">
      {fit.stance !== null && <MovePanel fit={fit} trial={trial} />}
      <LineTable fit={fit} tried={trial.tried} />
      <Fixes site={site} fit={fit} partial={partial} />
      <Power fit={fit} />
      {fit.manoeuvre !== null && <WayIn fit={fit} />}
      <WindSection answer={answer} partial={partial} />
      <Kit fit={fit} />
      <Asking fit={fit} questions={questions} />
      <Cautions fit={fit} />
      <Folded fit={fit} />
    </div>
  );
}
