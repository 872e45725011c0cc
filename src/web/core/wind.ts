/** The wind at the site last answered: its rose, and what a wind or a stay means for each awning. */
import { drawWindRose } from "../../draw/rose.ts";
import { ROSE_KEY, roseNotes } from "../../draw/rose-notes.ts";
import type { Fit } from "../../fit/answer.ts";
import type { FitInput } from "../../fit/arrange.ts";
import { windOfFit } from "../../fit/wind/of-fit.ts";
import { roseQuery } from "../../fit/wind/rose-query.ts";
import { type When, whenAsked, whenSchema } from "../../fit/wind/when.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import { RADIANS_PER_DEGREE } from "../../units/factors.ts";
import { AWNING_CAUTION } from "../../wind/flags.ts";
import type { Rose } from "../../wind/rose.ts";
import { compassWord } from "../../wind/sector.ts";
import type { WindAsked, WindAwning, WindTold } from "./protocol.ts";

/** The server answers for dates: it alone has a forecast. */
const NEEDS_SERVER = "This device has no forecast of its own.";

type ReadWhen = { readonly ok: true; readonly when: When | null } | { readonly ok: false; readonly message: string };

function readWhen(written: unknown, now: number): ReadWhen {
  if (written === null) return { ok: true, when: null };
  const read = whenSchema.safeParse(written);
  if (!read.success) return { ok: false, message: read.error.issues[0]?.message ?? "This wind cannot be read." };
  const asked = whenAsked(read.data);
  if (asked.kind === "wind") return { ok: true, when: asked };
  const { from, to } = asked;
  if (asked.kind === "forecast") {
    return {
      ok: true,
      when: { kind: "stay", from, to, forecast: asked.forecast, problem: null, now: asked.asOf ?? now },
    };
  }
  const problem = { code: "no-forecast", text: NEEDS_SERVER };
  return { ok: true, when: { kind: "stay", from, to, forecast: null, problem, now } };
}

/** Bearings that the wind asked about comes from, so that the rose can mark them. */
function bearingsOf(awning: Fit["awning"]): readonly number[] {
  return [...new Set(awning.flatMap((one) => one.wind?.from ?? []))];
}

function askedOf(rig: CompletedRig, index: number, azimuth: number | null): WindAwning["asked"] {
  const windClass = rig.awnings[index]?.windClass ?? null;
  const { height } = roseQuery(rig, null);
  return {
    ...(azimuth === null ? {} : { azimuth: azimuth / RADIANS_PER_DEGREE }),
    ...(windClass === null ? {} : { class: windClass }),
    ...(height === undefined ? {} : { height }),
  };
}

/**
 * Gives a message in place of the answer when the wind cannot be read.
 *
 * @param roseFor The rose of the site in the season of the days asked about.
 */
export function windAt(
  input: FitInput,
  fit: Fit,
  asked: WindAsked,
  now: number,
  roseFor: (when: When | null) => Rose | null,
): WindTold | string {
  const read = readWhen(asked.when, now);
  if (!read.ok) return read.message;
  const { when } = read;
  const { exposure, exposureRose, wind, awning } = windOfFit(
    { ...input, when, rose: roseFor(when), options: { ...input.options, detail: "full" } },
    fit.awning,
    fit.stance,
  );
  const { units } = input.options;
  const prevailing = exposure?.prevailing ?? null;
  const facts = {
    awning: awning[0]?.azimuth ?? null,
    prevailing: prevailing?.from ?? null,
    forecast: asked.marked ?? bearingsOf(awning),
  };
  const rose = exposureRose && {
    svg: drawWindRose(exposureRose, { ...facts, name: fit.site.name, units, widthPx: asked.roseWidth, bare: true }),
    notes: roseNotes(exposureRose, facts, units),
    key: ROSE_KEY,
  };
  return {
    rose,
    prevailing: prevailing === null ? null : compassWord(prevailing.from),
    exposure: exposure === null ? [] : [exposure.why, ...(prevailing === null ? [] : [prevailing.why])],
    wind,
    awnings: awning.map((one, index) => ({
      id: one.id,
      wind: one.wind,
      hours: one.hours,
      asked: askedOf(input.rig, index, one.azimuth),
    })),
    caution: AWNING_CAUTION,
  };
}
