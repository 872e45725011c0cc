/** The Beaufort force of a mean wind. */
import table from "../../data/beaufort.json" with { type: "json" };

export interface BeaufortForce {
  readonly force: number;
  readonly name: string;
}

/**
 * Force of a mean wind over ten minutes at 10 m over open ground (WMO-No. 8 table 5.1).
 *
 * @param speed Metres per second; a force holds from its lower limit up to that of the next.
 */
export function beaufortForce(speed: number): BeaufortForce {
  const found = table.forces.findLast((one) => speed >= one.from) ?? table.forces[0]!;
  return { force: found.force, name: found.name };
}
