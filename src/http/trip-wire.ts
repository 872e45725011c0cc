/** From trips and desks inside to their answers on the wire: angles in degrees. */
import type { DeskPlan } from "../trip/desk/desk.ts";
import type { TripPlan } from "../trip/plan.ts";
import type { Blocking } from "../trip/settle.ts";
import { degreesOf } from "./degrees.ts";
import type { DeskAnswer } from "./schemas/desk.ts";
import type { TripAnswer } from "./schemas/trips.ts";
import { fitToWire } from "./wire.ts";

const degreesOrNull = (radians: number | null): number | null => (radians === null ? null : degreesOf(radians));

function blockingToWire({
  unit,
  value,
  limit,
  margin,
  ...rest
}: Blocking): TripAnswer["stops"][number]["blocking"] & {} {
  if (unit !== "rad") return { ...rest, value, limit, margin, unit };
  const turned = { value: degreesOrNull(value), limit: degreesOrNull(limit), margin: degreesOrNull(margin) };
  return { ...rest, ...turned, unit: "deg" };
}

export function tripToWire(plan: TripPlan): TripAnswer {
  const stops = plan.stops.map((stop) => ({
    ...stop,
    fit: stop.fit === null ? null : fitToWire(stop.fit),
    blocking: stop.blocking === null ? null : blockingToWire(stop.blocking),
  }));
  return { ...plan, stops };
}

export function deskToWire(plan: DeskPlan): DeskAnswer {
  const trips = plan.trips.map((trip) => ({
    ...trip,
    units: trip.units.map((cell) => ({ ...cell, blocking: cell.blocking.map(blockingToWire) })),
  }));
  return { ...plan, trips };
}
