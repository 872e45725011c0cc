/**
 * The answer to one rig on one site. The same object draws the plan, fills the page and prints the card; nothing in
 * it is computed a second time elsewhere. Numbers are SI (bearings and angles on the wire in degrees); sentences are
 * in the units asked for and are made from the fields beside them.
 */
import type { Service } from "../rig/completed.ts";
import type { Assumption, Warning } from "../units/estimate.ts";
import type { ManoeuvreAnswer } from "./manoeuvre/answer.ts";
import type { PadPoint, RouteKind, Stance } from "./stance/problem.ts";
import type { StayTank } from "./stay/types.ts";
import type { AwningHourAnswer, AwningWindAnswer, ExposureRose, SiteExposure, WindAnswer } from "./wind/answer.ts";

export type SiteVerdict = "does not fit" | "unknown" | "tight" | "fits with kit" | "fits";
export type LineVerdict = "reaches" | "tight" | "short" | "unknown" | "not needed" | "absent";
export type CheckStatus = "pass" | "pass with kit" | "tight" | "fail" | "unknown" | "not applicable";
/** cannot: physics; must-not: safety; may-not: a rule of the place. */
export type CheckFamily = "cannot" | "must-not" | "may-not" | "risk";
export type Need = "required" | "wanted" | "ignored";

/** A value that is not known, or known too badly, and how much it would decide. */
export interface Unknown {
  /** JSON Pointer of the field, starting with /rig or /site. */
  readonly path: string;
  /** What to measure, in words: "Measure from the pad's rear edge to the pedestal". */
  readonly measure: string;
  /** Checks or services that wait for it. */
  readonly decides: readonly string[];
  /** Share of the decision that this value carries, 0 to 1; null when it bars the answer altogether. */
  readonly weight: number | null;
}

export interface AnswerLine {
  readonly service: Service;
  readonly need: Need;
  /** Id of the rig connection and of the hookup that this line joins. */
  readonly connection: string | null;
  readonly hookup: string | null;
  /** Wall of the rig that it leaves from. */
  readonly side: "left" | "right" | "rear" | "front" | null;
  readonly route: RouteKind | null;
  /** Pad frame, metres, from inlet to hookup. */
  readonly path: readonly PadPoint[];
  /** Metres of line when laid: heights, ground route, allowance, less what adapters and extensions add. */
  readonly needed: number | null;
  /** Shortest path round the body in three dimensions, no allowance, metres. */
  readonly neededLeast: number | null;
  readonly available: number | null;
  /** available - needed, metres. */
  readonly margin: number | null;
  /** Standard deviation of the margin at this stance, metres. */
  readonly sigma?: number;
  /** Ends of the margin over the ranges of what is only described, coded or assumed. */
  readonly marginLow?: number;
  readonly marginHigh?: number;
  /** Probability that this line reaches with the rig parked anew; absent when nothing carries an accuracy. */
  readonly probability?: number;
  readonly verdict: LineVerdict;
  readonly why: string;
}

export interface PowerAnswer {
  readonly mating: "direct" | "adapter" | "adapter with caution" | "refused" | "unknown" | "none";
  readonly receptacle: string | null;
  readonly receptacleType: string | null;
  readonly hookup: string | null;
  readonly why: string;
  /** From the receptacle to the rig: adapter, protector, extension, cord. */
  readonly chain: readonly {
    readonly item: string;
    readonly from: string | null;
    readonly to: string | null;
    readonly amps: number | null;
    readonly length: number | null;
    readonly ohmsPerMetre: number | null;
    readonly where: "aboard" | "depot" | "to bring" | "rig";
  }[];
  readonly amps: number | null;
  readonly legs: number | null;
  readonly voltsToNeutral: number | null;
  readonly voltsLegToLeg: number | null;
  readonly voltAmperes: number | null;
  readonly continuousVoltAmperes: number | null;
  readonly weakestLink: string | null;
  readonly drop: {
    readonly volts: number;
    readonly ratio: number;
    readonly voltsAtRigFromNominal: number;
    readonly voltsAtRigFromLowest: number;
    readonly status: "fine" | "watch" | "low" | "stop" | "unknown";
    readonly why: string;
  } | null;
  /** Combinations of appliances: what may run together and what trips. */
  readonly canRun: readonly {
    readonly appliances: readonly string[];
    readonly watts: number;
    readonly runs: boolean;
    readonly why: string;
  }[];
  /** Every receptacle of the site with its mating, in the order of preference. */
  readonly alternatives: readonly {
    readonly receptacle: string;
    readonly type: string;
    readonly mating: string;
    readonly why: string;
  }[];
}

