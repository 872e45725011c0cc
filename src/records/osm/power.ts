/** Electric supply in tags: power_supply=*, socket:*, the older power_supply:* keys and the draft camp_pitch:electric. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import { quoted } from "./notes.ts";
import { type SocketName, socketName } from "./sockets.ts";
import type { TagReader } from "./tags.ts";
import { amperesOf, listOf, outputOf, voltsOf } from "./values.ts";

/** A receptacle in the wire form of the record. `watts` is kept beside it without effect. */
export interface WireReceptacle {
  readonly type: string;
  readonly amps?: number;
  readonly volts?: number;
  readonly watts?: number;
}

export interface Supply {
  /** Undefined when the tags do not say, or contradict each other. */
  readonly power: "yes" | "no" | undefined;
  readonly contradicted: boolean;
  readonly receptacles: readonly WireReceptacle[];
  /** Amperes of the supply as a whole, when one number is given. */
  readonly amps: number | undefined;
  readonly volts: number | undefined;
}

interface Socket {
  readonly name: SocketName;
  /** Null: there, in a number that is not told. */
  readonly count: number | null;
  readonly amps: number | undefined;
  readonly volts: number | undefined;
  readonly watts: number | undefined;
}

/** Receptacles that one hookup can hold in the record. */
const MOST_RECEPTACLES = 24;
const SOCKET_KEY = /^socket:([^:]+)$/;

export function readSupply(reader: TagReader): Supply {
  const stated = readPowerSupply(reader);
  const sockets = [...readSockets(reader), ...stated.sockets];
  const ampsOf = readMaxCurrent(reader);
  const volts = one(table.supply.voltage.flatMap((key) => voltsOf(reader, key)));
  for (const key of [...table.supply.frequency, ...table.supply.schedule]) {
    const value = reader.tags.get(key);
    if (value !== undefined) reader.remarks.push(`${key}=${value} is kept and has no effect.`);
  }
  const draft = draftElectric(reader);
  const said = new Set([stated.power, draft].filter((word) => word !== undefined));
  if (sockets.length > 0) said.add("yes");
  if (said.size > 1) {
    reader.remark("contradiction", "power_supply", "The tags say both that there is power and that there is none.");
  }
  const [power] = said.size === 1 ? said : [];
  return {
    power,
    contradicted: said.size > 1,
    receptacles: power === "no" ? [] : spread(sockets, ampsOf, volts, reader),
    amps: one(ampsOf),
    volts,
  };
}

/** power_supply is yes or no; the names of sockets as its value are older practice (OpenStreetMap wiki). */
function readPowerSupply(reader: TagReader): { power: "yes" | "no" | undefined; sockets: Socket[] } {
  const value = reader.get("power_supply");
  if (value === undefined) return { power: undefined, sockets: [] };
  const word = value.toLowerCase();
  if (word === "yes" || word === "no") return { power: word, sockets: [] };
  const names = listOf(value).map(socketName);
  const found = names.filter(({ is }) => is === "known" || is === "other");
  if (found.length === 0 || found.length < names.length) {
    reader.warn("bad-value", "power_supply", `power_supply=${quoted(value)} is not yes, no or the names of sockets.`);
  }
  if (found.length === 0) {
    reader.unread("power_supply");
    return { power: undefined, sockets: [] };
  }
  reader.warn("deprecated-tag", "power_supply", "Names of sockets as the value of power_supply are older practice.");
  const bare = { count: null, amps: undefined, volts: undefined, watts: undefined };
  return { power: "yes", sockets: found.map((name) => ({ name, ...bare })) };
}

function readSockets(reader: TagReader): Socket[] {
  return [...reader.tags.keys()].flatMap((key) => {
    const name = SOCKET_KEY.exec(key)?.[1];
    return name === undefined ? [] : readSocket(key, socketName(name), reader);
  });
}

