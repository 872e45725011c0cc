/**
 * A line that could be laid: one connection of the rig joined to one hookup of the site with what is carried between
 * them. The fit tries choices; the geometry of each is a LineTask made by `lineTask`.
 */
import type { CompletedConnection, Service } from "../../rig/completed.ts";
import type { CompletedHookup } from "../../site/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Need } from "../answer.ts";

export interface LineChoice {
  readonly service: Service;
  readonly need: Need;
  readonly connection: CompletedConnection;
  readonly hookup: CompletedHookup;
  /** Length of the rig's own line that may be counted on; null when the rig has none. */
  readonly own: Estimate | null;
  /** Metres that adapters, protectors, extensions and joined hoses add. */
  readonly added: number;
  /** Metres that fittings take from a hose. */
  readonly fittings: number;
  readonly allowance: number;
  /** Height of the inlet or outlet above its ground, and of the hookup; null when nobody knows. */
  readonly inletHeight: Estimate | null;
  readonly hookupHeight: Estimate | null;
  readonly along: Estimate;
  readonly left: Estimate;
}

/** Reads one number from an estimate: its nominal value, an end of its range, or a draw from its error. */
export type Pick = (estimate: Estimate) => number;

export const nominal: Pick = (estimate) => estimate.value;
