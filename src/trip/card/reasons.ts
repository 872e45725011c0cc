/** Why a service stays off and why a verdict is no plain yes, from the fields of lines and checks. */
import type { AnswerLine, Check, Fit } from "../../fit/answer.ts";
import { PRECEDENCE } from "../../fit/verdict.ts";
import type { Service } from "../../rig/completed.ts";
import type { CardNote } from "./card.ts";
import { amount, type Speaker, text, type Value } from "./messages.ts";
import { serviceName } from "./names.ts";
import type { Bar } from "./served.ts";
import { ownNote } from "./told.ts";

/** Reasons that are printed; the full answer has them all. */
const MOST_REASONS = 4;

/** What the verdict of a line says, for a line that may not be joined. */
function lineReason(line: AnswerLine, speaker: Speaker): string {
  const missing = line.margin !== null && line.margin < 0 && Number.isFinite(line.margin) ? -line.margin : null;
  switch (line.verdict) {
    case "short":
      return missing === null
        ? speaker.say("reason.short-plain")
        : speaker.say("reason.short", { missing: amount("length", missing, "up") });
    case "tight":
      return missing === null
        ? speaker.say("reason.line-unknown")
        : speaker.say("reason.hangs", { missing: amount("length", missing, "up") });
    case "absent":
      return speaker.say("reason.absent");
    default:
      return speaker.say("reason.line-unknown");
  }
}

function drainReason({ sewer }: Fit, speaker: Speaker): string {
  if (sewer.status === "uphill") return speaker.say("reason.sewer-uphill");
  if (sewer.status !== "poor" || sewer.slope === null) return speaker.say("reason.sewer-none");
  const wanted = amount("percent", sewer.requiredSlope, "up");
  return speaker.say("reason.sewer-poor", { slope: amount("percent", sewer.slope, "down"), wanted });
}

function matingReason({ power }: Fit, speaker: Speaker): string {
  if (power.mating === "refused") return speaker.say("reason.mating-refused");
  return speaker.say(power.mating === "unknown" ? "reason.mating-unknown" : "reason.mating-none");
}

/** Why a service is not joined. */
export function barReason(fit: Fit, bar: Bar, speaker: Speaker): string {
  switch (bar.kind) {
    case "line":
      return lineReason(bar.line, speaker);
    case "check":
      return checkReason(bar.check, speaker);
    case "mating":
      return matingReason(fit, speaker);
    case "drain":
      return drainReason(fit, speaker);
    case "drop":
      return speaker.say("reason.drop", { volts: amount("volts", fit.power.drop?.voltsAtRigFromLowest ?? 0, "down") });
  }
}

/** The margin of a check in words; null when it has none that words can carry. */
function marginOf({ margin, unit }: Check, speaker: Speaker): string | null {
  if (margin === null || !Number.isFinite(margin)) return null;
  const round = margin < 0 ? "up" : "down";
  const size = Math.abs(margin);
  const kinds: Readonly<Partial<Record<NonNullable<Check["unit"]>, Value["kind"]>>> = {
    m: "length",
    A: "amps",
    V: "volts",
    VA: "voltamperes",
    Pa: "pressure",
    ratio: "percent",
  };
  const kind = unit === null ? undefined : kinds[unit];
  return kind === undefined ? null : speaker.print({ kind, value: size, round } as Value);
}

function checkReason(check: Check, speaker: Speaker): string {
  // A local rule has a check of its own for each thing that it asks: `drain-rule.rim`.
  const keys = [`check.${check.id}`, `check.${check.id.split(".")[0]}`, "check.other"];
  const name = text(speaker.say(keys.find((key) => speaker.has(key)) ?? "check.other"));
  const margin = marginOf(check, speaker);
  if (check.status === "unknown") return speaker.say("reason.check-unknown", { check: name });
  if (check.status === "tight")
    return margin === null || (check.margin ?? 0) < 0
      ? speaker.say("reason.check-tight", { check: name })
      : speaker.say("reason.check-tight-spare", { check: name, margin: text(margin) });
  return margin === null || (check.margin ?? 0) >= 0
    ? speaker.say("reason.check-fail", { check: name })
    : speaker.say("reason.check-fail-missing", { check: name, missing: text(margin) });
}

/** A deciding check as a reason: that of a line or of power in their own words. */
function decidingReason(fit: Fit, check: Check, speaker: Speaker): string {
  const line = fit.lines.find(({ service }) => check.id === `line.${service}`);
  const why =
    line !== undefined && check.status !== "tight"
      ? lineReason(line, speaker)
      : check.id === "power.mating"
        ? matingReason(fit, speaker)
        : null;
  if (why === null) return checkReason(check, speaker);
  const service: Service = line?.service ?? "power";
  return speaker.say("reason.line", { service: text(serviceName(service, speaker)), why: text(why) });
}

/** The checks that made the verdict, the first of them. */
export function verdictReasons(fit: Fit, speaker: Speaker): CardNote[] {
  const status = PRECEDENCE.find(({ verdict }) => verdict === fit.verdict)?.status;
  const made = fit.checks.filter((check) => check.deciding && check.status === status);
  const notes = new Map(
    made.map((check) => {
      const words = decidingReason(fit, check, speaker);
      return [words, ownNote(check.id, words)] as const;
    }),
  );
  if (notes.size === 0) return [ownNote("none", speaker.say("reason.none"))];
  return [...notes.values()].slice(0, MOST_REASONS);
}
