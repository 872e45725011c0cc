/** What arrives at the rig: amperes, legs, volts and volt-amperes after the weakest link. */
import type { PowerDevice } from "./devices.ts";
import type { ChainLink } from "./problem.ts";
import { familyLimits, supplyLimits } from "./supply-limits.ts";
import { grouped, oneDecimal } from "./words.ts";

export interface Supply {
  /** Amperes per leg. */
  readonly amps: number;
  readonly legs: number;
  readonly voltsToNeutral: number;
  /** Null with one leg, and with two when nobody recorded the system. */
  readonly voltsLegToLeg: number | null;
  readonly voltAmperes: number;
  /** Amperes per leg for three hours or more; a planning rule, see data/supply-limits.json. */
  readonly continuousAmps: number;
  readonly continuousVoltAmperes: number;
  readonly weakestLink: string;
}

/**
 * Supply at the rig. `entering` is the device whose plug stands in the receptacle: the adapter's, else the rig's own.
 * Continuous amperes are the share of the system (80 % in 120 V practice) and never above a device's own rating.
 */
export function supplyOf(parts: {
  readonly plug: PowerDevice;
  readonly receptacle: PowerDevice;
  readonly entering: PowerDevice;
  readonly breaker: number;
  readonly legs: number;
  /** Amperes that the mating lets through. */
  readonly matedAmps: number;
  readonly links: readonly ChainLink[];
  readonly electricalSystem: string | null;
  readonly recordedVolts: number | null;
}): Supply {
  const { plug, receptacle, entering, legs } = parts;
  const limits = familyLimits(receptacle.system);
  const linkAmps = parts.links.flatMap((link) => link.amps ?? []);
  const amps = Math.min(parts.matedAmps, ...linkAmps);
  const deviceContinuous = Math.min(plug.continuousAmps, receptacle.continuousAmps, entering.continuousAmps);
  const continuousAmps = Math.min(amps * limits.continuousRatio, deviceContinuous);
  const volts = limits.voltsToNeutral;
  return {
    amps,
    legs,
    voltsToNeutral: volts,
    voltsLegToLeg: legs > 1 ? legToLeg(parts.electricalSystem, parts.recordedVolts) : null,
    voltAmperes: legs * amps * volts,
    continuousAmps,
    continuousVoltAmperes: legs * continuousAmps * volts,
    weakestLink: weakest(parts.links, plug, parts.breaker, amps),
  };
}

/** Volts from leg to leg by the campground's system, else as recorded at the receptacle; null when nobody said. */
function legToLeg(electricalSystem: string | null, recorded: number | null): number | null {
  const bySystem = electricalSystem === null ? null : (supplyLimits(electricalSystem)?.voltsLegToLeg ?? null);
  if (bySystem !== null) return bySystem;
  const band = familyLimits("120/240").plausible;
  const highestToNeutral = band[1] ?? Number.POSITIVE_INFINITY;
  return recorded !== null && recorded > highestToNeutral ? recorded : null;
}

function weakest(links: readonly ChainLink[], plug: PowerDevice, breaker: number, amps: number): string {
  if (amps >= plug.amps) return `the rig's own rating, ${plug.amps} A`;
  if (breaker <= amps) return `the receptacle's breaker, ${breaker} A`;
  const link = links.find((each) => each.amps !== null && each.amps <= amps);
  return link ? `${link.description} (${oneDecimal(amps)} A)` : `the receptacle, ${oneDecimal(amps)} A`;
}

/** "30 A on one leg, 3,600 VA; 24 A (2,880 VA) for three hours or more, a planning rule". */
export function supplySentence(supply: Supply): string {
  const legs = supply.legs > 1 ? "on each of two legs" : "on one leg";
  const across =
    supply.legs > 1
      ? supply.voltsLegToLeg === null
        ? "; nobody recorded whether 208 V or 240 V stand between the legs"
        : `; ${supply.voltsLegToLeg} V between the legs`
      : "";
  return (
    `The rig gets ${oneDecimal(supply.amps)} A ${legs} at ${supply.voltsToNeutral} V, ${grouped(supply.voltAmperes)} VA${across}. ` +
    `Plan on ${oneDecimal(supply.continuousAmps)} A, ${grouped(supply.continuousVoltAmperes)} VA, for three hours or more.`
  );
}
