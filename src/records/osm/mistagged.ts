/**
 * Single pitches that are tagged as campgrounds (tourism=camp_site): a point whose name or reference is a bare number,
 * or, in a file of many nameless ones, every nameless point. Always by a stated rule, always reported.
 */
import table from "../../../data/osm-tags.json" with { type: "json" };
import type { Classified } from "./classify.ts";
import type { OsmNotes } from "./notes.ts";

export type CampSitesArePitches = "by-rule" | "always" | "never";

/** 7, 12A, B-3, #4: what stands on a pitch's post. */
const PITCH_NUMBER = /^#?([A-Z]{1,2}[\s-]?)?\d{1,4}([\s-]?[A-Z])?$/i;

export function takePitches(
  found: readonly Classified[],
  how: CampSitesArePitches,
  notes: OsmNotes,
): readonly Classified[] {
  if (how === "never") return found;
  const points = found.filter(isPointCampSite);
  const nameless = points.filter(({ element }) => nameOf(element.tags) === undefined);
  const crowd = nameless.length >= table.judgement.pitchesOfACrowd;
  return found.map((one) => {
    if (!isPointCampSite(one)) return one;
    const name = nameOf(one.element.tags);
    const numbered = name !== undefined && PITCH_NUMBER.test(name);
    if (how === "by-rule" && !numbered && !(crowd && name === undefined)) return one;
    const why = numbered
      ? `its name is the number ${name}`
      : how === "always"
        ? "the caller asked for it"
        : `it is one of ${nameless.length} nameless points`;
    const text = `tourism=camp_site was taken for a single pitch: ${why}. Is it one?`;
    notes.warn("taken-for-pitch", one.element.key, "tourism", text);
    return { ...one, role: "pitch" };
  });
}

function isPointCampSite({ role, element }: Classified): boolean {
  return (
    role === "campground" &&
    element.tags.get("tourism") === "camp_site" &&
    element.geometry?.type === "Point" &&
    !element.partial
  );
}

function nameOf(tags: ReadonlyMap<string, string>): string | undefined {
  const name = (tags.get("ref") ?? tags.get("name"))?.trim();
  return name === "" ? undefined : name;
}