function readSocket(key: string, name: SocketName, reader: TagReader): Socket[] {
  const value = reader.get(key);
  if (value === undefined) return [];
  const count = countOf(value);
  if (count === 0) return [];
  if (count === undefined) {
    reader.unread(key);
    reader.warn("bad-value", key, `${key}=${quoted(value)} is no number, yes or no; it is kept and has no effect.`);
    return [];
  }
  if (name.is === "charging") {
    reader.unread(key);
    reader.warn("not-a-hookup", key, `${key} is a connector for charging vehicles, no hookup of a rig.`);
    return [];
  }
  if (name.is === "unheard") {
    reader.remark("unknown-receptacle", key, `${key} names a socket that is not known here; what mates is unknown.`);
  }
  if (count === null) reader.remarks.push(`${key}=${value} does not say how many.`);
  return [
    {
      name,
      count,
      amps: one(amperesOf(reader, `${key}:current`)),
      volts: one(voltsOf(reader, `${key}:voltage`)),
      watts: outputOf(reader, `${key}:output`),
    },
  ];
}

function one(values: readonly number[]): number | undefined {
  return values.length === 1 ? values[0] : undefined;
}

/** A number, null for `yes` and for lists that do not agree, 0 for `no`; undefined when it is none of these. */
function countOf(value: string): number | null | undefined {
  const parts = [...new Set(listOf(value.toLowerCase()))].map((part) => {
    if (part === "yes") return null;
    if (part === "no") return 0;
    return /^\d{1,4}$/.test(part) ? Number(part) : undefined;
  });
  if (parts.length === 0 || parts.includes(undefined)) return undefined;
  return parts.length === 1 ? parts[0] : parts.every((part) => part === 0) ? 0 : null;
}

function readMaxCurrent(reader: TagReader): readonly number[] {
  for (const key of table.supply.maxCurrent) {
    const values = amperesOf(reader, key);
    if (values.length > 0) return [...new Set(values)];
  }
  return [];
}

function draftElectric(reader: TagReader): "yes" | "no" | undefined {
  for (const key of table.drafts.electric) {
    const value = reader.yesNo(key);
    if (value !== undefined) return value;
  }
  return undefined;
}

/**
 * One receptacle for each that is counted, one for a number that is not told. The breaker's amperes are the lesser of
 * the socket's own and the supply's; of a list (`16;32`) each value goes to the sockets of that rating.
 */
function spread(
  sockets: readonly Socket[],
  supplyAmps: readonly number[],
  supplyVolts: number | undefined,
  reader: TagReader,
): WireReceptacle[] {
  const all = merged(sockets).flatMap(({ name, count, amps, volts, watts }) => {
    const ofSupply = supplyAmps.length === 1 ? supplyAmps[0] : supplyAmps.find((value) => value === name.amps);
    const least = amps === undefined ? ofSupply : ofSupply === undefined ? amps : Math.min(amps, ofSupply);
    const nominal = volts ?? supplyVolts;
    if (least !== undefined && name.amps !== null && least > name.amps) {
      const text = `${least} A is more than a ${name.type} is made for (${name.amps} A).`;
      reader.remark("contradiction", null, text);
    }
    const receptacle: WireReceptacle = {
      type: name.type,
      ...(least === undefined ? {} : { amps: least }),
      ...(nominal === undefined ? {} : { volts: nominal }),
      ...(watts === undefined ? {} : { watts }),
    };
    return new Array<WireReceptacle>(Math.min(count ?? 1, MOST_RECEPTACLES + 1)).fill(receptacle);
  });
  if (all.length > MOST_RECEPTACLES) {
    reader.remark("contradiction", null, `More than ${MOST_RECEPTACLES} sockets; ${MOST_RECEPTACLES} were taken.`);
  }
  return all.slice(0, MOST_RECEPTACLES);
}

/** The same socket from two tags (socket:cee_blue and power_supply=cee_17_blue) is one; the first tells more. */
function merged(sockets: readonly Socket[]): Socket[] {
  const byType = new Map<string, Socket>();
  for (const socket of sockets) {
    if (!byType.has(socket.name.type)) byType.set(socket.name.type, socket);
  }
  return [...byType.values()];
}
