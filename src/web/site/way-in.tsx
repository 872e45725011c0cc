/** The way in and out: the answer in a sentence, the picture when somebody wants it. */
import "./way-in.css";
import { useState } from "preact/hooks";
import { drawWayIn } from "../../draw/way-in.ts";
import type { Fit } from "../../fit/answer.ts";
import type { ManoeuvreStatus } from "../../fit/manoeuvre/answer.ts";
import { PlanPicture } from "../compare/plan-picture.tsx";
import type { MarkState } from "../shared/verdict-mark.tsx";
import { VerdictMark } from "../shared/verdict-mark.tsx";

const MARK: Readonly<Record<ManoeuvreStatus, MarkState>> = {
  "ok in one move": "fits",
  "needs a shunt": "tight",
  unknown: "unknown",
  cannot: "does not fit",
};

export function WayIn({ fit }: { readonly fit: Fit }) {
  /** For the picture, pixels; 0 while it is folded away. */
  const [width, setWidth] = useState(0);
  const { manoeuvre } = fit;
  if (manoeuvre === null) return null;
  const { needs } = manoeuvre.coupling;
  return (
    <section class="panel way-in" aria-labelledby="way-in-title" data-part="way-in" data-status={manoeuvre.status}>
      <h2 id="way-in-title">The way in and out</h2>
      <div class="way-in-answer">
        <VerdictMark verdict={MARK[manoeuvre.status]} size={30} />
        <p>
          <b>{manoeuvre.status}</b>. {manoeuvre.why}
        </p>
      </div>
      {needs.length > 0 && <p>Needed: {needs.join("; ")}.</p>}
      {manoeuvre.measure.length > 0 && <p class="quiet">To measure: {manoeuvre.measure.join(", ")}.</p>}
      <details onToggle={({ currentTarget }) => setWidth(currentTarget.open ? currentTarget.clientWidth : 0)}>
        <summary>Picture of the way in and out</summary>
        {width > 0 && <PlanPicture svg={drawWayIn(fit, { widthPx: width })} label="Way in and out" />}
      </details>
    </section>
  );
}
