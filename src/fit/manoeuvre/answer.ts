/** Getting in and out, as the answer says it. Pad frame, metres; angles in radians (degrees on the wire). */
import type { Assumption } from "../../units/estimate.ts";
import type { PadPoint } from "../stance/problem.ts";

/**
 * ok in one move: a path was found and is clear along its whole length. needs a shunt: none was found in the family that
 * is searched, which does not say that there is none. cannot: physics forbids it. unknown: something is not on record.
 */
export type ManoeuvreStatus = "ok in one move" | "needs a shunt" | "unknown" | "cannot";

type CouplingState = "alone" | "stays coupled" | "uncouple before the turn" | "uncouple on the pad" | "unknown";

export interface ManoeuvreMove {
  readonly gear: "forward" | "reverse";
  readonly steer: "straight" | "left" | "right";
  /** Metres of the drawing vehicle's rear axle. */
  readonly distance: number;
  /** Of the rear axle, metres; null on a straight. */
  readonly radius: number | null;
  /** Radians that it turns, 0 on a straight. */
  readonly turn: number;
}

export interface ManoeuvreLeg {
  readonly status: ManoeuvreStatus;
  /** Least clearance along the path shown, metres; null without one. Negative never occurs with a path. */
  readonly margin: number | null;
  /** Where it occurs. */
  readonly closest: { readonly at: PadPoint; readonly unit: string; readonly what: string } | null;
  /** How far a body hangs over the verge at most, metres. */
  readonly overVerge: number | null;
  /** Hitch angle at the stance, radians; null when nothing is drawn. */
  readonly hitchAngle: number | null;
  readonly moves: readonly ManoeuvreMove[];
  /** Bodies at places along the path, in the order of driving. */
  readonly outlines: readonly {
    readonly unit: string;
    readonly gear: "forward" | "reverse";
    readonly outline: readonly PadPoint[];
  }[];
  /** Middle of the drawing vehicle's rear axle, in the order of driving. */
  readonly track: readonly PadPoint[];
  readonly why: string;
}

export interface ManoeuvreAnswer {
  readonly status: ManoeuvreStatus;
  readonly kind: "back-in" | "nose-in" | "pull-through" | "parallel" | null;
  readonly coupling: {
    readonly state: CouplingState;
    /** The other vehicle; null when the rig is alone. */
    readonly other: string | null;
    readonly why: string;
    /** What must be found before: a place to uncouple, a place for the other vehicle. */
    readonly needs: readonly string[];
  };
  readonly in: ManoeuvreLeg;
  readonly out: ManoeuvreLeg;
  /** Edges of the roads that were judged, two lines each, and the two sides of the way from the pad to each. */
  readonly roads: readonly {
    readonly end: "exit" | "rear";
    readonly edges: readonly (readonly PadPoint[])[];
    readonly mouth: readonly (readonly PadPoint[])[];
  }[];
  readonly why: string;
  /** Fields whose measurement would tell more. */
  readonly measure: readonly string[];
  readonly assumed: readonly Assumption[];
  readonly source: string;
}
