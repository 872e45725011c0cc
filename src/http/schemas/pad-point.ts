/** A point of the pad frame, as every part of the answer writes it. */
import * as z from "zod";

export const padPointSchema = z.object({ along: z.number(), left: z.number() }).meta({
  id: "PadPoint",
  description: "A point in the pad frame, metres: along from the pad's rear edge, left of its axis.",
});
