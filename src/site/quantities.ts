/** The one place where campsite records meet the quantity readers: SI numbers, or strings with their unit. */
export {
  angle,
  current,
  length,
  lengthOrRange,
  pressure,
  type QuantityRange,
  slope,
  voltage,
} from "../units/schema.ts";
