/** The answer to one rig on one site as a report to read: the same numbers and sentences as in the JSON. */
import { stanceLine } from "../draw/describe.ts";
import { windowText } from "../draw/measures.ts";
import type { AnswerLine, Fit } from "../fit/answer.ts";
import { type Say, sayer } from "../fit/say.ts";
import { formatDegrees, formatPercent } from "../units/print.ts";
import { powerRows, waterAndSewerRows } from "./fit-services.ts";
import { printable, section, table, wrap } from "./layout.ts";
import type { Style } from "./style.ts";
import { hourRows } from "./wind-report.ts";

export interface ReportOptions {
  readonly width: number;
  readonly style: Style;
  /** Lists every check, assumption, remark and source. */
  readonly verbose: boolean;
  /** Name of the campground; null when it has none. */
  readonly campground: string | null;
}

const INDENT = "  ";
const BULLET = "  - ";

export function fitReport(fit: Fit, options: ReportOptions): string[] {
  const { width, style, verbose } = options;
  const say = sayer(fit.units);
  const bullet = (text: string) => wrap(text, { width, first: BULLET });
  return [
    ...head(fit, options),
    ...section(style.bold("Stance"), stanceRows(fit, width)),
    ...section(style.bold("Lines"), lineRows(fit.lines, say, options)),
    ...section(
      style.bold("Kit"),
      fit.kit.flatMap(({ where, description, why, withoutIt }) =>
        bullet(`${where}: ${description}. ${why} Without it: ${withoutIt}`),
      ),
    ),
    ...section(
      style.bold("What would change the answer"),
      fit.fixes.flatMap((fix) =>
        bullet(`${fix.title} -> ${fix.verdictAfter}${fix.free ? " (costs nothing)" : ""}. ${fix.why}`),
      ),
    ),
    ...section(style.bold("Measure first"), measureRows(fit, width)),
    ...section(style.bold("Power"), powerRows(fit, { width, say, verbose })),
    ...section(style.bold("Water and sewer"), waterAndSewerRows(fit, { width, say, verbose })),
    ...section(style.bold("Level"), levelRows(fit, say, width)),
    ...section(style.bold("Getting in and out"), fit.manoeuvre === null ? [] : bullet(fit.manoeuvre.why)),
    ...section(style.bold("Awning and wind"), awningRows(fit, width)),
    ...section(style.bold(verbose ? "Checks" : "Checks that are not a plain pass"), checkRows(fit, options)),
    ...section(
      style.bold("Remarks on the records"),
      fit.warnings.flatMap((one) => bullet(`${one.path}: ${one.text}`)),
    ),
    ...section(
      style.bold("Cautions"),
      fit.cautions.flatMap(({ text }) => bullet(text)),
    ),
    ...section(
      style.bold("Not checked"),
      fit.notChecked.flatMap(({ why }) => bullet(why)),
    ),
    ...tail(fit, options),
  ];
}

function head(fit: Fit, { width, style, campground }: ReportOptions): string[] {
  const place = campground ?? fit.site.campground;
  const site = place === null ? fit.site.name : `${fit.site.name}, ${place}`;
  const rig = fit.rig.name ?? fit.rig.id;
  return [
    style.bold(printable(`Site ${site}`)),
    ...(rig === null ? [] : wrap(`Rig: ${rig}`, { width })),
    "",
    style.verdict(fit.verdict, fit.verdict.toUpperCase()),
    ...wrap(fit.headline, { width }),
    ...certaintyRows(fit, width),
  ];
}

function certaintyRows(fit: Fit, width: number): string[] {
  const parts: string[] = [];
  if (fit.probability !== undefined && fit.probability > 0 && fit.probability < 1) {
    parts.push(
      `Laid as they should lie, all required lines are served with a probability of ${formatPercent(fit.probability, { round: "down" })}.`,
    );
  }
  if (!fit.proven) {
    parts.push("Not proven: a better stance may exist; the search ended before it could rule that out.");
  }
  return parts.length === 0 ? [] : wrap(parts.join(" "), { width });
}

function stanceRows(fit: Fit, width: number): string[] {
  const yaw = fit.stance === null || fit.stance.yaw === 0 ? "" : ` Turned ${formatDegrees(fit.stance.yaw)}.`;
  const rows = wrap(`${stanceLine(fit, fit.units)}${yaw}`, { width, first: INDENT });
  if (fit.window === null) return rows;
  const words = `Window: ${windowText(fit.window, fit.stance, fit.units)}. ${fit.window.why}`;
  const sides = "Left and right are those of someone looking from the rear edge to the exit.";
  return [...rows, ...wrap(`${words} ${sides}`, { width, first: INDENT })];
}

