/** Slides, doors, hot outlets and awnings of a completed rig. */
import type { Estimate } from "../units/estimate.ts";
import { RADIANS_PER_DEGREE } from "../units/factors.ts";
import { pointer } from "../units/input-error.ts";
import { formatDegrees } from "../units/print.ts";
import type { QuantityRange } from "../units/schema.ts";
import type { CompletedAwning, CompletedDoor, CompletedHotOutlet, CompletedSlideout, RigWall } from "./completed.ts";
import { awningDefaults, classDefaults, doorDefaults, slideDefaults } from "./defaults.ts";
import { assume, assumeRange, between, exact, given, shareOfLength, type Workbench } from "./estimates.ts";
import type { RigProfile } from "./schema.ts";

const NOT_RECORDED = "none recorded, so none is counted";

function listIds(prefix: string, entries: readonly { readonly id?: string | undefined }[]): string[] {
  const taken = new Set(entries.flatMap((entry) => (entry.id === undefined ? [] : [entry.id])));
  return entries.map((entry, index) => {
    if (entry.id !== undefined) return entry.id;
    let id = `${prefix}-${index + 1}`;
    while (taken.has(id)) id = `${id}-${prefix}`;
    taken.add(id);
    return id;
  });
}

/** Place along the wall; on the end walls it follows from the wall. */
function alongWall(place: QuantityRange | undefined, wall: RigWall, path: string, bench: Workbench): Estimate {
  if (place) return given(place, `${path}/fromRear`);
  return wall === "front" ? bench.length : exact(0, `${path}/fromRear`);
}

/** Right edge of a slide or awning on the rear wall, from the centreline; centred when nobody said. */
function acrossRear(left: QuantityRange | undefined, size: Estimate, path: string, bench: Workbench): Estimate {
  if (left) return given(left, `${path}/left`);
  assume(bench, `${path}/left`, "centred on the rear wall", "common practice, no source");
  return { ...size, value: 0 - size.value / 2, low: 0 - size.high / 2, high: 0 - size.low / 2, path: `${path}/left` };
}

/** Slides of the record; a rig whose record is silent has none, and says so. */
export function completeSlideouts(rig: RigProfile, bench: Workbench): CompletedSlideout[] {
  if (!rig.slideouts) assume(bench, "/slideouts", NOT_RECORDED, "common practice, no source");
  const slides = rig.slideouts ?? [];
  const ids = listIds("slide", slides);
  return slides.map((slide, index) => {
    const path = pointer(["slideouts", index]);
    const length = exact(slide.length, `${path}/length`);
    const bottom = slide.bottom
      ? given(slide.bottom, `${path}/bottom`)
      : assumeRange(bench, `${path}/bottom`, slideDefaults.bottom);
    const { low: least, high: most, source } = slideDefaults.topBelowRoof;
    const highest = bench.height.high - least;
    // The upper edge lies between the roof and the lower edge, however low the roof.
    const lowest = Math.min(Math.max(bench.height.low - most, bottom.high), highest);
    const top = slide.top
      ? given(slide.top, `${path}/top`)
      : assumeRange(bench, `${path}/top`, { low: lowest, high: highest, source });
    if (slide.required === undefined) {
      assume(bench, `${path}/required`, "needed open to live in the rig", "common practice, no source");
    }
    return {
      id: ids[index] ?? "",
      wall: slide.side,
      fromRear:
        slide.side === "rear"
          ? acrossRear(slide.left, length, path, bench)
          : alongWall(slide.fromRear, slide.side, path, bench),
      length,
      depth: exact(slide.depth, `${path}/depth`),
      bottom,
      top,
      required: slide.required ?? true,
      path,
    };
  });
}

/** Doors of the record; a rig whose record is silent has one somewhere on the kerb side. */
export function completeDoors(rig: RigProfile, bench: Workbench): CompletedDoor[] {
  const doors = rig.doors;
  if (!doors) {
    assume(bench, "/doors", `one on the ${bench.kerb} (the kerb side)`, doorDefaults.side);
    const { low, high, source } = doorDefaults.width;
    const width = between(low, high, "/doors", "assumed", source);
    const fromRear = between(0, Math.max(bench.length.high - low, 0), "/doors", "assumed", doorDefaults.side);
    return [{ id: "door-1", wall: bench.kerb, fromRear, width, given: false, path: "/doors" }];
  }
  const ids = listIds("door", doors);
  return doors.map((door, index) => {
    const path = pointer(["doors", index]);
    return {
      id: ids[index] ?? "",
      wall: door.side,
      fromRear: alongWall(door.fromRear, door.side, path, bench),
      width:
        door.width === undefined
          ? assumeRange(bench, `${path}/width`, doorDefaults.width)
          : exact(door.width, `${path}/width`),
      given: true,
      path,
    };
  });
}

