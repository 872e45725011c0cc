/** Colour, which only repeats what the words say. */
import type { SiteVerdict } from "../fit/answer.ts";

const RESET = "\u001b[0m";
const BOLD = "\u001b[1m";
const VERDICT_COLOURS: Readonly<Record<SiteVerdict, string>> = {
  fits: "\u001b[32m",
  "fits with kit": "\u001b[32m",
  tight: "\u001b[33m",
  unknown: "\u001b[36m",
  "does not fit": "\u001b[31m",
};

export interface Style {
  readonly bold: (text: string) => string;
  readonly verdict: (verdict: SiteVerdict, text: string) => string;
}

const PLAIN: Style = { bold: (text) => text, verdict: (_, text) => text };

const COLOURED: Style = {
  bold: (text) => `${BOLD}${text}${RESET}`,
  verdict: (verdict, text) => `${BOLD}${VERDICT_COLOURS[verdict]}${text}${RESET}`,
};

export function styleOf(colour: boolean): Style {
  return colour ? COLOURED : PLAIN;
}
