/**
 * A campsite record after completion: pad frame metres, radians, each value with its basis. Made by `completeSite`;
 * nothing downstream reads the wire form. Pad frame: origin at the middle of the pad's rear edge on its surface,
 * `along` to the exit, `left` to the left of someone looking along `along`, lengths measured on the surface.
 */
import type { Assumption, Estimate, Warning } from "../units/estimate.ts";

export type Layout = "back-in" | "pull-through" | "parallel";
export type Known = "yes" | "no" | "unknown";
export type Service = "power" | "water" | "fill" | "sewer" | "cable";

export interface PadPointLike {
  readonly along: number;
  readonly left: number;
}

export interface CompletedReceptacle {
  readonly id: string;
  /** Receptacle id of the vocabulary, or the record's own word when it is none of them. */
  readonly type: string;
  /** Breaker rating, amperes; the receptacle's rating when the record gives none (then `ampsGiven` is false). */
  readonly amps: number | null;
  readonly ampsGiven: boolean;
  /** Volts to neutral or across, as recorded; null when unknown. */
  readonly volts: number | null;
  readonly state: "working" | "failed" | "taken" | "unknown";
  readonly checkedAt: string | null;
  /** Sites this receptacle is allotted to; null when the record does not say. */
  readonly forSites: readonly string[] | null;
  readonly path: string;
}

export interface CompletedHookup {
  readonly id: string;
  readonly service: Service;
  /** Null when nobody knows where it is and no named siting code places it. */
  readonly along: Estimate | null;
  readonly left: Estimate | null;
  /** Height of the receptacle, outlet or rim above its ground, metres; null when unknown. */
  readonly height: Estimate | null;
  /** Its solid body, metres; null when the record gives none. */
  readonly body: { readonly width: number; readonly depth: number; readonly height: number } | null;
  readonly pedestal: string | null;
  /** True when more than one site uses it. */
  readonly shared: boolean;
  readonly receptacles: readonly CompletedReceptacle[];
  readonly sewer: { readonly diameter: number | null; readonly threaded: Known } | null;
  readonly water: {
    readonly thread: string | null;
    /** Pascals. */
    readonly pressure: number | null;
    readonly drinkable: Known;
    readonly seasonal: string | null;
  } | null;
  readonly path: string;
}

/** A solid or forbidden area in the pad frame; non-convex outlines are already cut into convex pieces. */
export interface SiteObstacle {
  readonly id: string;
  /** Word of the vocabulary: tree, post, table, wall, hedge, branch, roof, building, road, walkway, fire-ring, ... */
  readonly what: string;
  /** Convex, counter-clockwise. */
  readonly outline: readonly PadPointLike[];
  /** Heights above the ground, metres; `to` is Infinity when unknown (then `heightGiven` is false). */
  readonly from: number;
  readonly to: number;
  readonly heightGiven: boolean;
  /** True when the rig, slides and awning must keep clear of it. */
  readonly bars: "rig" | "line" | "both";
  /** Standard deviation of its place, metres, and the survey it shares its error with. */
  readonly sigma: number;
  readonly sigmaShared: number;
  readonly path: string;
}

export interface CompletedPad {
  readonly length: Estimate | null;
  readonly width: Estimate | null;
  /** True bearing of `along`, radians clockwise from north. */
  readonly heading: Estimate | null;
  /** lon, lat of the origin in degrees; null for a record made by tape alone. */
  readonly origin: { readonly longitude: number; readonly latitude: number; readonly sigma: number } | null;
  readonly surface: string | null;
  /** Rise per metre along `along` and towards `left`; null when unknown. */
  readonly grade: Estimate | null;
  readonly crossfall: Estimate | null;
  /** Metres that a rear end may hang over behind the rear edge; null when the record does not say. */
  readonly overhangRear: Estimate | null;
}

/** A mapped road in the pad frame. */
export interface SiteRoad {
  readonly id: string;
  /** Its middle, in the direction of travel when it is one-way. */
  readonly line: readonly PadPointLike[];
  readonly width: number | null;
  readonly oneWay: boolean;
  /** Standard deviation of its place relative to the pad, metres. */
  readonly sigma: number;
  readonly path: string;
}

export interface CompletedSite {
  readonly id: string;
  readonly name: string;
  readonly campgroundId: string | null;
  readonly campgroundName?: string | null;
  /** IANA name of the campground's time zone. */
  readonly timeZone?: string | null;
  /** True bearing that the wind mostly comes from, radians; null when the campground's record does not say. */
  readonly prevailingWind?: number | null;
  readonly layout: Layout | null;
  /** Allowed facings; for a back-in pad without the record's word both, with `facingsStated` false. */
  readonly facings: readonly ("out" | "in")[];
  readonly facingsStated: boolean;
  readonly pad: CompletedPad;
  readonly stop: {
    readonly kind: "wheelStop" | "kerb";
    readonly along: Estimate;
    readonly height: Estimate;
    readonly clearBehind: Estimate | null;
  } | null;
  readonly services: Readonly<Record<Service, Known>>;
  readonly hookups: readonly CompletedHookup[];
  readonly obstacles: readonly SiteObstacle[];
  /** The side of the pad on which people sit; null when unknown. */
  readonly patio: "left" | "right" | null;
  readonly limits: {
    readonly length: Estimate | null;
    readonly width: Estimate | null;
    readonly height: Estimate | null;
    readonly amps: number | null;
  };
  readonly access: {
    readonly roadWidth: number | null;
    readonly angle: number | null;
    readonly exit: string | null;
    /** Least clear height on the way in, metres; null when unknown. */
    readonly clearHeight: number | null;
    /** Width of the opening at the road's edge, metres; absent or null: as wide as the pad. */
    readonly mouth?: number | null;
    /** Roads on the map near the pad. */
    readonly roads?: readonly SiteRoad[];
  };
  readonly extraVehicle: "outline" | "none" | "elsewhere" | null;
  readonly rules: {
    readonly noseIn: boolean | null;
    readonly awning: boolean | null;
    readonly generatorHours: string | null;
    readonly maxVehicles: number | null;
    readonly largerBreaker: boolean | null;
  };
  readonly accessible: Known;
  readonly shade: string | null;
  readonly closed: string | null;
  /** Of the campground. */
  readonly electricalSystem: string | null;
  readonly drivesOn: "right" | "left" | null;
  readonly sitingCode: string | null;
  readonly elevation: number | null;
  readonly sources: readonly string[];
  readonly assumed: readonly Assumption[];
  readonly warnings: readonly Warning[];
}
