/** The wind at a site as tables to read: the rose by direction, and the hours of a stay. */
import type { AwningHourAnswer, AwningWindAnswer, ExposureRose, WindAnswer } from "../fit/wind/answer.ts";
import type { SiteWind } from "../http/wind-case.ts";
import { formatPercent, formatSpeed, type UnitSystem } from "../units/print.ts";
import { WIND_FLAG_TEXTS } from "../wind/flags.ts";
import { barrierText } from "../wind/say.ts";
import { compassWord } from "../wind/sector.ts";
import { terrain } from "../wind/terrain.ts";
import { printable, section, table, wrap } from "./layout.ts";
import type { Style } from "./style.ts";

export interface WindReportOptions {
  readonly width: number;
  readonly style: Style;
  readonly campground: string;
}

const INDENT = "  ";
const BULLET = "  - ";
/** Columns of a bar that stands for all of a gust. */
const BAR = 20;
const PERCENT = 100;

export function windReport(found: SiteWind, { width, style, campground }: WindReportOptions): string[] {
  const { exposure } = found;
  const bullet = (text: string) => wrap(text, { width, first: BULLET });
  return [
    style.bold(printable(`Wind at site ${found.site.name}, ${campground}`)),
    "",
    ...wrap(found.headline, { width }),
    ...(exposure?.prevailing == null ? [] : wrap(exposure.prevailing.why, { width })),
    ...section(style.bold("What is left of a gust, by direction"), roseRows(found, width)),
    ...section(style.bold("Wind at the awning"), windRows(found.judged.wind, width)),
    ...section(style.bold("Hours of the stay"), stayRows(found, width)),
    ...section(style.bold("Not in the model"), found.notModelled.flatMap(bullet)),
    "",
    ...wrap(found.caution, { width }),
  ];
}

function roseRows({ exposureRose, azimuth, exposure, units }: SiteWind, width: number): string[] {
  if (exposureRose === null) return [];
  const prevailing = exposure?.prevailing?.from ?? null;
  const columns = [
    { title: "from" },
    { title: "left", align: "right" as const },
    { title: "" },
    { title: "level" },
    { title: "upwind", wraps: true as const },
  ];
  const rows = exposureRose.sectors.map((sector) => {
    const mark = prevailing !== null && compassWord(prevailing) === compassWord(sector.from) ? " P" : "";
    return [
      `${compassWord(sector.from)}${mark}`,
      formatPercent(sector.ratio, { round: "up" }).replace(/\.\d+/, ""),
      barOf(sector.ratio),
      sector.level,
      upwindWords(sector, units),
    ];
  });
  const awning =
    azimuth === null ? "Where the awning opens is not known." : `The awning opens towards ${compassWord(azimuth)}.`;
  const notes = [
    ...(prevailing === null ? [] : ["P: the prevailing wind on record."]),
    awning,
    ...exposureRose.flags.map((flag) => WIND_FLAG_TEXTS[flag]),
  ];
  return [...table(columns, rows, { width, indent: INDENT }), ...wrap(notes.join(" "), { width, first: INDENT })];
}

function barOf(ratio: number): string {
  const filled = Math.min(BAR, Math.ceil(ratio * BAR));
  return `${"#".repeat(filled)}${".".repeat(BAR - filled)}`;
}

function upwindWords(
  { category, by, confidence, shelter }: ExposureRose["sectors"][number],
  units: UnitSystem,
): string {
  const ground = terrain(category).words;
  if (by === null) return ground;
  const doubt = confidence === "low" ? ", a guess" : "";
  return `${ground}; ${barrierText(by, units)} takes ${Math.floor(shelter * PERCENT)} %${doubt}`;
}

function windRows(wind: AwningWindAnswer | null, width: number): string[] {
  if (wind === null) return [];
  const hour = wind.hour === null ? "" : `Worst hour ${wind.hour}. `;
  return [
    ...wrap(`${hour}Level ${wind.level}. ${wind.why}`, { width, first: INDENT }),
    ...wind.flags.flatMap(({ text }) => wrap(text, { width, first: BULLET })),
  ];
}

function stayRows({ wind, judged, units }: SiteWind, width: number): string[] {
  return wind === null || judged.hours === null ? [] : hourRows(wind, judged.hours, units, width);
}

/** The hours that differ from the one before in signal or level begin a row; the rest is told by its end. */
export function hourRows(
  asked: WindAnswer,
  hours: readonly AwningHourAnswer[],
  units: UnitSystem,
  width: number,
): string[] {
  const speed = (value: number | null) => (value === null ? "-" : formatSpeed(value, units, { round: "up" }));
  const columns = [
    { title: "begins" },
    { title: "hours", align: "right" as const },
    { title: "gust", align: "right" as const },
    { title: "awning", align: "right" as const },
    { title: "from" },
    { title: "level" },
    { title: "signal" },
  ];
  const changes = new Set(hours.map(offsetOf)).size > 1;
  const rows = grouped(hours).map((group) => {
    const [first] = group as [AwningHourAnswer, ...AwningHourAnswer[]];
    const most = (pick: (hour: AwningHourAnswer) => number | null) => {
      const known = group.map(pick).filter((value) => value !== null);
      return known.length === 0 ? null : Math.max(...known);
    };
    const words = [...new Set(group.flatMap(({ from }) => from.map(compassWord)))];
    return [
      localWords(first, changes),
      String(group.length),
      speed(most(({ gust }) => gust)),
      speed(most((hour) => hour.speed)),
      words.length === 0 ? "-" : words.length > MOST_DIRECTIONS ? "turning" : words.join(", "),
      first.level,
      first.signal,
    ];
  });
  return [
    ...table(columns, rows, { width, indent: INDENT }),
    ...restsOn(asked).flatMap((text) => wrap(text, { width, first: INDENT })),
  ];
}

/** A wind from more directions than these is told as turning. */
const MOST_DIRECTIONS = 2;
const YEAR_LENGTH = "YYYY-".length;
const MINUTE_LENGTH = "YYYY-MM-DDTHH:MM".length;
const offsetOf = ({ local }: AwningHourAnswer): string => local.slice(MINUTE_LENGTH);

/** The offset is told only where the clock changes within the stay: then an hour may come twice. */
function localWords(hour: AwningHourAnswer, changes: boolean): string {
  const text = hour.local.slice(YEAR_LENGTH, MINUTE_LENGTH).replace("T", " ");
  return changes ? `${text}${offsetOf(hour).replace(":00", "")}` : text;
}

function grouped(hours: readonly AwningHourAnswer[]): AwningHourAnswer[][] {
  const groups: AwningHourAnswer[][] = [];
  for (const hour of hours) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    if (last !== undefined && before?.signal === hour.signal && before.level === hour.level) last.push(hour);
    else groups.push([hour]);
  }
  return groups;
}

function restsOn({ forecast, problem, stay }: WindAnswer): string[] {
  return [
    ...(forecast === null
      ? []
      : [
          `${forecast.attribution.replace(/\.$/, "")}${forecast.issuedAt === null ? "" : `; made ${forecast.issuedAt}`}.`,
        ]),
    ...(problem === null ? [] : [problem.text]),
    ...(stay === null
      ? []
      : stay.timeZoneGiven
        ? [`Local time, ${stay.timeZone}.`]
        : ["The record names no time zone that is known: days and hours are counted in UTC."]),
    ...(forecast?.notes ?? []),
  ];
}
