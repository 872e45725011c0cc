/** How what was measured on a site joins the record that was there. */
import type { CampgroundFeature } from "../../site/feature.ts";

type Members = Readonly<Record<string, unknown>>;

const isObject = (value: unknown): value is Members =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const listOf = (value: unknown): readonly Members[] => (Array.isArray(value) ? value.filter(isObject) : []);

/** Entries of both lists by id, the measured ones over the recorded. Words and map places give way to the tape. */
function overlaid(recorded: readonly Members[], measured: readonly Members[]): Members[] {
  const byId = new Map(measured.map((entry) => [entry["id"], entry]));
  const kept = recorded.map((entry) => {
    const own = byId.get(entry["id"]);
    if (own === undefined) return entry;
    byId.delete(entry["id"]);
    const { place: _place, accuracyShared: _shared, ...rest } = entry;
    const { position: _position, ...at } = isObject(entry["at"]) ? entry["at"] : ({} as Members);
    return { ...rest, ...own, at: { ...at, ...(isObject(own["at"]) ? own["at"] : {}) } };
  });
  return [...kept, ...byId.values()];
}

/** The recorded site with what was measured in it; all else stays as it was. */
export function withRecord(recorded: CampgroundFeature, measured: CampgroundFeature): CampgroundFeature {
  const { properties: old } = recorded;
  const { pad, hookups, obstacles, measurements, marks, stop, observedAt } = measured.properties;
  return {
    ...recorded,
    properties: {
      ...old,
      ...(observedAt === undefined ? {} : { observedAt }),
      ...(isObject(pad) ? { pad: { ...(isObject(old["pad"]) ? old["pad"] : {}), ...pad } } : {}),
      ...(isObject(stop) ? { stop: { ...(isObject(old["stop"]) ? old["stop"] : {}), ...stop } } : {}),
      ...(hookups === undefined ? {} : { hookups: overlaid(listOf(old["hookups"]), listOf(hookups)) }),
      ...(obstacles === undefined ? {} : { obstacles: overlaid(listOf(old["obstacles"]), listOf(obstacles)) }),
      ...(measurements === undefined ? {} : { measurements }),
      ...(marks === undefined ? {} : { marks: overlaid(listOf(old["marks"]), listOf(marks)) }),
    },
  };
}
