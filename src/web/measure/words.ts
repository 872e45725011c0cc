/** Sentences of the walk. */
import type { PadPoint } from "../../geo/pad-frame.ts";
import { formatLength } from "../../units/print.ts";
import type { Units } from "../state/store.ts";
import type { Contradiction, Solved } from "./solve-walk.ts";
import { labelOf, type Walk } from "./walk.ts";

/** "4.90 m from the rear edge, 3.30 m left of the middle". */
export function placeWords({ along, left }: PadPoint, units: Units): string {
  const back = along < 0 ? " behind" : " from";
  const side = left < 0 ? "right" : "left";
  return `${formatLength(Math.abs(along), units)}${back} the rear edge, ${formatLength(Math.abs(left), units)} ${side} of the middle`;
}

/** What tells the first of two places from the second, in as few words as possible. */
export function differenceWords(one: PadPoint, other: PadPoint): string {
  if (one.along < 0 !== other.along < 0)
    return one.along < 0 ? "Behind the rear edge" : "On the exit's side of the rear edge";
  if (one.left < 0 !== other.left < 0) return one.left < 0 ? "Right of the pad's middle" : "Left of the pad's middle";
  if (Math.abs(one.along - other.along) > Math.abs(one.left - other.left))
    return one.along > other.along ? "Nearer to the exit" : "Nearer to the rear edge";
  return Math.abs(one.left) > Math.abs(other.left) ? "Further from the pad's middle" : "Nearer to the pad's middle";
}

export function contradictionWords(one: Contradiction, walk: Walk, units: Units): string {
  const off = formatLength(Math.abs(one.residual), units, { round: "up" });
  const way = one.residual > 0 ? "longer" : "shorter";
  const [from, to] = [labelOf(walk, one.from), labelOf(walk, one.to)];
  if (one.reading === null)
    return `The distances that were given for the ${from} from the pad's edges do not agree with the tapes, by ${off} towards the ${to}. Measure again?`;
  return `The tape from the ${from} to the ${to}, ${formatLength(one.distance, units)}, is ${off} ${way} than the others allow. Measure it again?`;
}

export function sizeWords(solved: Solved, units: Units): string {
  const { length, width } = solved;
  const one = (what: string, size: Solved["length"]) =>
    size === null
      ? `${what} not known yet`
      : `${what} ${formatLength(size.value, units)}${size.taped ? "" : ", as recorded"}`;
  return `Pad: ${one("length", length)}; ${one("width", width)}.`;
}
