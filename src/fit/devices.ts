/** Hookup devices as solids: a pedestal or riser is in the way of the rig that it serves. */
import type { CompletedHookup, CompletedSite } from "../site/completed.ts";
import { nominal, type Pick } from "./lines/choice.ts";
import type { PadPoint } from "./stance/problem.ts";

export interface Device {
  readonly id: string;
  readonly service: CompletedHookup["service"];
  readonly outline: readonly PadPoint[];
  readonly centre: PadPoint;
  readonly depth: number;
  readonly height: number;
  /** False when the record gives no body and the usual size is assumed. */
  readonly given: boolean;
}

/** Usual sizes, metres: width across, depth along, height. Common practice, no source. */
const PEDESTAL = { width: 0.3, depth: 0.3, height: 1.2 };
const RISER = { width: 0.1, depth: 0.1, height: 0.9 };

function assumedBody(hookup: CompletedHookup): typeof PEDESTAL | null {
  switch (hookup.service) {
    case "power":
    case "cable":
      return PEDESTAL;
    case "water":
    case "fill":
      return RISER;
    case "sewer":
      // A drain's rim lies a hand's breadth above the ground; only a recorded body makes it a solid.
      return null;
  }
}

/** True when the place is a point: a region that is only described or coded is no solid. */
function isPoint(hookup: CompletedHookup): boolean {
  const { along, left } = hookup;
  return along !== null && left !== null && along.low === along.high && left.low === left.high;
}

/**
 * Solids at the site's hookups. `assumed` takes the usual size where the record has none, `given` only recorded
 * bodies, `ignore` none. Several hookups on one pedestal are one solid.
 */
export function devices(site: CompletedSite, mode: "assumed" | "given" | "ignore", pick: Pick = nominal): Device[] {
  if (mode === "ignore") return [];
  const seen = new Set<string>();
  const found: Device[] = [];
  for (const hookup of site.hookups) {
    if (!isPoint(hookup)) continue;
    const body = hookup.body ?? (mode === "assumed" ? assumedBody(hookup) : null);
    if (body === null) continue;
    const id = hookup.pedestal ?? hookup.id;
    if (seen.has(id)) continue;
    seen.add(id);
    // A pedestal that carries power is a power pedestal, whichever of its hookups is listed first.
    const withPower = site.hookups.some((one) => one.pedestal === hookup.pedestal && one.service === "power");
    const service = hookup.pedestal !== null && withPower ? "power" : hookup.service;
    const centre = { along: pick(hookup.along!), left: pick(hookup.left!) };
    found.push({
      id,
      service,
      centre,
      outline: rectangle(centre, body.depth, body.width),
      depth: body.depth,
      height: body.height,
      given: hookup.body !== null,
    });
  }
  return found;
}

function rectangle(centre: PadPoint, depth: number, width: number): PadPoint[] {
  const halfDepth = depth / 2;
  const halfWidth = width / 2;
  return [
    { along: centre.along - halfDepth, left: centre.left - halfWidth },
    { along: centre.along + halfDepth, left: centre.left - halfWidth },
    { along: centre.along + halfDepth, left: centre.left + halfWidth },
    { along: centre.along - halfDepth, left: centre.left + halfWidth },
  ];
}