/** A margin rounds down, so that what is missing is never shown smaller than it is. */
const marginText = (margin: number | null, say: Say): string => (margin === null ? "-" : say.length(margin, "down"));

function lineRows(lines: readonly AnswerLine[], say: Say, { width, verbose }: ReportOptions): string[] {
  const shown = lines.filter((line) => verbose || line.verdict !== "not needed");
  const rows = shown.map((line) => [
    line.service,
    line.need,
    line.needed === null ? "-" : say.needed(Math.max(0, line.needed)),
    line.available === null ? "-" : say.available(line.available),
    marginText(line.margin, say),
    line.verdict,
  ]);
  const columns = [
    { title: "service" },
    { title: "asked" },
    { title: "needed", align: "right" as const },
    { title: "available", align: "right" as const },
    { title: "margin", align: "right" as const },
    { title: "verdict" },
  ];
  // That a wanted service is not there is said by the table; everything else that does not reach is explained.
  const isPlain = ({ verdict, need }: AnswerLine) =>
    verdict === "reaches" || (verdict === "absent" && need !== "required");
  const told = shown.filter((line) => verbose || !isPlain(line));
  return [
    ...table(columns, rows, { width, indent: INDENT }),
    ...told.flatMap((line) => wrap(line.why, { width, first: `${INDENT}${line.service}: `, rest: INDENT.repeat(2) })),
  ];
}

function levelRows(fit: Fit, say: Say, width: number): string[] {
  const blocks = fit.level.blocks.map(({ wheel, height }) => `${wheel} ${say.fine(height, "up")}`);
  const words = blocks.length === 0 ? "" : ` Blocks: ${blocks.join(", ")}.`;
  return wrap(`${fit.level.why}${words}`, { width, first: INDENT });
}

/** What was asked about the wind; without a question the exposure stands among the checks. */
function awningRows(fit: Fit, width: number): string[] {
  const asked = fit.wind;
  if (asked === null) return [];
  return fit.awning.flatMap(({ id, wind, hours }) => {
    const hour = wind?.hour == null ? "" : `worst hour ${wind.hour}, `;
    const told =
      wind === null ? (asked.problem?.text ?? "no wind is known.") : `${hour}level ${wind.level}. ${wind.why}`;
    return [
      ...wrap(`${id}: ${told}`, { width, first: INDENT, rest: INDENT.repeat(2) }),
      ...(hours === null ? [] : hourRows(asked, hours, fit.units, width)),
    ];
  });
}

function checkRows({ checks }: Fit, { width, verbose }: ReportOptions): string[] {
  const shown = checks.filter(({ status }) => verbose || (status !== "pass" && status !== "not applicable"));
  if (shown.length === 0) return [`${INDENT}None.`];
  return shown.flatMap(({ id, status, family, deciding, why, change, source }) => {
    const weight = deciding ? "deciding" : "informs";
    const more = [change === undefined ? "" : ` ${change}`, verbose ? ` Limit from: ${source}.` : ""].join("");
    return wrap(`${id}: ${status} (${family}, ${weight}). ${why}${more}`, { width, first: BULLET });
  });
}

function measureRows(fit: Fit, width: number): string[] {
  return fit.unknowns.flatMap(({ measure, decides, weight }) => {
    const share = weight === null ? "nothing can be said without it" : `carries ${formatPercent(weight)} of the doubt`;
    return wrap(`${measure}: ${share} (${decides.join(", ")}).`, { width, first: BULLET });
  });
}

function tail(fit: Fit, { width, style, verbose }: ReportOptions): string[] {
  const { assumed, sources } = fit;
  if (!verbose) {
    const count = assumed.length === 1 ? "One value is assumed" : `${assumed.length} values are assumed`;
    const words = `${assumed.length === 0 ? "Nothing is assumed" : count}; ${sources.length} sources. --verbose lists them.`;
    return ["", ...wrap(words, { width })];
  }
  return [
    ...section(
      style.bold("Assumed"),
      assumed.flatMap(({ path, value, source }) => wrap(`${path}: ${value} (${source})`, { width, first: BULLET })),
    ),
    ...section(
      style.bold("Sources"),
      sources.flatMap((source) => wrap(source, { width, first: BULLET })),
    ),
    "",
    `Rules and formulas: version ${fit.engineVersion}.`,
  ];
}
