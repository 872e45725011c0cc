/** The hookup card of one site: one sheet of paper, drawn on the screen as it will be printed. */
import "./card.css";
import { useEffect, useState } from "preact/hooks";
import type { CompletedRig } from "../../rig/completed.ts";
import { useTools } from "../context.ts";
import { hrefOf } from "../route.ts";
import { useFit } from "../site/use-fit.ts";
import { useStore } from "../state/store.ts";
import { CardSheet } from "./card-sheet.tsx";
import { cardContent } from "./content.ts";

/** Width for which the plan is drawn, pixels: about the part of the sheet that it takes. */
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

export function CardView({ id }: { readonly id: string }) {
  const opened = useStore((state) => state.opened);
  const readable = useStore((state) => state.rigRead);
  const site = opened?.sites.find((one) => one.id === id) ?? null;
  const { answer, partial, trouble } = useFit(id, PLAN_WIDTH);
  const rig = useCompletedRig();
  const ready = answer !== null && !partial && rig !== null;
  return (
    <article class="card" data-site={id} data-ready={ready}>
      <p class="back">
        <a href={hrefOf({ view: "site", id })}>{site?.name ?? id}</a>
      </p>
      <div class="card-head">
        <h1>Hookup card{site === null ? "" : `: ${site.name}`}</h1>
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
      {!ready && trouble === null && site !== null && readable && (
        <p class="quiet" role="status">
          The card is being worked out: where to stop, how far off still works, what would mend it.
        </p>
      )}
      {ready && (
        <CardSheet
          content={cardContent(answer.fit, rig)}
          plan={answer.plan}
          campground={opened?.name ?? answer.fit.site.campground ?? ""}
        />
      )}
    </article>
  );
}
