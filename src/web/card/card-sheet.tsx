/** The sheet itself. Its text is made as large as one page takes; nothing on it needs colour. */
import { useLayoutEffect, useRef } from "preact/hooks";
import type { CardPart, CardRow } from "../../draw/card/parts.ts";
import { drawCardPlan } from "../../draw/card/plan.ts";
import { fittedCard } from "../../draw/card/sheet.ts";
import type { Fit } from "../../fit/answer.ts";
import type { Card } from "../../trip/card/card.ts";
import { useOneSheet } from "./one-sheet.ts";

interface SheetProps {
  readonly fit: Fit;
  readonly card: Card;
}

export function CardSheet({ fit, card }: SheetProps) {
  const sheet = useOneSheet([card]);
  const { approves, banner, words } = card;
  const plan = drawCardPlan(fit, card);
  return (
    <div class={`card-sheet ${approves ? "" : "card-no"}`} ref={sheet} data-part="card-sheet" lang={card.language}>
      <div class="card-inner">
        <header class="card-title">
          <p class="card-site">
            <strong>{card.site}</strong>
            {card.campground === null ? "" : `, ${card.campground}`}
          </p>
          <p class="card-rig">{card.rig}</p>
          <p class="card-verdict">{card.verdictText}</p>
        </header>
        {banner !== null && (
          <section class="card-banner" aria-label={card.verdictText}>
            <p class="card-large">{banner.text}</p>
            <ul>
              {banner.reasons.map(({ id, text }) => (
                <li key={id}>{text}</li>
              ))}
            </ul>
            {!approves && <p>{words.noSteps}</p>}
          </section>
        )}
        <div class="card-columns">
          {plan !== null && <Plan svg={plan.svg} name={`${words.plan}${words.colon} ${card.site}`} />}
          {fittedCard(fit, card).parts.map((part) => (
            <Part key={part.id} part={part} />
          ))}
        </div>
      </div>
    </div>
  );
}

function Plan({ svg, name }: { readonly svg: string; readonly name: string }) {
  const holder = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const drawing = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (drawing instanceof SVGSVGElement) holder.current?.replaceChildren(document.importNode(drawing, true));
  }, [svg]);
  return <figure class="card-plan" ref={holder} aria-label={name} />;
}

/** Rows of one kind that follow each other. */
function runsOf(rows: readonly CardRow[]): CardRow[][] {
  const runs: CardRow[][] = [];
  for (const row of rows) {
    const last = runs.at(-1);
    if (last?.[0]?.mark === row.mark) last.push(row);
    else runs.push([row]);
  }
  return runs;
}

function Part({ part: { id, title, rows } }: { readonly part: CardPart }) {
  return (
    <section data-part={id}>
      <h2>{title}</h2>
      {runsOf(rows).map((run) => (
        <Run key={run[0]?.id} rows={run} />
      ))}
    </section>
  );
}

function Run({ rows }: { readonly rows: readonly CardRow[] }) {
  switch (rows[0]?.mark) {
    case "number":
      return (
        <ol class="card-steps">
          {rows.map((row) => (
            <li key={row.id} data-step={row.id}>
              <Pieces row={row} />
            </li>
          ))}
        </ol>
      );
    case "box":
      return (
        <ul class="card-kit">
          {rows.map((row) => (
            <li key={row.id}>
              <span class="card-box" aria-hidden="true" />
              <Pieces row={row} />
            </li>
          ))}
        </ul>
      );
    case "dot":
      return (
        <ul>
          {rows.map((row) => (
            <li key={row.id} data-row={row.id}>
              <Pieces row={row} />
            </li>
          ))}
        </ul>
      );
    default:
      return (
        <>
          {rows.map((row) => (
            <p key={row.id} data-row={row.id}>
              <Pieces row={row} />
            </p>
          ))}
        </>
      );
  }
}

function Pieces({ row: { pieces } }: { readonly row: CardRow }) {
  return (
    <>
      {pieces.map(({ text, style }, index) => {
        const words = index === 0 ? text : ` ${text}`;
        if (style === "why") return <span class="card-why">{words}</span>;
        return style === "strong" ? <strong>{words}</strong> : words;
      })}
    </>
  );
}
