/** A ranked list of sites as a table. */
import type { AnswerLine, Fit, SiteVerdict } from "../fit/answer.ts";
import { type Say, sayer } from "../fit/say.ts";
import { PRECEDENCE } from "../fit/verdict.ts";
import { printable, table, wrap } from "./layout.ts";
import type { Style } from "./style.ts";

/** Best first. */
export const VERDICTS: readonly SiteVerdict[] = ["fits", ...PRECEDENCE.map(({ verdict }) => verdict).reverse()];

export function isVerdict(word: string): word is SiteVerdict {
  return (VERDICTS as readonly string[]).includes(word);
}

export type VerdictCounts = Readonly<Record<SiteVerdict, number>>;

export function countVerdicts(fits: readonly Fit[]): VerdictCounts {
  const entries = VERDICTS.map((verdict) => [verdict, fits.filter((fit) => fit.verdict === verdict).length] as const);
  return Object.fromEntries(entries) as Record<SiteVerdict, number>;
}

export interface SearchReportOptions {
  readonly width: number;
  readonly style: Style;
  readonly campground: string;
  readonly rig: string | null;
  readonly counts: VerdictCounts;
  /** Ids of features whose record was refused. */
  readonly refused: readonly (string | null)[];
}

export interface RankedFit {
  readonly fit: Fit;
  readonly rank: number;
}

export function searchReport(shown: readonly RankedFit[], options: SearchReportOptions): string[] {
  const { width, style, campground, rig, counts, refused } = options;
  const total = VERDICTS.reduce((sum, verdict) => sum + counts[verdict], 0);
  const summary = VERDICTS.filter((verdict) => counts[verdict] > 0).map((verdict) => `${counts[verdict]} ${verdict}`);
  const named =
    refused.length === 0 ? "" : ` Refused records: ${refused.map((id) => id ?? "one without an id").join(", ")}.`;
  return [
    style.bold(printable(rig === null ? campground : `${rig} at ${campground}`)),
    "",
    ...table(COLUMNS, shown.map(rowOf), { width }),
    "",
    ...wrap(`${total} sites: ${summary.join(", ")}. Shown: ${shown.length}.${named}`, { width }),
  ];
}

const COLUMNS = [
  { title: "#", align: "right" as const },
  { title: "site" },
  { title: "verdict" },
  { title: "margin", align: "right" as const },
  { title: "plug" },
  { title: "why", wraps: true as const },
];

const MATINGS: Readonly<Record<Fit["power"]["mating"], string>> = {
  direct: "direct",
  adapter: "adapter",
  "adapter with caution": "adapter!",
  refused: "refused",
  unknown: "unknown",
  none: "none",
};

function rowOf({ fit, rank }: RankedFit): string[] {
  const say = sayer(fit.units);
  const margin = leastMargin(fit);
  return [
    String(rank),
    fit.site.name,
    fit.verdict,
    margin === null ? "-" : say.length(margin, "down"),
    MATINGS[fit.power.mating],
    reasonOf(fit),
  ];
}

/** Least margin, at the stance shown, of the lines that reach and of those asked for as required. */
function leastMargin({ lines }: Fit): number | null {
  const counted = lines.filter(
    (line) => line.need === "required" || (line.need === "wanted" && line.verdict === "reaches"),
  );
  const margins = counted.map((line) => line.margin).filter((margin) => margin !== null);
  return margins.length === 0 ? null : Math.min(...margins);
}

const NOT_SERVED: ReadonlySet<AnswerLine["verdict"]> = new Set(["short", "tight", "unknown", "absent"]);

/** The check that made the verdict; for a rig that fits what to bring, or what of the wanted is not served. */
function reasonOf(fit: Fit): string {
  const say = sayer(fit.units);
  const status = PRECEDENCE.find(({ verdict }) => verdict === fit.verdict)?.status;
  const kit = [...new Set(fit.kit.map(({ description, where }) => `${description} (${where})`))];
  if (fit.verdict === "fits with kit" && kit.length > 0) return kit.join(", ");
  const decided = fit.checks.find((check) => check.deciding && check.status === status);
  if (decided !== undefined) {
    const line = fit.lines.find(({ service }) => decided.id === `${LINE_CHECK}${service}`);
    // Power that is there and must not be joined is told by its reason: the line alone would only say that it is absent.
    if (line?.service === "power" && fit.power.mating === "refused") return firstSentence(fit.power.why);
    return line === undefined ? firstSentence(decided.why) : lineReason(line, say);
  }
  const lacking = fit.lines.filter((line) => line.need === "wanted" && NOT_SERVED.has(line.verdict));
  return lacking.length === 0 ? "all asked lines reach" : lacking.map((line) => lineReason(line, say)).join(", ");
}

/** Checks of lines are called by this and the service. */
const LINE_CHECK = "line.";

function lineReason({ service, verdict, margin }: AnswerLine, say: Say): string {
  if (verdict === "absent") return `no ${service}`;
  if (margin === null || !Number.isFinite(margin) || verdict === "unknown") return `${service} ${verdict}`;
  if (margin >= 0) return `${service} ${verdict}, ${say.available(margin)} to spare`;
  return `${service} ${say.needed(-margin)} short${verdict === "tight" ? " when laid on the ground" : ""}`;
}

function firstSentence(text: string): string {
  return /^.*?\.(?= |$)/.exec(text)?.[0].slice(0, -1) ?? text;
}
