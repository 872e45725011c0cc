/** Changes that would help: applied to the question with one press and taken back with another. */
import type { Fit, Fix } from "../../fit/answer.ts";
import { announce } from "../shared/announce.tsx";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";
import { type AppliedFix, keep, theStore } from "../state/store.ts";
import { useFixes } from "./use-fit.ts";

function setFixes(site: string, fixes: readonly AppliedFix[]): void {
  const { kept } = theStore().get();
  keep({ fixes: { ...kept.fixes, [site]: fixes } });
}

interface FixesProps {
  readonly site: string;
  readonly fit: Fit;
  readonly partial: boolean;
}

export function Fixes({ site, fit, partial }: FixesProps) {
  const applied = useFixes(site);
  if (applied.length === 0 && fit.fixes.length === 0) return null;
  const apply = ({ title, change }: Fix) => {
    setFixes(site, [...applied, { title, change }]);
    announce(`Trying: ${title}`);
  };
  const undo = (index: number) => {
    setFixes(
      site,
      applied.filter((_, other) => other !== index),
    );
    announce("Taken back.");
  };
  return (
    <section class="panel fixes" aria-labelledby="fixes-title">
      <h2 id="fixes-title">What would help</h2>
      {applied.length > 0 && (
        <ul class="applied" aria-label="Being tried">
          {applied.map(({ title }, index) => (
            <li key={title}>
              <span>
                <b>Trying:</b> {title}
              </span>
              <button type="button" class="button" onClick={() => undo(index)}>
                Take back
              </button>
            </li>
          ))}
        </ul>
      )}
      {fit.fixes.length > 0 && (
        <ul class="offers">
          {fit.fixes.map((fix) => (
            <li key={fix.title}>
              <VerdictMark verdict={fix.verdictAfter} size={26} />
              <div>
                <p>
                  <b>{fix.title}</b> {fix.free && <span class="quiet">costs nothing</span>}
                </p>
                <p class="quiet">Then: {verdictWords(fix.verdictAfter).toLowerCase()}</p>
              </div>
              <button type="button" class="button" onClick={() => apply(fix)} disabled={partial}>
                Try it
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
