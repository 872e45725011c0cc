/** Cautions of the power answer with their sources. Table: data/electrical-cautions.json. */
import table from "../../../data/electrical-cautions.json" with { type: "json" };

export interface Caution {
  readonly id: string;
  readonly text: string;
  readonly source: string;
}

/** Every caution of the table, in the order in which they are told. */
export const POWER_CAUTIONS: readonly Caution[] = table.cautions.map(({ id, text, source, mark }) => ({
  id,
  text,
  source: source.includes(mark) ? source : `${source} (${mark})`,
}));

/** On every positive answer, the test of volts, polarity and ground first. */
const ALWAYS: readonly string[] = ["test-first", "breaker-off", "uncoil", "open-ground", "no-two-wire"];

/** The cautions of these ids in the table's order, each once. */
export function cautionsOf(ids: Iterable<string>): readonly Caution[] {
  const wanted = new Set(ids);
  return POWER_CAUTIONS.filter((caution) => wanted.has(caution.id));
}

/** Cautions of a positive answer: those that always go with one, and these. */
export function positiveCautions(ids: Iterable<string>): readonly Caution[] {
  return cautionsOf([...ALWAYS, ...ids]);
}
