/** What the power solver is asked and what it answers. Volts, amperes, metres, watts. */
import type { Appliance, KitItem, RigLine } from "../../rig/completed.ts";
import type { CompletedReceptacle } from "../../site/completed.ts";
import type { Assumption } from "../../units/estimate.ts";
import type { UnitSystem } from "../../units/print.ts";
import type { Caution } from "./cautions.ts";
import type { LineDrop } from "./drop.ts";
import type { LoadAnswer } from "./load.ts";
import type { MatingKind, MatingReason } from "./mating.ts";

/** A receptacle of the site with the hookup that carries it. */
export interface OfferedReceptacle {
  readonly hookup: string;
  /** True when more than one site uses the hookup. */
  readonly shared: boolean;
  readonly receptacle: CompletedReceptacle;
}

export interface PowerInput {
  /** Plug id of the rig's cord; null when unknown. */
  readonly plug: string | null;
  /** Null when the rig carries no cord of its own. */
  readonly cord: RigLine | null;
  readonly kit: readonly KitItem[];
  readonly appliances: readonly Appliance[];
  readonly receptacles: readonly OfferedReceptacle[];
  readonly siteId: string;
  /** Electrical system of the campground; null when unknown. */
  readonly electricalSystem: string | null;
  /** Of the site: false forbids a rig smaller than the receptacle's breaker. */
  readonly rules: { readonly largerBreaker: boolean | null };
  /** Of the caller. */
  readonly policy: { readonly largerBreaker?: "allow" | "refuse" };
  readonly kitPolicy: "any" | "aboard";
  readonly units: UnitSystem;
  /** Metres that the line is short of without an extension; asks for candidates with one that is sold. */
  readonly extraLength?: number;
  /** JSON Pointer of the power connection in the rig record. */
  readonly connectionPath?: string;
}

export type PowerReason =
  | MatingReason
  | "receptacle-failed"
  | "receptacle-taken"
  | "other-site"
  | "voltage-recorded"
  | "voltage-contradiction"
  | "larger-breaker-rule"
  | "larger-breaker-policy"
  | "cord-below-supply"
  | "lead-too-long"
  | "kit-not-aboard";

export type LinkPlace = "aboard" | "depot" | "to bring" | "rig";

/** A link of the line, from the receptacle to the rig. */
export interface ChainLink {
  readonly item: "adapter" | "protector" | "extension" | "cord";
  readonly description: string;
  /** Plug that it puts into the link before it. */
  readonly from: string | null;
  /** Receptacle that it offers to the link after it; null where the rig begins. */
  readonly to: string | null;
  readonly amps: number | null;
  readonly length: number | null;
  readonly ohmsPerMetre: number | null;
  readonly where: LinkPlace;
  /** JSON Pointer in the rig record; null for a thing that is not in it. */
  readonly path: string | null;
}

export interface NeededItem {
  readonly item: "adapter" | "extension";
  readonly description: string;
  readonly where: Exclude<LinkPlace, "rig">;
  readonly withoutIt: string;
  readonly path: string | null;
}

/** A value that nobody recorded, and what to look at. */
export interface PowerUnknown {
  readonly path: string;
  readonly measure: string;
}

export interface PowerCandidate {
  readonly hookup: string;
  readonly receptacle: string;
  readonly receptacleType: string;
  readonly mating: MatingKind;
  /** True when the rig may be connected so, with what the kit policy permits. */
  readonly usable: boolean;
  readonly reasonCode: PowerReason;
  readonly why: string;
  readonly chain: readonly ChainLink[];
  /** Metres that adapter, protector and extension add to the cord. */
  readonly addedLength: number;
  /** Cord and what is added to it, metres; null when the rig has no cord. */
  readonly totalLength: number | null;
  readonly items: readonly NeededItem[];
  /** Amperes per leg after the weakest link. */
  readonly amps: number | null;
  readonly legs: number | null;
  readonly voltsToNeutral: number | null;
  readonly voltsLegToLeg: number | null;
  readonly voltAmperes: number | null;
  /** Amperes per leg for three hours or more. */
  readonly continuousAmps: number | null;
  readonly continuousVoltAmperes: number | null;
  /** True when appliances that need both legs run. */
  readonly bothLegLoads: boolean | null;
  readonly weakestLink: string | null;
  /** True when the rig gets all that its plug is rated for. */
  readonly ownRating: boolean;
  readonly drop: LineDrop | null;
  readonly load: LoadAnswer | null;
  readonly cautions: readonly Caution[];
  /** True when another site may have taken the receptacle. */
  readonly contested: boolean;
  /** False when nobody recorded whether the receptacle works. */
  readonly stateKnown: boolean;
  readonly assumed: readonly Assumption[];
  readonly unknowns: readonly PowerUnknown[];
}

export interface PowerSolution {
  /** Best first; with none usable, the unknown before the refused. */
  readonly candidates: readonly PowerCandidate[];
  /** The first usable candidate; null when there is none. */
  readonly best: PowerCandidate | null;
}
