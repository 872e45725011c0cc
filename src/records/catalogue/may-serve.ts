/** Whether a campground can have any site for a rig, from its envelope alone: false only when it surely has none. */
import type { FitOptions } from "../../fit/options.ts";
import { mate } from "../../fit/power/mating.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Envelope } from "./entry.ts";

/** Errors are allowed for to this many standard deviations. */
const SIGMAS = 4;

function low({ low: end, sigma, sigmaShared }: Estimate): number {
  return end - SIGMAS * Math.hypot(sigma, sigmaShared);
}

export function mayServe(envelope: Envelope, rig: CompletedRig, options: FitOptions): boolean {
  const { longestPad, highest, receptacles, sewer, power } = envelope;
  if (longestPad !== null && low(rig.length) > longestPad) return false;
  if (highest !== null && low(rig.height) > highest) return false;
  if (options.needs.sewer === "required" && !sewer) return false;
  if (options.needs.power !== "required") return true;
  if (!power) return false;
  if (receptacles === null) return true;
  const plug = rig.connections.find((connection) => connection.service === "power")?.plug ?? null;
  return receptacles.some((type) => !SURE.has(mate(plug, type, null).reason));
}

/** Reasons that hold whatever the breaker is and whatever adapters there are. */
const SURE: ReadonlySet<string> = new Set(["voltage", "no-ground", "no-neutral"]);
