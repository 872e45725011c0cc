/** Kit, cautions, and what is folded away because it is read on demand: checks, assumptions, what was not checked, sources. */
import type { ComponentChildren } from "preact";
import type { Check, Fit } from "../../fit/answer.ts";
import { formatLength } from "../../units/print.ts";
import { useStore } from "../state/store.ts";

export function Kit({ fit }: { readonly fit: Fit }) {
  if (fit.kit.length === 0) return null;
  return (
    <section class="panel" aria-labelledby="kit-title">
      <h2 id="kit-title">Kit</h2>
      <ul class="kit">
        {fit.kit.map((entry) => (
          <li key={`${entry.item} ${entry.for} ${entry.description}`}>
            <b>{entry.description}</b> <span class={`where where-${entry.where.replace(" ", "-")}`}>{entry.where}</span>
            <p class="quiet">
              {entry.why} Without it: {entry.withoutIt}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Those of the moment when the rig is joined to the pedestal come first and are never folded. */
const CAUTIONS_SHOWN = 7;

function CautionList({ cautions }: Pick<Fit, "cautions">) {
  return (
    <ul>
      {cautions.map((caution) => (
        <li key={caution.id}>{caution.text}</li>
      ))}
    </ul>
  );
}

export function Cautions({ fit }: { readonly fit: Fit }) {
  if (fit.cautions.length === 0) return null;
  return (
    <section class="panel cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title">Cautions</h2>
      <CautionList cautions={fit.cautions.slice(0, CAUTIONS_SHOWN)} />
      {fit.cautions.length > CAUTIONS_SHOWN && (
        <details>
          <summary>{fit.cautions.length - CAUTIONS_SHOWN} more cautions for this rig at this site</summary>
          <CautionList cautions={fit.cautions.slice(CAUTIONS_SHOWN)} />
        </details>
      )}
      <p class="quiet">Local rules and licensed trades go before anything said here.</p>
    </section>
  );
}

export function Folded({ fit }: { readonly fit: Fit }) {
  const units = useStore((state) => state.kept.units);
  const { level, stay, sewer } = fit;
  const checks = fit.checks.filter((check) => check.status !== "not applicable");
  return (
    <section class="panel folded" aria-labelledby="more-title">
      <h2 id="more-title">The rest of the answer</h2>
      <Fold title="Level, water and drain">
        <p>{level.why}</p>
        {level.blocks.length > 0 && (
          <ul>
            {level.blocks.map((block) => (
              <li key={block.wheel}>
                {block.wheel}: {formatLength(block.height, units, { round: "up" })}
              </li>
            ))}
          </ul>
        )}
        {stay.water !== null && <p>{stay.water}</p>}
        <p>{sewer.why}</p>
        {fit.awning.map((one) => (
          <p key={one.id}>{one.why}</p>
        ))}
      </Fold>
      <Fold title={`All ${checks.length} checks`}>
        <ul class="checks">
          {checks.map((check) => (
            <CheckItem key={check.id} check={check} />
          ))}
        </ul>
      </Fold>
      {fit.assumed.length > 0 && (
        <Fold title={`Assumed (${fit.assumed.length})`}>
          <ul>
            {fit.assumed.map((one) => (
              <li key={`${one.path} ${one.value}`}>
                <code>{one.path}</code>: {one.value} <span class="quiet">{one.source}</span>
              </li>
            ))}
          </ul>
        </Fold>
      )}
      {fit.warnings.length > 0 && (
        <Fold title={`Remarks on the records (${fit.warnings.length})`}>
          <ul>
            {fit.warnings.map((one) => (
              <li key={`${one.path} ${one.text}`}>{one.text}</li>
            ))}
          </ul>
        </Fold>
      )}
      <Fold title="Not checked">
        <ul>
          {fit.notChecked.map((one) => (
            <li key={one.id}>{one.why}</li>
          ))}
        </ul>
      </Fold>
      <Fold title="Sources">
        <ul>
          {fit.sources.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </Fold>
    </section>
  );
}

function Fold({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  return (
    <details>
      <summary>{title}</summary>
      {children}
    </details>
  );
}

function CheckItem({ check }: { readonly check: Check }) {
  return (
    <li>
      <span class={`status status-${check.status.replaceAll(" ", "-")}`}>{check.status}</span> {check.why}
      {check.change !== undefined && <span class="quiet"> {check.change}</span>}
    </li>
  );
}
