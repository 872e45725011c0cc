/** The card as a page of HTML that carries everything with it and prints on one sheet of A4 or Letter. */
import type { Fit } from "../../fit/answer.ts";
import type { Card } from "../../trip/card/card.ts";
import { escapeText } from "../svg.ts";
import type { CardPart, CardRow } from "./parts.ts";
import { drawCardPlan } from "./plan.ts";
import { fittedCard } from "./sheet.ts";

const STYLE = `
@page { margin: 7mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; width: 739px; max-width: 100%; color: #000; background: #fff; line-height: 1.16;
  font-family: Arial, "Liberation Sans", Helvetica, sans-serif; }
p, ul, ol, figure { margin: 0; }
header { display: flex; flex-wrap: wrap; gap: 0 1em; align-items: baseline; padding-bottom: .25em;
  border-bottom: 3px solid #000; }
h1 { margin: 0; font-size: 1.25em; font-weight: 400; }
.verdict { margin-left: auto; padding: 0 .5em; border: 2px solid #000; font-weight: 700; }
.banner { margin-top: .5em; padding: .5em .8em; border: 3px solid #000; }
.large { font-size: 1.5em; font-weight: 800; line-height: 1.15; }
.no .banner { padding: .8em 1em; border-width: 6px; }
.no .large { font-size: 2.4em; }
main { columns: 2; column-gap: 16px; margin-top: .5em; }
main > * { margin-bottom: .4em; }
figure svg { display: block; width: 100%; height: auto; }
h2 { margin: 0 0 .1em; border-bottom: 1.5px solid #000; font-size: 1.08em; line-height: 1.16;
  break-after: avoid; }
ul, ol { padding-left: 1.5em; }
li { break-inside: avoid; }
section > p:first-of-type { break-after: avoid; }
li::marker { font-weight: 700; }
ul.boxes { padding: 0; list-style: none; }
ul.boxes li { display: inline-block; margin-right: .8em; }
.box { display: inline-block; width: .75em; height: .75em; margin-right: .45em; border: 1.2px solid #000; }
em { color: #333; }
@media screen and (max-width: 40rem) { main { columns: 1; } body { padding: .6rem; font-size: 1rem !important; } }
`;

function piecesHtml({ pieces }: CardRow): string {
  return pieces
    .map(({ text, style }) => {
      const words = escapeText(text);
      if (style === "why") return `<em>${words}</em>`;
      return style === "strong" ? `<strong>${words}</strong>` : words;
    })
    .join(" ");
}

function rowHtml(row: CardRow): string {
  const id = escapeText(row.id);
  if (row.mark === "none") return `<p data-row="${id}">${piecesHtml(row)}</p>`;
  const box = row.mark === "box" ? '<span class="box" aria-hidden="true"></span>' : "";
  return `<li data-row="${id}">${box}${piecesHtml(row)}</li>`;
}

/** Rows of one kind in a list of their own; those without a mark are paragraphs. */
function rowsHtml(rows: readonly CardRow[]): string {
  const runs: { readonly mark: CardRow["mark"]; rows: string }[] = [];
  for (const row of rows) {
    const last = runs.at(-1);
    if (last?.mark === row.mark) last.rows += rowHtml(row);
    else runs.push({ mark: row.mark, rows: rowHtml(row) });
  }
  return runs
    .map(({ mark, rows: list }) => {
      if (mark === "none") return list;
      if (mark === "number") return `<ol>${list}</ol>`;
      return `<ul${mark === "box" ? ' class="boxes"' : ""}>${list}</ul>`;
    })
    .join("");
}

const partHtml = ({ id, title, rows }: CardPart): string =>
  `<section data-part="${id}"><h2>${escapeText(title)}</h2>${rowsHtml(rows)}</section>`;

function bannerHtml({ banner, approves, words }: Card): string {
  if (banner === null) return "";
  const reasons = banner.reasons.map(({ text }) => `<li>${escapeText(text)}</li>`).join("");
  const none = approves ? "" : `<p>${escapeText(words.noSteps)}</p>`;
  return `<div class="banner"><p class="large">${escapeText(banner.text)}</p><ul>${reasons}</ul>${none}</div>`;
}

/** @returns A whole document without script and without anything to load. */
export function cardPage(fit: Fit, card: Card): string {
  const plan = drawCardPlan(fit, card);
  const { parts, points } = fittedCard(fit, card);
  const figure = plan === null ? "" : `<figure>${plan.svg}</figure>`;
  const place = card.campground === null ? "" : `, ${escapeText(card.campground)}`;
  const title = escapeText(`${card.words.card}${card.words.colon} ${card.site}`);
  return `<!doctype html>
<html lang="${card.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${STYLE}</style>
</head>
<body${card.approves ? "" : ' class="no"'} style="font-size: ${points.toFixed(1)}pt">
<header><h1><strong>${escapeText(card.site)}</strong>${place}</h1><p>${escapeText(card.rig)}</p>
<p class="verdict">${escapeText(card.verdictText)}</p></header>
${bannerHtml(card)}
<main>${figure}${parts.map(partHtml).join("\n")}</main>
</body>
</html>
`;
}
