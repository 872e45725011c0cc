/** Getting in and out on the wire: degrees for radians. */
import type * as z from "zod";
import type { ManoeuvreAnswer, ManoeuvreLeg } from "../fit/manoeuvre/answer.ts";
import { degreesOf } from "./degrees.ts";
import type { manoeuvreSchema } from "./schemas/manoeuvre.ts";

type Wire = z.output<typeof manoeuvreSchema>;

export function manoeuvreToWire(answer: ManoeuvreAnswer): Wire {
  return { ...answer, in: legToWire(answer.in), out: legToWire(answer.out) };
}

function legToWire(leg: ManoeuvreLeg): Wire["in"] {
  return {
    ...leg,
    hitchAngle: leg.hitchAngle === null ? null : degreesOf(leg.hitchAngle),
    moves: leg.moves.map((move) => ({ ...move, turn: degreesOf(move.turn) })),
  };
}
