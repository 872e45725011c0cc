/** Connections of a completed rig: places by code or class, lines, heights, with what was taken for granted. */
import type { Basis, Estimate } from "../units/estimate.ts";
import { pointer } from "../units/input-error.ts";
import { formatLength } from "../units/print.ts";
import type { QuantityRange } from "../units/schema.ts";
import type { CompletedConnection, RigLine, RigWall, Service } from "./completed.ts";
import { placeDefaults, powerCode, type SourcedRange, sewerWorking, tape } from "./defaults.ts";
import { assume, assumeRange, between, exact, shareOfLength, type Workbench } from "./estimates.ts";
import type { RigConnection, RigProfile } from "./schema.ts";
import { systemOfPlug } from "./vocabulary.ts";

/** Supply systems of 120 V begin so: 120/240, 120/208, 120. */
const ONE_TWENTY = "120";

/** Either spelling of a connection, before its gaps are filled. */
interface Draft {
  readonly path: string;
  readonly service: Service;
  readonly side: RigWall | undefined;
  readonly fields: Pick<
    RigConnection,
    "id" | "fromRear" | "left" | "height" | "plug" | "line" | "mayRunBeneath" | "basis" | "accuracy" | "accuracyShared"
  >;
}

function drafts(rig: RigProfile): Draft[] {
  const found: Draft[] = [];
  if (rig.power) {
    const { plug, cord, gauge, height, fromRear, side } = rig.power;
    const line = { length: cord, ...(gauge ? { gauge } : {}) };
    found.push({ path: "/power", service: "power", side, fields: { plug, height, fromRear, line } });
  }
  const shortLines = [
    ["waterHose", "water"],
    ["sewerHose", "sewer"],
    ["cableCord", "cable"],
  ] as const;
  for (const [key, service] of shortLines) {
    const length = rig[key];
    if (length !== undefined) found.push({ path: `/${key}`, service, side: undefined, fields: { line: { length } } });
  }
  (rig.connections ?? []).forEach((connection, index) => {
    const { service, side } = connection;
    found.push({ path: pointer(["connections", index]), service, side, fields: connection });
  });
  return found;
}

function isOneTwenty(plug: string | undefined, electricalSystem: string | null): boolean {
  const system = systemOfPlug(plug ?? null) ?? electricalSystem;
  return system?.startsWith(ONE_TWENTY) ?? false;
}

/** A given place or height: a range as it is, one value with the error of its survey (a tape's when none is told). */
function surveyed(draft: Draft, range: QuantityRange, field: string): Estimate {
  const path = `${draft.path}/${field}`;
  const { basis = "measured", accuracy, accuracyShared = 0 } = draft.fields;
  if (range.low !== range.high) {
    const ranged: Basis = basis === "code" || basis === "assumed" ? basis : "described";
    return between(range.low, range.high, path, ranged);
  }
  const sigma = accuracy ?? tape.value;
  return {
    ...exact(range.low, path, basis),
    sigma,
    sigmaShared: accuracyShared,
    ...(accuracyShared > 0 ? { survey: "rig" } : {}),
  };
}

function wallOf(draft: Draft, bench: Workbench, byCode: boolean): RigWall {
  if (draft.side) return draft.side;
  const source = byCode && bench.road === "left" ? powerCode.codeSide : placeDefaults[draft.service].side;
  assume(bench, `${draft.path}/side`, `${bench.road} (the road side)`, source);
  return bench.road;
}

function fromRearOf(draft: Draft, wall: RigWall, bench: Workbench, byCode: boolean): Estimate {
  const { fromRear } = draft.fields;
  if (fromRear) return surveyed(draft, fromRear, "fromRear");
  const path = `${draft.path}/fromRear`;
  if (wall === "rear") return exact(0, path);
  if (wall === "front") return bench.length;
  // The code's distance holds for the left wall; on another wall the rig was built under one of its exceptions.
  if (byCode && wall === "left" && bench.road === "left") {
    const { low, high, source } = powerCode.codeFromRear;
    return assumeRange(bench, path, { low, high: Math.min(high, bench.length.high), source }, "code");
  }
  return assumeRange(bench, path, shareOfLength(placeDefaults[draft.service].fromRearOfLength, bench.length));
}

/** A range of the road side's half of the rear wall, in the rig frame. */
function roadHalf(bench: Workbench, from: number, to: number, source: string): SourcedRange {
  return bench.road === "left" ? { low: from, high: to, source } : { low: 0 - to, high: 0 - from, source };
}

