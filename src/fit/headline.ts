/** One sentence for the top of the answer, made from its fields. */
import type { AnswerLine, AwningAnswer, Check, KitEntry, SiteVerdict } from "./answer.ts";
import type { Say } from "./say.ts";
import type { Stance } from "./stance/problem.ts";

export interface HeadlineInput {
  readonly verdict: SiteVerdict;
  readonly stance: Stance | null;
  readonly lines: readonly AnswerLine[];
  readonly checks: readonly Check[];
  readonly kit: readonly KitEntry[];
  readonly awning: readonly AwningAnswer[];
  /** What is said about the stay or the wind that was asked about; null for nothing. */
  readonly windWords: string | null;
  readonly say: Say;
}

const OPENING: Readonly<Record<SiteVerdict, string>> = {
  fits: "Fits",
  "fits with kit": "Fits with kit",
  tight: "Tight",
  unknown: "Unknown",
  "does not fit": "Does not fit",
};

function where(stance: Stance, say: Say): string {
  const end = stance.facing === "out" ? "rear bumper" : "nose";
  return `nose ${stance.facing}, ${end} ${say.length(stance.along)} from the pad's rear edge`;
}

/** The reasons behind a verdict that is not plain: the deciding checks that made it. */
function reasons(input: HeadlineInput): string[] {
  const status = { "does not fit": "fail", unknown: "unknown", tight: "tight" }[input.verdict as "tight"];
  if (status === undefined) return [];
  const found = input.checks.filter((check) => check.deciding && check.status === status).map((check) => check.why);
  return [...new Set(found)];
}

function leastMargin(input: HeadlineInput): string {
  const served = input.lines.filter((line) => line.margin !== null && line.verdict === "reaches");
  if (served.length === 0) return "";
  const least = served.reduce((a, b) => (a.margin! <= b.margin! ? a : b));
  return `least margin ${input.say.available(least.margin!)} (${least.service})`;
}

/** Wanted lines that fail or that nobody can judge. */
function wanting(input: HeadlineInput): string[] {
  return input.lines
    .filter((line) => line.need === "wanted" && ["short", "tight", "unknown"].includes(line.verdict))
    .map((line) => {
      if (line.verdict === "short" && line.margin !== null && Number.isFinite(line.margin)) {
        return `${line.service} short by ${input.say.needed(-line.margin)}`;
      }
      return `${line.service} ${line.verdict}`;
    });
}

/** Wanted services that are not there at all. */
function lackingServices(input: HeadlineInput): string[] {
  return input.lines.filter((line) => line.need === "wanted" && line.verdict === "absent").map((line) => line.service);
}

/** Verdict, place, margin, kit, what of the wanted fails, and the awning's exposure when it is not low. */
export function headline(input: HeadlineInput): string {
  const { verdict, stance, say, kit } = input;
  const parts: string[] = [];
  if (verdict === "fits" || verdict === "fits with kit") {
    const items = [...new Set(kit.map((entry) => `${entry.description} (${entry.where})`))];
    const place = stance === null ? [] : [where(stance, say)];
    const margin = leastMargin(input);
    const using = items.length === 0 ? [] : [`with ${items.join(", ")}`];
    parts.push(
      [`${OPENING[verdict]}${place.length > 0 ? ` ${place[0]}` : ""}`, margin, ...using].filter(Boolean).join("; "),
    );
  } else {
    const [first, ...more] = reasons(input);
    const rest = more.length > 0 ? ` (and ${more.length} more)` : "";
    parts.push(`${OPENING[verdict]}: ${(first ?? "see the checks").replace(/\.$/, "")}${rest}`);
  }
  const lacking = wanting(input);
  if (lacking.length > 0) parts.push(`Not served: ${lacking.join(", ")}`);
  const absent = lackingServices(input);
  if (absent.length > 0) parts.push(`None here: ${absent.join(", ")}`);
  const exposed = input.awning.filter((one) => one.exposure !== "low");
  if (exposed.length > 0) {
    const known = exposed.map((one) => one.exposure).find((one) => one !== null);
    parts.push(known === undefined ? "Awning wind not judged" : `Awning exposure ${known}`);
  }
  if (input.windWords !== null) parts.push(input.windWords);
  return `${parts.join(". ")}.`;
}
