/**
 * A rig profile after completion: every value that a fit needs, in SI, each with its basis. Made by `completeRig`;
 * nothing downstream reads the wire form. Rig frame: origin on the ground under the middle of the rear bumper,
 * `fromRear` forward, `left` towards the rig's own left, `up` height above the ground.
 */
import type { Assumption, Estimate, Warning } from "../units/estimate.ts";

export type RigClass =
  | "van"
  | "class-a"
  | "class-b"
  | "class-c"
  | "travel-trailer"
  | "fifth-wheel"
  | "truck-camper"
  | "folding-trailer";

export type Service = "power" | "water" | "fill" | "sewer" | "cable";
export type RigWall = "left" | "right" | "rear" | "front";

export interface RigLine {
  /** Label length, metres. */
  readonly length: Estimate;
  /** Length that may be counted on when stretched along the ground, metres (sewer: 0.9 of the label when unknown). */
  readonly workingLength: Estimate;
  /** Conductor: American gauge or square millimetres; null when unknown. */
  readonly gauge: { readonly awg: number } | { readonly squareMillimetres: number } | null;
  /** Inside diameter of a hose, metres; null when unknown. */
  readonly diameter: number | null;
  /** True, false, or null when nobody said. */
  readonly drinkingWater: boolean | null;
  /** Amperes of a cord, pascals of a hose; null when unknown. */
  readonly rating: number | null;
  /** Metres of run that fittings add to or take from the line (sewer elbow); default 0. */
  readonly fittings: number;
}

export interface CompletedConnection {
  readonly id: string;
  readonly service: Service;
  readonly wall: RigWall;
  readonly fromRear: Estimate;
  /** Offset from the centreline in the rig frame, metres. */
  readonly left: Estimate;
  /** Height above level ground, metres; null when unknown (a sewer outlet has no default). */
  readonly height: Estimate | null;
  /** Plug id of a power connection; null when unknown. */
  readonly plug: string | null;
  /** Null when the rig carries no line of its own for this connection. */
  readonly line: RigLine | null;
  readonly mayRunBeneath: boolean;
  /** JSON Pointer in the rig record. */
  readonly path: string;
}

/** A box that sticks out of a wall. Positions in the rig frame, metres. */
export interface CompletedSlideout {
  readonly id: string;
  readonly wall: "left" | "right" | "rear";
  /** Rear edge of the slide along the wall, or for a rear slide its right edge measured from the centreline. */
  readonly fromRear: Estimate;
  readonly length: Estimate;
  readonly depth: Estimate;
  readonly bottom: Estimate;
  readonly top: Estimate;
  /** False when the rig can be lived in with this slide closed. */
  readonly required: boolean;
  readonly path: string;
}

export interface CompletedDoor {
  readonly id: string;
  readonly wall: RigWall;
  readonly fromRear: Estimate;
  readonly width: Estimate;
  /** True when the record gave it; an assumed door never bars a line, it only decides which side is the door side. */
  readonly given: boolean;
  readonly path: string;
}

export interface CompletedHotOutlet {
  readonly id: string;
  readonly what: "furnace" | "water-heater" | "generator-exhaust" | "refrigerator";
  readonly wall: RigWall;
  readonly fromRear: Estimate;
  readonly path: string;
}

export interface CompletedAwning {
  readonly id: string;
  readonly wall: "left" | "right" | "rear";
  readonly fromRear: Estimate;
  readonly length: Estimate;
  readonly projection: Estimate;
  /** Height of the rail, metres. */
  readonly height: Estimate;
  /** Fall of the fabric from rail to front bar, radians. */
  readonly pitch: Estimate;
  /** EN 13561 wind class 0 to 6; null when unknown. */
  readonly windClass: number | null;
  readonly path: string;
}

export interface Appliance {
  readonly name: string;
  readonly watts: number;
  /** Watts for the moment of starting; null when unknown. */
  readonly starts: number | null;
  readonly fuel: "electric" | "gas" | "either";
  /** True for an appliance that needs both legs (240 V or 208 V). */
  readonly bothLegs: boolean;
}

/** A thing carried or stocked: see data/kit.json for the item words. */
export interface KitItem {
  readonly item: string;
  /** Plug that enters the site's receptacle (adapters, extensions, protectors). */
  readonly plug: string | null;
  /** Receptacle that takes the rig's plug or the next item. */
  readonly receptacle: string | null;
  /** Amperes of electric items; null when unknown. */
  readonly rating: number | null;
  /** Metres that it adds to the line; of an extension or hose its own length unless the record says otherwise. */
  readonly addsLength: number;
  readonly length: number | null;
  readonly gauge: { readonly awg: number } | { readonly squareMillimetres: number } | null;
  readonly where: "aboard" | "depot";
  readonly path: string;
}

export interface TowingSizes {
  readonly width?: number;
  /** Front to rear axle; of a trailer, coupling to the middle of its axles. */
  readonly wheelbase?: number;
  readonly rearOverhang?: number;
  readonly turningRadius?: number;
}

export interface CompletedRig {
  readonly id: string | null;
  readonly name: string | null;
  readonly class: RigClass;
  /** Foremost to rearmost point as a tape finds it, metres. */
  readonly length: Estimate;
  readonly width: Estimate;
  readonly height: Estimate;
  readonly wheelbase: Estimate;
  /** Rear axle (or middle of a trailer's axles) to the rearmost point, metres. */
  readonly rearOverhang: Estimate;
  readonly groundClearance: Estimate;
  /** Least radius of the outer front wheel's track, metres; absent when not given: there is a default by class. */
  readonly turningRadius?: number;
  /** The other vehicle; its sizes in metres, those that were given. */
  readonly towing:
    | ({
        readonly what: string;
        readonly length: Estimate | null;
        readonly coupling: string;
      } & TowingSizes)
    | null;
  readonly connections: readonly CompletedConnection[];
  readonly slideouts: readonly CompletedSlideout[];
  readonly doors: readonly CompletedDoor[];
  readonly hotOutlets: readonly CompletedHotOutlet[];
  readonly awnings: readonly CompletedAwning[];
  /** Litres; null when unknown. */
  readonly tanks: {
    readonly fresh: number | null;
    readonly grey: number | null;
    readonly black: number | null;
    readonly propane: number | null;
  };
  readonly appliances: readonly Appliance[];
  readonly generator: { readonly watts: number; readonly suppliesThrough: "transfer-switch" | "cord-in-box" } | null;
  readonly kit: readonly KitItem[];
  /** Largest slope that the rig may stand at, as a ratio; null when unknown. */
  readonly offLevelLimit: number | null;
  readonly assumed: readonly Assumption[];
  readonly warnings: readonly Warning[];
}