function leftOf(draft: Draft, wall: RigWall, bench: Workbench, byCode: boolean): Estimate {
  if (draft.fields.left) return surveyed(draft, draft.fields.left, "left");
  const path = `${draft.path}/left`;
  const { width } = bench;
  if (wall === "left" || wall === "right") {
    const sign = wall === "left" ? 1 : -1;
    const ends = [(sign * width.low) / 2, (sign * width.high) / 2];
    // Its path stays the width's: that is the value to measure when the offset decides.
    return {
      ...width,
      value: (sign * width.value) / 2,
      low: Math.min(...ends),
      high: Math.max(...ends),
      sigma: width.sigma / 2,
    };
  }
  const half = width.high / 2;
  if (wall === "rear" && byCode && bench.road === "left") {
    const { high: inset, source } = powerCode.codeRearInset;
    return assumeRange(bench, path, { low: width.low / 2 - inset, high: half, source }, "code");
  }
  return assumeRange(bench, path, roadHalf(bench, 0, half, placeDefaults[draft.service].side));
}

function heightOf(draft: Draft, bench: Workbench): Estimate | null {
  if (draft.fields.height) return surveyed(draft, draft.fields.height, "height");
  const { height } = placeDefaults[draft.service];
  return height ? assumeRange(bench, `${draft.path}/height`, height) : null;
}

/** Pointer of the label length: the short forms write it at another place than the full one. */
function linePath(draft: Draft): string {
  if (draft.path === "/power") return "/power/cord";
  return draft.path.startsWith("/connections/") ? `${draft.path}/line/length` : draft.path;
}

function lineOf(draft: Draft, bench: Workbench): RigLine | null {
  const { line } = draft.fields;
  if (!line) return null;
  const path = linePath(draft);
  const length = exact(line.length, path);
  let workingLength = length;
  if (line.workingLength !== undefined) {
    workingLength = exact(line.workingLength, `${draft.path}/line/workingLength`);
  } else if (draft.service === "sewer") {
    const value = line.length * sewerWorking.value;
    assume(bench, path, `works at ${formatLength(value, bench.units, { round: "down" })}`, sewerWorking.source);
    workingLength = { ...exact(value, path, "assumed"), source: sewerWorking.source };
  }
  return {
    length,
    workingLength,
    gauge: line.gauge ?? null,
    diameter: line.diameter ?? null,
    drinkingWater: line.drinkingWater ?? null,
    rating: line.rating?.value ?? null,
    fittings: line.fittings ?? 0,
  };
}

/** Notes the tape's error once for a connection that gives exact values without an accuracy. */
function noteTape(draft: Draft, bench: Workbench): void {
  const { basis = "measured", accuracy, fromRear, left, height } = draft.fields;
  if (basis !== "measured" || accuracy !== undefined) return;
  if (![fromRear, left, height].some((range) => range && range.low === range.high)) return;
  const value = `standard deviation ${formatLength(tape.value, bench.units, { round: "up" })}`;
  assume(bench, `${draft.path}/accuracy`, value, tape.source);
}

/** A free id: the service, then service-2 and so on. */
function idFor(service: Service, taken: Set<string>): string {
  let id: string = service;
  for (let number = 2; taken.has(id); number += 1) id = `${service}-${number}`;
  taken.add(id);
  return id;
}

/** Completes every connection of the record, short forms first. None is added that the record does not name. */
export function completeConnections(
  rig: RigProfile,
  bench: Workbench,
  electricalSystem: string | null,
): CompletedConnection[] {
  const taken = new Set((rig.connections ?? []).flatMap((one) => (one.id === undefined ? [] : [one.id])));
  return drafts(rig).map((draft) => {
    const byCode = draft.service === "power" && isOneTwenty(draft.fields.plug, electricalSystem);
    const wall = wallOf(draft, bench, byCode);
    const completed: CompletedConnection = {
      id: draft.fields.id ?? idFor(draft.service, taken),
      service: draft.service,
      wall,
      fromRear: fromRearOf(draft, wall, bench, byCode),
      left: leftOf(draft, wall, bench, byCode),
      height: heightOf(draft, bench),
      plug: draft.fields.plug ?? null,
      line: lineOf(draft, bench),
      mayRunBeneath: draft.fields.mayRunBeneath ?? false,
      path: draft.path,
    };
    noteTape(draft, bench);
    return completed;
  });
}
