/** Up to three sites side by side: the same rows for each, so that the eye runs across. */
import "../styles/site.css";
import { useEffect, useState } from "preact/hooks";
import { formatLength } from "../../units/print.ts";
import { useTools } from "../context.ts";
import type { FitAnswer } from "../core/protocol.ts";
import { hrefOf } from "../route.ts";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";
import { LINE_WORDS, marginText, SERVICE_WORDS } from "../shared/words.ts";
import { optionsOf } from "../state/session.ts";
import { keep, type Units, useStore } from "../state/store.ts";
import { PlanPicture } from "./plan-picture.tsx";

const PLAN_WIDTH = 380;

/** The quick answers of the sites, one after another. */
function useAnswers(ids: readonly string[]): ReadonlyMap<string, FitAnswer> {
  const { core } = useTools();
  const opened = useStore((state) => state.opened);
  const kept = useStore((state) => state.kept);
  const [answers, setAnswers] = useState<ReadonlyMap<string, FitAnswer>>(new Map());
  const { rig, units, question } = kept;
  useEffect(() => {
    if (opened === null) return;
    let gone = false;
    const work = async () => {
      for (const site of ids) {
        if (gone) return;
        const changes = (kept.fixes[site] ?? []).map((one) => one.change);
        const running = core.fit({ rig, options: optionsOf(kept), site, changes, planWidth: PLAN_WIDTH });
        running.stop();
        const answer = await running.answer.catch(() => null);
        if (!gone && answer !== null) setAnswers((before) => new Map([...before, [site, answer]]));
      }
    };
    work();
    return () => {
      gone = true;
    };
  }, [core, opened, rig, units, question, ids.join()]);
  return answers;
}

export function Compare({ ids }: { readonly ids: readonly string[] }) {
  const opened = useStore((state) => state.opened);
  const answers = useAnswers(ids);
  const known = ids.filter((id) => opened?.sites.some((site) => site.id === id));
  const remove = (id: string) => {
    const left = ids.filter((one) => one !== id);
    keep({ chosen: left });
    location.hash = left.length === 0 ? "#/sites" : `#/compare/${left.map(encodeURIComponent).join(",")}`;
  };
  return (
    <div class="compare">
      <p class="back">
        <a href={hrefOf({ view: "sites" })}>All sites</a>
      </p>
      <h1>Compare</h1>
      {opened !== null && known.length === 0 && <p>None of these sites is in {opened.name}.</p>}
      <div class="compare-grid">
        {known.map((id) => (
          <Column key={id} id={id} answer={answers.get(id) ?? null} onRemove={() => remove(id)} />
        ))}
      </div>
    </div>
  );
}

interface ColumnProps {
  readonly id: string;
  readonly answer: FitAnswer | null;
  readonly onRemove: () => void;
}

function Column({ id, answer, onRemove }: ColumnProps) {
  const units = useStore((state) => state.kept.units);
  const card = useStore((state) => state.opened?.sites.find((site) => site.id === id));
  const name = card?.name ?? id;
  const verdict = answer?.fit.verdict ?? "waiting";
  const size = [card?.length, card?.width].map((one) =>
    one == null ? "unknown" : formatLength(one, units, { round: "down" }),
  );
  return (
    <section class="column" aria-label={name} data-site={id}>
      <h2>
        <a href={hrefOf({ view: "site", id })}>{name}</a>
      </h2>
      <p class="column-verdict">
        <VerdictMark verdict={verdict} /> <strong>{verdictWords(verdict)}</strong>
      </p>
      <p class="headline">{answer?.fit.headline ?? "Working it out."}</p>
      {answer !== null && <Facts answer={answer} units={units} pad={size.join(" by ")} shade={card?.shade ?? null} />}
      {answer !== null && <PlanPicture svg={answer.plan} label={`Plan of ${name}`} />}
      <button type="button" class="button" onClick={onRemove} aria-label={`Leave out ${name}`}>
        Leave out
      </button>
    </section>
  );
}

interface FactsProps {
  readonly answer: FitAnswer;
  readonly units: Units;
  readonly pad: string;
  readonly shade: string | null;
}

function Facts({ answer, units, pad, shade }: FactsProps) {
  const { fit } = answer;
  const lines = fit.lines.filter((line) => line.need !== "ignored");
  const kit = fit.kit.map((entry) => `${entry.description} (${entry.where})`);
  return (
    <dl class="facts">
      {lines.map((line) => (
        <div key={line.service}>
          <dt>{SERVICE_WORDS[line.service]}</dt>
          <dd>
            {LINE_WORDS[line.verdict]}
            {line.margin !== null && <b> {marginText(line.margin, units)}</b>}
          </dd>
        </div>
      ))}
      <div>
        <dt>Plug</dt>
        <dd>{fit.power.mating}</dd>
      </div>
      <div>
        <dt>Kit</dt>
        <dd>{kit.length === 0 ? "none needed" : kit.join(", ")}</dd>
      </div>
      <div>
        <dt>Pad</dt>
        <dd>{pad}</dd>
      </div>
      <div>
        <dt>Shade</dt>
        <dd>{shade ?? "not recorded"}</dd>
      </div>
    </dl>
  );
}
