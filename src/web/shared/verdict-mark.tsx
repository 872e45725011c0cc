/**
 * The mark of a verdict: a shape, a letter and a colour, each of which says it alone. One drawing for list, map and
 * headings. The shapes differ in outline, so that they are told apart small, wet and without colour.
 */
import type { SiteVerdict } from "../../fit/answer.ts";
import { VERDICT_WORDS } from "./words.ts";

export type MarkState = SiteVerdict | "waiting";

interface MarkLook {
  readonly letter: string;
  /** Path within a box of 32 by 32. */
  readonly outline: string;
  readonly className: string;
  /** Height of the letter's line; a shape whose middle lies low or high moves it. */
  readonly baseline: number;
}

export const MARKS: Readonly<Record<MarkState, MarkLook>> = {
  fits: { letter: "F", outline: "M16 2a14 14 0 1 1 0 28a14 14 0 1 1 0-28Z", className: "mark-fits", baseline: 21.5 },
  "fits with kit": { letter: "K", outline: "M4 12L16 2L28 12V29H4Z", className: "mark-kit", baseline: 24 },
  tight: { letter: "T", outline: "M1 4H31L16 31Z", className: "mark-tight", baseline: 17 },
  unknown: { letter: "?", outline: "M16 1L31 16L16 31L1 16Z", className: "mark-unknown", baseline: 21.5 },
  "does not fit": { letter: "N", outline: "M3 3H29V29H3Z", className: "mark-no", baseline: 21.5 },
  waiting: { letter: "", outline: "M16 11a5 5 0 1 1 0 10a5 5 0 1 1 0-10Z", className: "mark-waiting", baseline: 21.5 },
};

interface MarkProps {
  readonly verdict: MarkState;
  /** Side of the box, pixels. */
  readonly size?: number;
}

/** Drawn for the eye only: the words stand beside it wherever it is used. */
export function VerdictMark({ verdict, size = 32 }: MarkProps) {
  const look = MARKS[verdict];
  return (
    <svg class={`mark ${look.className}`} width={size} height={size} viewBox="0 0 32 32" aria-hidden="true">
      <path d={look.outline} />
      <text x="16" y={look.baseline} text-anchor="middle">
        {look.letter}
      </text>
    </svg>
  );
}

export function verdictWords(verdict: MarkState): string {
  return verdict === "waiting" ? "Not worked out yet" : VERDICT_WORDS[verdict];
}