/** Hot outlets of the record; silence is noted, because a line may then lie in hot air unseen. */
export function completeHotOutlets(rig: RigProfile, bench: Workbench): CompletedHotOutlet[] {
  if (!rig.hotOutlets) assume(bench, "/hotOutlets", NOT_RECORDED, "common practice, no source");
  const outlets = rig.hotOutlets ?? [];
  const ids = listIds("hot", outlets);
  return outlets.map((outlet, index) => {
    const path = pointer(["hotOutlets", index]);
    return {
      id: ids[index] ?? "",
      what: outlet.what,
      wall: outlet.side,
      fromRear: alongWall(outlet.fromRear, outlet.side, path, bench),
      path,
    };
  });
}

type GivenAwning = Omit<NonNullable<RigProfile["awnings"]>[number], "side"> & {
  readonly side?: "left" | "right" | "rear" | undefined;
};

function completeAwning(
  awning: GivenAwning,
  id: string,
  path: string,
  doorWall: "left" | "right",
  bench: Workbench,
): CompletedAwning {
  const { length: whole, height: roof } = bench;
  if (awning.side === undefined) assume(bench, `${path}/side`, `${doorWall} (the door side)`, awningDefaults.side);
  const wall = awning.side ?? doorWall;
  const length =
    awning.length === undefined
      ? assumeRange(bench, `${path}/length`, shareOfLength(awningDefaults.lengthOfLength, whole))
      : exact(awning.length, `${path}/length`);
  const place = (): Estimate => {
    if (wall === "rear") return acrossRear(awning.left, length, path, bench);
    if (awning.fromRear) return given(awning.fromRear, `${path}/fromRear`);
    const room = Math.max(whole.high - length.low, 0);
    return assumeRange(bench, `${path}/fromRear`, { low: 0, high: room, source: "common practice, no source" });
  };
  const rail = classDefaults[bench.rigClass].awningRail;
  const railHigh = Math.min(rail.high, roof.high);
  const { low, high, source } = awningDefaults.pitchDegrees;
  const pitch = (): Estimate => {
    if (awning.pitch !== undefined) return exact(awning.pitch, `${path}/pitch`);
    const words = `${formatDegrees(low * RADIANS_PER_DEGREE)} to ${formatDegrees(high * RADIANS_PER_DEGREE)}`;
    assume(bench, `${path}/pitch`, words, source);
    return between(low * RADIANS_PER_DEGREE, high * RADIANS_PER_DEGREE, `${path}/pitch`, "assumed", source);
  };
  return {
    id,
    wall,
    fromRear: place(),
    length,
    projection: exact(awning.projection, `${path}/projection`),
    height: awning.height
      ? given(awning.height, `${path}/height`)
      : assumeRange(bench, `${path}/height`, {
          low: Math.min(rail.low, railHigh),
          high: railHigh,
          source: rail.source,
        }),
    pitch: pitch(),
    windClass: awning.windClass ?? null,
    path,
  };
}

/** Awnings of the record, on the door's side when nobody said. */
export function completeAwnings(rig: RigProfile, doors: readonly CompletedDoor[], bench: Workbench): CompletedAwning[] {
  const sideDoor = doors.find((door) => door.wall === "left" || door.wall === "right")?.wall;
  const doorWall = sideDoor === "left" || sideDoor === "right" ? sideDoor : bench.kerb;
  if (rig.awning) return [completeAwning(rig.awning, "awning-1", "/awning", doorWall, bench)];
  if (!rig.awnings) assume(bench, "/awnings", NOT_RECORDED, "common practice, no source");
  const awnings = rig.awnings ?? [];
  const ids = listIds("awning", awnings);
  return awnings.map((awning, index) =>
    completeAwning(awning, ids[index] ?? "", pointer(["awnings", index]), doorWall, bench),
  );
}
