/** What instruments, tape and level should show at this site. */
import levels from "../../../data/level-limits.json" with { type: "json" };
import pressures from "../../../data/pressure-bands.json" with { type: "json" };
import supplies from "../../../data/supply-limits.json" with { type: "json" };
import type { Fit } from "../../fit/answer.ts";
import type { CardReading } from "./card.ts";
import { amount, text } from "./messages.ts";
import { serviceName } from "./names.ts";
import { isAsked } from "./served.ts";
import type { Told } from "./told.ts";

type Supply = (typeof supplies.systems)[number];

/** The supply that these volts belong to; null for volts of no supply in the table. */
function supplyOf({ voltsToNeutral: volts }: Fit["power"]): Supply | null {
  if (volts === null) return null;
  const holds = ({ plausible }: Supply) => volts >= (plausible[0] ?? Infinity) && volts <= (plausible[1] ?? 0);
  return supplies.systems.find(holds) ?? null;
}

/** Lawful volts at the receptacle, rounded inwards; null when the supply is not known. */
export function supplyReading({ fit, speaker }: Told): CardReading | null {
  const supply = supplyOf(fit.power);
  if (supply === null) return null;
  const { lowest: low, highest: high, source, mark } = supply;
  const message = fit.power.legs === 2 ? "reading.volts-legs" : "reading.volts";
  const values = { low: amount("volts", low, "up"), high: amount("volts", high, "down") };
  return { id: "volts", text: speaker.say(message, values), low, high, unit: "V", source: `${source} (${mark})` };
}

function underLoad({ fit, speaker }: Told): CardReading[] {
  const supply = supplyOf(fit.power);
  if (supply === null) return [];
  const { watch, stop, thresholdSource: source } = supply;
  const words = speaker.say("reading.volts-rig", {
    watch: amount("volts", watch, "up"),
    stop: amount("volts", stop, "up"),
  });
  return [{ id: "volts-rig", text: words, low: watch, high: null, unit: "V", source }];
}

function waterPressure({ speaker }: Told): CardReading[] {
  const good = pressures.bands.findIndex(({ id }) => id === "good");
  const low = pressures.bands[good - 1]?.below ?? null;
  const high = pressures.bands[good]?.below ?? null;
  if (low === null || high === null) return [];
  const words = speaker.say("reading.pressure", { low: amount("pressure", low), high: amount("pressure", high) });
  const source = pressures.sources.map((one) => `${one.figure}: ${one.source} (${one.mark})`).join("; ");
  return [{ id: "pressure", text: words, low, high, unit: "Pa", source }];
}

function drainSlope({ fit, speaker }: Told): CardReading[] {
  const { slope, requiredSlope, source } = fit.sewer;
  if (slope === null || !Number.isFinite(slope)) return [];
  const words = speaker.say("reading.slope", {
    slope: amount("percent", slope, "down"),
    wanted: amount("percent", requiredSlope, "up"),
  });
  return [{ id: "slope", text: words, low: requiredSlope, high: null, unit: "ratio", source }];
}

function level({ speaker }: Told): CardReading[] {
  const { value, source } = levels.good;
  const words = speaker.say("reading.level", { good: amount("percent", value, "down") });
  return [{ id: "level", text: words, low: -value, high: value, unit: "ratio", source }];
}

/** A line's lengths as the tape has them: `low` is needed, `high` is there. */
function lineReadings({ fit, served, speaker }: Told): CardReading[] {
  return fit.lines.filter(isAsked).flatMap(({ service, needed, available, margin }) => {
    // On pressurised water nobody fills.
    if (!served.has(service) || (service === "fill" && served.has("water"))) return [];
    if (needed === null || available === null || margin === null) return [];
    const words = speaker.say("reading.line", {
      service: text(serviceName(service, speaker)),
      needed: amount("length", needed, "up"),
      available: amount("length", available, "down"),
      margin: amount("length", margin, "down"),
    });
    const source = "the answer's own reckoning";
    return [{ id: `line-${service}`, text: words, low: needed, high: available, unit: "m", source }];
  });
}

/** All readings of the card, in the order in which they are taken. */
export function readings(told: Told): CardReading[] {
  const { served, fit } = told;
  const supply = served.has("power") ? supplyReading(told) : null;
  return [
    ...(fit.level.blocks.length > 0 ? level(told) : []),
    ...(supply === null ? [] : [supply, ...underLoad(told)]),
    ...(served.has("water") ? waterPressure(told) : []),
    ...(served.has("sewer") ? drainSlope(told) : []),
    ...lineReadings(told),
  ];
}
