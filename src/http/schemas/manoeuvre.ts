/** Getting in and out on the wire: angles in degrees. */
import * as z from "zod";
import { padPointSchema as point } from "./pad-point.ts";

const metres = (meaning: string) => z.number().meta({ description: `${meaning}, metres` });
const list = <T extends z.ZodType>(schema: T) => z.array(schema).readonly();
const gear = z.enum(["forward", "reverse"]);

const manoeuvreStatus = z.enum(["ok in one move", "needs a shunt", "unknown", "cannot"]).meta({
  id: "ManoeuvreStatus",
  description:
    "ok in one move: a path was found and is clear all along. needs a shunt: none was found in the family that is searched, which proves no no. cannot: physics; never said of a trailer.",
});

const leg = z
  .object({
    status: manoeuvreStatus,
    margin: metres("Least clearance along the path shown").nullable(),
    closest: z.object({ at: point, unit: z.string(), what: z.string() }).nullable().meta({
      description: "Where the least clearance occurs: place, vehicle, and what it is closest to.",
    }),
    overVerge: metres("How far a body hangs over the verge at most").nullable(),
    hitchAngle: z.number().nullable().meta({ description: "At the stance, degrees; null when nothing is drawn" }),
    moves: list(
      z.object({
        gear,
        steer: z.enum(["straight", "left", "right"]),
        distance: metres("Of the drawing vehicle's rear axle"),
        radius: metres("Of the rear axle").nullable(),
        turn: z.number().meta({ description: "Degrees" }),
      }),
    ),
    outlines: list(z.object({ unit: z.string(), gear, outline: list(point) })).meta({
      description: "Bodies at places along the path, in the order of driving.",
    }),
    track: list(point).meta({ description: "Middle of the drawing vehicle's rear axle, in the order of driving." }),
    why: z.string(),
  })
  .meta({ id: "ManoeuvreLeg", description: "One way: in or out." });

export const manoeuvreSchema = z
  .object({
    status: manoeuvreStatus,
    kind: z.enum(["back-in", "nose-in", "pull-through", "parallel"]).nullable(),
    coupling: z.object({
      state: z.enum(["alone", "stays coupled", "uncouple before the turn", "uncouple on the pad", "unknown"]),
      other: z.string().nullable(),
      why: z.string(),
      needs: list(z.string()).meta({ description: "Places that must be found before." }),
    }),
    in: leg,
    out: leg,
    roads: list(z.object({ end: z.enum(["exit", "rear"]), edges: list(list(point)), mouth: list(list(point)) })).meta({
      description: "Edges of the roads that were judged, and the sides of the way from the pad to each.",
    }),
    why: z.string(),
    measure: list(z.string()).meta({ description: "Fields whose measurement would tell more." }),
    assumed: list(z.object({ path: z.string(), value: z.string(), source: z.string() })),
    source: z.string(),
  })
  .meta({ id: "Manoeuvre", description: "Whether the rig gets from the road to its stance and out again." });
