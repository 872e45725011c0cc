/** The lines with what they need and what is there; at a tried place also how far that is from the place worked out. */
import type { AnswerLine, Fit } from "../../fit/answer.ts";
import type { TriedAnswer } from "../core/protocol.ts";
import { availableText, LINE_WORDS, marginText, neededText, SERVICE_WORDS } from "../shared/words.ts";
import { useStore } from "../state/store.ts";

interface LineTableProps {
  readonly fit: Fit;
  readonly tried: TriedAnswer | null;
}

export function LineTable({ fit, tried }: LineTableProps) {
  const lines = (tried?.lines ?? fit.lines).filter((line) => line.need !== "ignored" && line.verdict !== "not needed");
  return (
    <section class="panel" aria-labelledby="lines-title">
      <h2 id="lines-title">Lines{tried === null ? "" : " at the place tried"}</h2>
      <ul class="lines">
        {lines.map((line) => (
          <LineItem
            key={line.service}
            line={line}
            before={fit.lines.find((one) => one.service === line.service) ?? null}
            moved={tried !== null}
          />
        ))}
      </ul>
    </section>
  );
}

interface LineItemProps {
  readonly line: AnswerLine;
  readonly before: AnswerLine | null;
  readonly moved: boolean;
}

function LineItem({ line, before, moved }: LineItemProps) {
  const units = useStore((state) => state.kept.units);
  const { needed, available, margin } = line;
  const asked = line.need === "required" ? "must" : "nice to have";
  return (
    <li class={`line line-${line.verdict.replace(" ", "-")}`} data-service={line.service}>
      <p class="line-head">
        <strong>{SERVICE_WORDS[line.service]}</strong> <span class="quiet">{asked}</span>
        <span class={`line-verdict word-${line.verdict.replace(" ", "-")}`}>{LINE_WORDS[line.verdict]}</span>
      </p>
      {needed !== null && available !== null && margin !== null && (
        <>
          <p class="line-numbers">
            <span>
              needs <b data-part="needed">{neededText(needed, units)}</b>
            </span>
            <span>
              has <b data-part="available">{availableText(available, units)}</b>
            </span>
            <b class="line-margin" data-part="margin">
              {marginText(margin, units)}
            </b>
          </p>
          <Gauge needed={needed} available={available} />
          {moved && before !== null && before.margin !== null && (
            <p class="quiet">At the place worked out: {marginText(before.margin, units)}</p>
          )}
        </>
      )}
      <p class="line-why">{line.why}</p>
    </li>
  );
}

const GAUGE_WIDTH = 200;
const GAUGE_HEIGHT = 10;
const ROOM = 1.08;

/** What is there as a bar, what is needed as a thread over it; for the eye only, the numbers stand above. */
function Gauge({ needed, available }: { readonly needed: number; readonly available: number }) {
  const most = Math.max(needed, available, 1) * ROOM;
  const wide = (metres: number) => Math.max(0, (metres / most) * GAUGE_WIDTH);
  const short = needed > available;
  return (
    <svg
      class={`gauge ${short ? "short" : ""}`}
      viewBox={`0 0 ${GAUGE_WIDTH} ${GAUGE_HEIGHT}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect class="gauge-has" width={wide(available)} height={GAUGE_HEIGHT} />
      <rect class="gauge-needs" width={wide(needed)} y={GAUGE_HEIGHT / 2 - 1} height={2} />
      <rect class="gauge-end" x={wide(needed) - 1} width={2} height={GAUGE_HEIGHT} />
    </svg>
  );
}
