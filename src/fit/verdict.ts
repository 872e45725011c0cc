/** The verdict of a site from its deciding checks, by published precedence. */
import type { AnswerLine, Check, CheckStatus, SiteVerdict } from "./answer.ts";

/** Worst first: the first status that any deciding check has makes the verdict. */
export const PRECEDENCE: readonly { readonly status: CheckStatus; readonly verdict: SiteVerdict }[] = [
  { status: "fail", verdict: "does not fit" },
  { status: "unknown", verdict: "unknown" },
  { status: "tight", verdict: "tight" },
  { status: "pass with kit", verdict: "fits with kit" },
];

/** Verdict of the site; `fits` when no deciding check has anything to say against it. */
export function siteVerdict(checks: readonly Check[]): SiteVerdict {
  const deciding = checks.filter((check) => check.deciding);
  const found = PRECEDENCE.find(({ status }) => deciding.some((check) => check.status === status));
  return found?.verdict ?? "fits";
}

/** Rank of a verdict, the larger the better. */
export function verdictRank(verdict: SiteVerdict): number {
  const ranks: Readonly<Record<SiteVerdict, number>> = {
    "does not fit": 0,
    unknown: 1,
    tight: 2,
    "fits with kit": 3,
    fits: 4,
  };
  return ranks[verdict];
}

/** Status of the check that stands for a line. */
export function lineStatus(line: AnswerLine): CheckStatus {
  switch (line.verdict) {
    case "reaches":
      return "pass";
    case "tight":
      return "tight";
    case "short":
      return "fail";
    case "unknown":
      return "unknown";
    case "not needed":
      return line.need === "required" ? "fail" : "not applicable";
    case "absent":
      return line.need === "ignored" ? "not applicable" : "fail";
  }
}
