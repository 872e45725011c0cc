/** The table of class defaults and plausible bands, with its types checked against the data. */
import table from "../../data/rig-classes.json" with { type: "json" };
import type { RigClass } from "./completed.ts";

/** Ends in the unit that the key names (metres unless it says otherwise), with where they come from. */
export interface SourcedRange {
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

/** A range outside which a given value is kept and asked about. */
export interface PlausibleBand extends SourcedRange {
  /** Above this a bare number is asked about although the band goes higher. */
  readonly bareHigh?: number;
}

export interface ClassDefaults {
  readonly description: string;
  readonly width: SourcedRange;
  readonly height: SourcedRange;
  readonly groundClearance: SourcedRange;
  readonly wheelbaseOfLength: SourcedRange;
  readonly rearOverhangOfLength: SourcedRange;
  readonly awningRail: SourcedRange;
  readonly plausibleLength: SourcedRange;
}

export interface PlaceDefaults {
  /** Source of the side on which this connection is expected. */
  readonly side: string;
  readonly fromRearOfLength: SourcedRange;
  /** Null where no figure is published and none is taken for granted. */
  readonly height: SourcedRange | null;
}

export const classDefaults: Readonly<Record<RigClass, ClassDefaults>> = table.classes;

const { power, water, sewer, cable, fill, sewerWorkingShare, tapeSigma } = table.connections;
export const placeDefaults: Readonly<Record<"power" | "water" | "sewer" | "cable" | "fill", PlaceDefaults>> = {
  power,
  water,
  sewer,
  cable,
  fill,
};
/** The electrical code's place of a 120 V rig's point of entrance; `codeRearInset` is counted from the outside wall. */
export const powerCode: {
  readonly codeSide: string;
  readonly codeFromRear: SourcedRange;
  readonly codeRearInset: SourcedRange;
} = power;
export const sewerWorking: { readonly value: number; readonly source: string } = sewerWorkingShare;
/** Standard deviation of a tape measurement on a rig, metres. */
export const tape: { readonly value: number; readonly source: string } = tapeSigma;

export const doorDefaults: { readonly side: string; readonly width: SourcedRange } = table.door;
export const awningDefaults: {
  readonly side: string;
  readonly lengthOfLength: SourcedRange;
  readonly pitchDegrees: SourcedRange;
} = table.awning;
export const slideDefaults: { readonly bottom: SourcedRange; readonly topBelowRoof: SourcedRange } = table.slideout;
/** Plugs of countries where traffic keeps left; used only when nobody said on which side the rig drives. */
export const leftTrafficPlugs: readonly string[] = table.leftTrafficPlugs;

export type BandName = keyof typeof table.plausible;
export const plausibleBands: Readonly<Record<BandName, PlausibleBand>> = table.plausible;
