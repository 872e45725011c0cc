/** padwright card: what to do on arrival and departure, for one rig at one site. */

import { cardPage } from "../draw/card/page.ts";
import { type CardRow, cardParts } from "../draw/card/parts.ts";
import { drawCardSheet } from "../draw/card/sheet.ts";
import { fitReady, readyCase } from "../http/fit-case.ts";
import type { Card, Language } from "../trip/card/card.ts";
import { hookupCard } from "../trip/card/hookup-card.ts";
import { catalogueOf, LANGUAGES } from "../trip/card/languages.ts";
import { EXIT, type ExitCode, usageError } from "./ending.ts";
import { writeOut } from "./fit.ts";
import { OPTION_FLAGS, readFitOptions } from "./fit-options.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { wrap } from "./layout.ts";
import { findSite, readCampgroundFile, readRigFile, refuseSharedInput } from "./records.ts";
import { type Style, styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";

const JSON_INDENT = 2;

export const CARD: CommandSpec = {
  name: "card",
  summary: "The hookup card: where to stop, arrival and departure in order, what to mind.",
  usage: "card --rig file --campground file --site name [flags]",
  about: [
    "Gives the steps that this rig needs at this site, each with its reason. A site that does not fit, or of which too little is known, gets a card without steps.",
    "For paper, and for a PDF, write the page with --html and print it: it is one sheet of A4 or Letter.",
  ],
  flags: {
    rig: { value: "file", required: true, help: "The rig's record (JSON)." },
    campground: { value: "file", required: true, help: "The campground's record (GeoJSON)." },
    site: { value: "name", required: true, help: "Id or name of the site." },
    language: { value: LANGUAGES.join("|"), help: "Language of the card. Default en." },
    html: { value: "file", help: "Writes the card as a page that prints on one sheet." },
    svg: { value: "file", help: "Draws the card's sheet into this file (SVG)." },
    ...OPTION_FLAGS,
    json: { help: "The card as JSON, as the API gives it." },
  },
  operands: [],
  examples: [
    "padwright card --rig rig.json --campground camp.geojson --site A12 --units us",
    "padwright card --rig rig.json --campground camp.geojson --site A12 --language es \\",
    "    --html card.html",
  ],
};

export async function cardCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["rig", "campground", "options"]);
  const language = languageOf(given.value("language"));
  const options = { ...(await readFitOptions(given, terminal)), detail: "full" as const };
  const rig = await readRigFile(given.value("rig") ?? "", terminal);
  const file = await readCampgroundFile(given.value("campground") ?? "", terminal);
  const feature = findSite(file, given.value("site") ?? "");
  const around = file.features.filter((other) => other !== feature);
  const { campground, features } = file;
  const read = { feature, campground, around, features, warnings: [], version: null };
  const ready = readyCase(rig, read, options);
  const fit = fitReady(ready, read, options);
  const card = hookupCard({ fit, rig: ready.rig }, catalogueOf(language));
  const page = given.value("html");
  if (page !== null) await writeOut(page, cardPage(fit, card));
  const sheet = given.value("svg");
  if (sheet !== null) await writeOut(sheet, drawCardSheet(fit, card));
  if (given.has("json")) terminal.out(JSON.stringify(card, null, JSON_INDENT));
  else for (const row of cardRows(card, terminal.width, styleOf(terminal.colour))) terminal.out(row);
  return EXIT.answered;
}

function languageOf(word: string | null): Language {
  if (word === null) return "en";
  const found = LANGUAGES.find((language) => language === word);
  if (found === undefined) throw usageError(`--language ${word} is not known.`, `Known are ${LANGUAGES.join(", ")}.`);
  return found;
}

const MARKS: Readonly<Record<Exclude<CardRow["mark"], "number">, string>> = { box: "[ ] ", dot: "- ", none: "" };

/** The card for a terminal, in the order in which it is printed. */
function cardRows(card: Card, width: number, style: Style): string[] {
  const name = [card.site, ...(card.campground === null ? [] : [card.campground])].join(", ");
  const { banner } = card;
  const head = [
    ...wrap(`${name}: ${card.verdictText}`, { width }).map(style.bold),
    ...wrap(`${card.words.card}${card.words.colon} ${card.rig}`, { width }),
    ...(banner === null ? [] : ["", ...wrap(banner.text, { width }).map(style.bold)]),
    ...(banner?.reasons ?? []).flatMap(({ text }) => wrap(text, { width, first: "- " })),
    ...(card.approves ? [] : wrap(card.words.noSteps, { width })),
  ];
  const parts = cardParts(card).flatMap(({ title, rows }) => {
    let number = 0;
    const set = rows.flatMap((row) => {
      if (row.mark === "number") number += 1;
      const first = row.mark === "number" ? `${number}. `.padStart("10. ".length) : MARKS[row.mark];
      return wrap(row.pieces.map(({ text }) => text).join(" "), { width, first });
    });
    return ["", ...wrap(title, { width }).map(style.bold), ...set];
  });
  return [...head, ...parts];
}
