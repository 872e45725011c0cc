/** What is stated of a mark in words: its side and third of the pad. Decides between two places. */
import type { PadPoint } from "../../geo/pad-frame.ts";

export interface Wish {
  readonly side: "left" | "right" | null;
  readonly third: "behind" | "rear" | "middle" | "front" | "ahead" | null;
}

/** Metres by which a place may pass a stated border: words are not that sharp. */
const SLACK = 0.5;

/** True when the place agrees with the words; without a pad length only the rear edge decides. */
export function fits(place: PadPoint, wish: Wish | undefined, length: number | null): boolean {
  if (wish === undefined) return true;
  if (wish.side === "left" && place.left < 0) return false;
  if (wish.side === "right" && place.left > 0) return false;
  const behind = place.along < -SLACK;
  const ahead = length !== null && place.along > length + SLACK;
  switch (wish.third) {
    case null:
      return true;
    case "behind":
      return place.along < SLACK;
    case "ahead":
      return length === null || place.along > length - SLACK;
    default:
      return !behind && !ahead;
  }
}
