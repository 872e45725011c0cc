/** The hookup card of one site: one sheet of paper, drawn on the screen as it will be printed, in a chosen language. */
import "./card.css";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { CompletedRig } from "../../rig/completed.ts";
import type { Language } from "../../trip/card/card.ts";
import { hookupCard } from "../../trip/card/hookup-card.ts";
import { useTools } from "../context.ts";
import { hrefOf } from "../route.ts";
import { useFit } from "../site/use-fit.ts";
import { keep, useStore } from "../state/store.ts";
import { CardSheet } from "./card-sheet.tsx";
import { LANGUAGE_NAMES, useCatalogue } from "./languages.ts";

/** Width for which the answer's own plan is drawn, pixels; the card draws its own. */
const PLAN_WIDTH = 380;

/** The completed rig; null until it is read, or when it cannot be. */
function useCompletedRig(): CompletedRig | null {
  const { core } = useTools();
  const rig = useStore((state) => state.kept.rig);
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const [completed, setCompleted] = useState<CompletedRig | null>(null);
  useEffect(() => {
    if (opened === null) return;
    let gone = false;
    core.checkRig(rig, units).then(
      (check) => !gone && setCompleted(check.ok ? check.completed : null),
      () => !gone && setCompleted(null),
    );
    return () => {
      gone = true;
    };
  }, [core, rig, units, opened]);
  return completed;
}

function LanguageChoice() {
  const language = useStore((state) => state.kept.cardLanguage);
  return (
    <label class="card-language">
      Language of the card
      <select value={language} onChange={(event) => keep({ cardLanguage: event.currentTarget.value as Language })}>
        {Object.entries(LANGUAGE_NAMES).map(([id, name]) => (
          <option key={id} value={id} lang={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

export function CardView({ id }: { readonly id: string }) {
  const opened = useStore((state) => state.opened);
  const readable = useStore((state) => state.rigRead);
  const site = opened?.sites.find((one) => one.id === id) ?? null;
  const { answer, partial, trouble } = useFit(id, PLAN_WIDTH);
  const rig = useCompletedRig();
  const { catalogue, failed } = useCatalogue(useStore((state) => state.kept.cardLanguage));
  const fit = partial ? null : (answer?.fit ?? null);
  const card = useMemo(
    () =>
      fit === null || rig === null || catalogue === null
        ? null
        : hookupCard({ fit, rig, campground: opened?.name ?? null }, catalogue),
    [fit, rig, catalogue, opened],
  );
  const ready = fit !== null && card !== null;
  return (
    <article class="card" data-site={id} data-ready={ready}>
      <p class="back">
        <a href={hrefOf({ view: "site", id })}>{site?.name ?? id}</a>
      </p>
      <div class="card-head">
        <h1>Hookup card{site === null ? "" : `: ${site.name}`}</h1>
        <LanguageChoice />
        <button type="button" class="button strong" disabled={!ready} onClick={() => print()}>
          Print
        </button>
      </div>
      {opened !== null && site === null && (
        <p class="trouble" role="alert">
          {opened.name} has no site of this name.
        </p>
      )}
      {trouble !== null && site !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {!readable && (
        <p class="trouble" role="alert">
          The rig cannot be read. <a href={hrefOf({ view: "rig" })}>Mend the rig</a>
        </p>
      )}
      {failed && (
        <p class="trouble" role="alert">
          The words of this language could not be loaded. Try again with a signal.
        </p>
      )}
      {!ready && !failed && trouble === null && site !== null && readable && (
        <p class="quiet" role="status">
          The card is being worked out: where to stop, how far off still works, what would mend it.
        </p>
      )}
      {ready && <CardSheet fit={fit} card={card} />}
    </article>
  );
}
