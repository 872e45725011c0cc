/** The JSON Schema of a rig record as it is written on the wire, made from the zod schema. */
import * as z from "zod";
import { rigObject } from "./schema.ts";

/** JSON Schema draft 2020-12 of the input; rules between fields are told by `parseRig` alone. */
export function rigJsonSchema() {
  return z.toJSONSchema(rigObject, { io: "input" });
}