export interface SewerAnswer {
  readonly status: "drains" | "marginal" | "poor" | "uphill" | "fall not checked" | "none";
  readonly outlet: string | null;
  /** Metres. */
  readonly fall: number | null;
  readonly run: number | null;
  /** Fall per metre of run. */
  readonly slope: number | null;
  readonly requiredSlope: number;
  /** Longest run that the required slope permits, metres. */
  readonly longestRun: number | null;
  readonly why: string;
  readonly source: string;
}

export interface Check {
  readonly id: string;
  readonly family: CheckFamily;
  /** Deciding checks make the verdict; the others inform. */
  readonly deciding: boolean;
  readonly status: CheckStatus;
  readonly value: number | null;
  readonly limit: number | null;
  readonly margin: number | null;
  readonly unit: "m" | "A" | "V" | "VA" | "rad" | "ratio" | "Pa" | "deg" | null;
  /** Where the limit comes from. */
  readonly source: string;
  readonly why: string;
  /** What would change it. */
  readonly change?: string;
}

export interface KitEntry {
  readonly item: string;
  readonly description: string;
  readonly for: Service | "level" | "all";
  readonly where: "aboard" | "to bring";
  readonly why: string;
  readonly withoutIt: string;
}

export interface Fix {
  /** The stance itself is already the best one there is, so no fix moves it. */
  readonly kind: "facing" | "longer line" | "item" | "close slide" | "awning in";
  readonly title: string;
  /** What to change in the request so that solving again gives `verdictAfter`. */
  readonly change: FixChange;
  /** True when it costs nothing and needs nothing brought. */
  readonly free: boolean;
  readonly verdictAfter: SiteVerdict;
  readonly why: string;
}

/** A thing to carry, in the wire form of a rig's `kit[]`; lengths in metres. */
export interface KitAddition {
  readonly item: string;
  readonly plug?: string;
  readonly receptacle?: string;
  readonly rating?: number;
  readonly length?: number;
  readonly gauge?: string;
  readonly where: "aboard" | "depot";
}

/** What to change in a request so that solving again gives `verdictAfter`; applied by `applyFix`. */
export interface FixChange {
  /** Members to set in `options`. */
  readonly options?: {
    readonly facings?: readonly ("out" | "in")[];
    readonly awning?: "required" | "wanted" | "in";
    readonly closeSlides?: readonly string[];
    readonly needs?: Partial<Record<Service, Need>>;
  };
  /** Items to add to the rig's `kit`. */
  readonly kit?: readonly KitAddition[];
}

export interface StanceWindow {
  /** Range of `along` (pad's rear edge to the rig's nearer end) within which everything holds, metres. */
  readonly along: { readonly from: number; readonly to: number };
  /** Sideways tolerance relative to the stance's `left`, metres: `from` to the pad's right (not positive), `to` to its left. */
  readonly left: { readonly from: number; readonly to: number };
  readonly why: string;
}

/** Room for one awning; what the wind does to it is added by `AwningAnswer`. */
export interface AwningRoomAnswer {
  readonly id: string;
  readonly side: "left" | "right" | "rear";
  /** Side of the pad that it opens to at this stance. */
  readonly padSide: "left" | "right" | "rear" | "exit" | null;
  readonly room: CheckStatus;
  readonly needed: number | null;
  readonly clear: number | null;
  readonly why: string;
}

export interface AwningAnswer extends AwningRoomAnswer {
  /** Exposure to wind from all directions: low, moderate, high, unknown; null when it was not worked out. */
  readonly exposure: "low" | "moderate" | "high" | "unknown" | null;
  /** True bearing from the rig out over the open awning, radians (degrees on the wire); null when unknown. */
  readonly azimuth: number | null;
  /** The wind by hand, or that of the worst hour of the stay; null when none was asked about or none is known. */
  readonly wind: AwningWindAnswer | null;
  /** The hours of the stay; null when no stay was asked about. */
  readonly hours: readonly AwningHourAnswer[] | null;
}

export interface LevelAnswer {
  readonly status: CheckStatus;
  /** Slope of the pad along the rig and across it, ratios; positive when the nose or the rig's left is higher. */
  readonly alongRig: number | null;
  readonly acrossRig: number | null;
  readonly blocks: readonly { readonly wheel: string; readonly height: number }[];
  readonly why: string;
}

