/** From the rig profile to the completed rig: gaps filled by class and code, each said aloud. */
import type { Assumption, Estimate, Warning } from "../units/estimate.ts";
import { pointer } from "../units/input-error.ts";
import type { UnitSystem } from "../units/print.ts";
import { completeConnections } from "./complete-connections.ts";
import { completeAwnings, completeDoors, completeHotOutlets, completeSlideouts } from "./complete-parts.ts";
import type { Appliance, CompletedRig, KitItem, TowingSizes } from "./completed.ts";
import { classDefaults, leftTrafficPlugs, type SourcedRange } from "./defaults.ts";
import { assumeRange, exact, shareOfLength, type Workbench } from "./estimates.ts";
import type { RigProfile } from "./schema.ts";

export interface RigContext {
  /** Side of the road that the rig is built for; its connections are expected on that side, its door on the other. */
  readonly drivesOn?: "right" | "left";
  /** Supply system of the place ("120/240", "230"); counts only for a power connection whose plug is not known. */
  readonly electricalSystem?: string | null;
  /** Units of the sentences in `assumed`; default metric. */
  readonly units?: UnitSystem;
  /** Warnings of `parseRig`, kept with the completed rig. */
  readonly warnings?: readonly Warning[];
}

/** Without a word on the side of the road, a plug of a left-driving country tells it; otherwise right. */
function drivingSide(rig: RigProfile, context: RigContext): "right" | "left" {
  if (context.drivesOn) return context.drivesOn;
  const plugs = [rig.power?.plug, ...(rig.connections ?? []).map((connection) => connection.plug)];
  return plugs.some((plug) => plug !== undefined && leftTrafficPlugs.includes(plug)) ? "left" : "right";
}

function completeAppliances(rig: RigProfile): Appliance[] {
  return (rig.appliances ?? []).map(({ name, watts, starts, fuel, bothLegs }) => ({
    name,
    watts,
    starts: starts ?? null,
    fuel: fuel ?? "electric",
    bothLegs: bothLegs ?? false,
  }));
}

function completeKit(rig: RigProfile): KitItem[] {
  return (rig.kit ?? []).map(({ item, plug, receptacle, rating, addsLength, length, gauge, where }, index) => ({
    item,
    plug: plug ?? null,
    receptacle: receptacle ?? null,
    rating: rating ?? null,
    addsLength: addsLength ?? length ?? 0,
    length: length ?? null,
    gauge: gauge ?? null,
    where: where ?? "aboard",
    path: pointer(["kit", index]),
  }));
}

function towingSizes({
  width,
  wheelbase,
  rearOverhang,
  turningRadius,
}: NonNullable<RigProfile["towing"]>): TowingSizes {
  return {
    ...(width === undefined ? {} : { width }),
    ...(wheelbase === undefined ? {} : { wheelbase }),
    ...(rearOverhang === undefined ? {} : { rearOverhang }),
    ...(turningRadius === undefined ? {} : { turningRadius }),
  };
}

/**
 * Completes a rig. Body sizes and line lengths of the record count as exact; exact places of connections carry the
 * error of a tape unless the record tells another; what is missing becomes a range by class or code, or stays null
 * where no figure is published. Connections that the record does not name are not invented.
 */
export function completeRig(rig: RigProfile, context: RigContext = {}): CompletedRig {
  const assumed: Assumption[] = [];
  const units = context.units ?? "metric";
  const defaults = classDefaults[rig.class];
  const length = exact(rig.length, "/length");
  const known = (value: number | undefined, path: string, range: SourcedRange): Estimate =>
    value === undefined ? assumeRange({ assumed, units }, path, range) : exact(value, path);
  const width = known(rig.width, "/width", defaults.width);
  const height = known(rig.height, "/height", defaults.height);
  const wheelbase = known(rig.wheelbase, "/wheelbase", shareOfLength(defaults.wheelbaseOfLength, length));
  const rearOverhang = known(rig.rearOverhang, "/rearOverhang", shareOfLength(defaults.rearOverhangOfLength, length));
  const groundClearance = known(rig.groundClearance, "/groundClearance", defaults.groundClearance);
  const drivesOn = drivingSide(rig, context);
  const bench: Workbench = {
    rigClass: rig.class,
    road: drivesOn === "right" ? "left" : "right",
    kerb: drivesOn,
    length,
    width,
    height,
    units,
    assumed,
  };
  const connections = completeConnections(rig, bench, context.electricalSystem ?? null);
  const slideouts = completeSlideouts(rig, bench);
  const doors = completeDoors(rig, bench);
  const hotOutlets = completeHotOutlets(rig, bench);
  const awnings = completeAwnings(rig, doors, bench);
  return {
    id: rig.id ?? null,
    name: rig.name ?? null,
    class: rig.class,
    length,
    width,
    height,
    wheelbase,
    rearOverhang,
    groundClearance,
    ...(rig.turningRadius === undefined ? {} : { turningRadius: rig.turningRadius }),
    towing: rig.towing
      ? {
          what: rig.towing.what,
          length: rig.towing.length === undefined ? null : exact(rig.towing.length, "/towing/length"),
          coupling: rig.towing.coupling,
          ...towingSizes(rig.towing),
        }
      : null,
    connections,
    slideouts,
    doors,
    hotOutlets,
    awnings,
    tanks: {
      fresh: rig.tanks?.fresh ?? null,
      grey: rig.tanks?.grey ?? null,
      black: rig.tanks?.black ?? null,
      propane: rig.tanks?.propane ?? null,
    },
    appliances: completeAppliances(rig),
    generator: rig.generator ?? null,
    kit: completeKit(rig),
    offLevelLimit: rig.limits?.offLevel ?? null,
    assumed,
    warnings: context.warnings ?? [],
  };
}
