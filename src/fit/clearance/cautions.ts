/** The cautions that a rig at a site calls for, from the table; selection only, no wording. */
import data from "../../../data/cautions.json" with { type: "json" };

/** Facts of a fit that call for cautions. */
export type CautionFact =
  | "power"
  | "water"
  | "fill"
  | "sewer"
  | "dump"
  | "grey-tank"
  | "generator"
  | "portable-generator"
  | "propane"
  | "awning"
  | "reversing"
  | "arriving"
  | "trailer"
  | "blocks"
  | "off-level";

export interface Caution {
  readonly id: string;
  readonly text: string;
  readonly source: string;
}

/** Cautions of which at least one fact holds, in the table's order. The mark of how it was come by is in the source. */
export function cautionsFor(facts: ReadonlySet<CautionFact>): Caution[] {
  return data.cautions
    .filter((caution) => caution.when.some((fact) => facts.has(fact as CautionFact)))
    .map(({ id, text, source, mark }) => ({ id, text, source: mark === "assumed" ? source : `${source} (${mark})` }));
}

/** Every fact that the table listens to. */
export function cautionFacts(): string[] {
  return [...new Set(data.cautions.flatMap((caution) => caution.when))];
}

/** Least distance of a portable generator from every rig and window, metres: 20 ft, Florida Department of Health, read. */
const GENERATOR_DISTANCE = data.generatorDistance;

/** True when a portable generator stands nearer, metres, than is advised. */
export function generatorTooNear(distance: number): boolean {
  return distance < GENERATOR_DISTANCE;
}