/** Everything that a picture needs, in the pad frame, metres. Made once by the fit. */
export interface Scene {
  readonly pad: { readonly length: number; readonly width: number; readonly heading: number | null } | null;
  readonly stop: { readonly kind: string; readonly along: number } | null;
  readonly rig: {
    readonly stance: Stance;
    readonly length: number;
    readonly width: number;
    readonly body: readonly PadPoint[];
    readonly nose: readonly PadPoint[];
    readonly slides: readonly { readonly id: string; readonly outline: readonly PadPoint[] }[];
    readonly awnings: readonly { readonly id: string; readonly outline: readonly PadPoint[]; readonly open: boolean }[];
    readonly doors: readonly {
      readonly id: string;
      readonly at: PadPoint;
      readonly outward: PadPoint;
      readonly width: number;
      readonly given: boolean;
    }[];
    readonly hotOutlets: readonly { readonly id: string; readonly what: string; readonly at: PadPoint }[];
    readonly connections: readonly { readonly id: string; readonly service: Service; readonly at: PadPoint }[];
  } | null;
  readonly hookups: readonly {
    readonly id: string;
    readonly service: Service;
    readonly at: PadPoint;
    readonly sigma: number;
    readonly region: {
      readonly alongLow: number;
      readonly alongHigh: number;
      readonly leftLow: number;
      readonly leftHigh: number;
    } | null;
    readonly pedestal: string | null;
    readonly label: string;
  }[];
  readonly obstacles: readonly {
    readonly id: string;
    readonly what: string;
    readonly outline: readonly PadPoint[];
    readonly from: number;
    readonly to: number | null;
    readonly bars: "rig" | "line" | "both";
  }[];
  readonly patio: "left" | "right" | null;
}

export interface Fit {
  readonly rig: { readonly id: string | null; readonly name: string | null };
  /** `campground` is its id, `campgroundName` what people call it. */
  readonly site: {
    readonly id: string;
    readonly name: string;
    readonly campground: string | null;
    readonly campgroundName: string | null;
  };
  readonly verdict: SiteVerdict;
  readonly headline: string;
  /** P(some stance serves all required lines), parking anew; absent when nothing carries an accuracy. */
  readonly probability?: number;
  /** Largest worst margin over the required lines, over all allowed stances, metres; null when not computable. */
  readonly bestMargin: number | null;
  /** True when no better stance exists within the published yaw list. */
  readonly proven: boolean;
  /** Upper bound of `bestMargin` when not proven. */
  readonly bestMarginBound: number | null;
  /** The stance shown (yaw in degrees on the wire); null when the rig cannot stand or the pad is not known. */
  readonly stance: Stance | null;
  readonly window: StanceWindow | null;
  readonly lines: readonly AnswerLine[];
  readonly power: PowerAnswer;
  readonly sewer: SewerAnswer;
  readonly checks: readonly Check[];
  readonly kit: readonly KitEntry[];
  readonly awning: readonly AwningAnswer[];
  /** How the site lies to the wind; null when its place is not on record or its surroundings were not given. */
  readonly exposure: SiteExposure | null;
  /** The same for each direction; null in a summary. `drawWindRose` draws it as it is. */
  readonly exposureRose: ExposureRose | null;
  /** What was asked about the wind, and what the answer rests on; null when nothing was asked. */
  readonly wind: WindAnswer | null;
  readonly level: LevelAnswer;
  /** Getting in and out; null in a summary, and when there is no stance to drive to. */
  readonly manoeuvre: ManoeuvreAnswer | null;
  /** Words on the site's water, and the days that the tanks last the party; each null when not computed or not asked. */
  readonly stay: {
    readonly water: string | null;
    readonly tanks: readonly StayTank[] | null;
    readonly why: string | null;
  };
  readonly fixes: readonly Fix[];
  readonly cautions: readonly { readonly id: string; readonly text: string; readonly source: string }[];
  readonly assumed: readonly Assumption[];
  readonly unknowns: readonly Unknown[];
  readonly notChecked: readonly { readonly id: string; readonly why: string }[];
  readonly warnings: readonly Warning[];
  readonly sources: readonly string[];
  readonly scene: Scene;
  readonly units: "us" | "metric";
  readonly engineVersion: string;
  readonly dataVersion: string | null;
}
