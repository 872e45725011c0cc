/** Names of sockets in tags, in all their spellings, to the receptacle ids of the record. */
import osm from "../../../data/osm-tags.json" with { type: "json" };
import table from "../../../data/receptacles.json" with { type: "json" };

export interface SocketName {
  /** Receptacle id of the vocabulary, or a word for one that is not in it. */
  readonly type: string;
  /** Rated amperes of a known receptacle. */
  readonly amps: number | null;
  /** known: in our table; other: a socket of the trade that is not; charging: for vehicles, no hookup of a rig. */
  readonly is: "known" | "other" | "charging" | "unheard";
}

/** A spelling without case, spaces, `_`, `-` and dots. */
export function spelling(name: string): string {
  return name.toLowerCase().replace(/[\s_.-]+/g, "");
}

const KNOWN: ReadonlyMap<string, string> = new Map([
  ...table.devices.flatMap(({ id, osm: key }): [string, string][] => [
    [spelling(id), id],
    ...(key === null ? [] : ([[spelling(key), id]] as [string, string][])),
  ]),
  ...table.osmAliases.map(({ key, id }): [string, string] => [spelling(key), id]),
  ...osm.sockets.aliases.map((one): [string, string] => [one.spelling, one.id]),
]);
const OTHERS: ReadonlyMap<string, string> = new Map(osm.sockets.others.map((one) => [one.spelling, one.word]));
const CHARGING: ReadonlySet<string> = new Set(osm.sockets.vehicleCharging);
const RATED: ReadonlyMap<string, number> = new Map(table.devices.map(({ id, amps }) => [id, amps]));

export function socketName(name: string): SocketName {
  const plain = spelling(name);
  const id = KNOWN.get(plain);
  if (id !== undefined) return { type: id, amps: RATED.get(id) ?? null, is: "known" };
  const word = OTHERS.get(plain);
  if (word !== undefined) return { type: word, amps: null, is: "other" };
  const own = name.toLowerCase().replace(/[\s_.]+/g, "-");
  return { type: own, amps: null, is: CHARGING.has(plain) ? "charging" : "unheard" };
}
