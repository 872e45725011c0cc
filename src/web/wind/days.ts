/** The invented days of wind that can be replayed at the invented campground. */
import breeze from "../../../data/demo/wind/afternoon-breeze.json" with { type: "json" };
import calm from "../../../data/demo/wind/calm.json" with { type: "json" };
import front from "../../../data/demo/wind/front.json" with { type: "json" };

export const REPLAYED = [
  { id: "calm", name: "Calm day", when: calm },
  { id: "afternoon-breeze", name: "Afternoon breeze", when: breeze },
  { id: "front", name: "Front passage", when: front },
] as const;

export function replayed(id: string) {
  return REPLAYED.find((day) => day.id === id) ?? null;
}
