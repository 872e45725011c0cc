/**
 * The vocabulary of plugs and receptacles with their ratings. A plug bears the name of the receptacle that it fits.
 * Values and sources: data/receptacles.json.
 */
import table from "../../../data/receptacles.json" with { type: "json" };

/** Supplies that never mix: 120 V to neutral at 60 Hz, and 230 V at 50 Hz. */
export type DeviceFamily = "120/240" | "230";
/** What the rules expect against ground faults at a receptacle of this kind. */
export type GroundFault = "class-a" | "not-required" | "rcd-30-ma";
/** Rule that governs a cord with this plug. */
export type LeadRule = "nec-400.5" | "en-1648" | "as-nzs-3001";

export interface PowerDevice {
  readonly id: string;
  /** Name in the trade's words, for sentences. */
  readonly name: string;
  readonly system: DeviceFamily;
  /** Nominal volts from a hot to neutral, or across the hots where there is no neutral. */
  readonly volts: number;
  readonly amps: number;
  readonly poles: number;
  readonly wires: number;
  /** Hots, called legs. */
  readonly hots: number;
  readonly neutral: boolean;
  readonly ground: boolean;
  /** Amperes that it carries for three hours or more. */
  readonly continuousAmps: number;
  readonly locking: boolean;
  readonly polarised: boolean;
  readonly groundFault: GroundFault;
  readonly siteConfiguration: boolean;
  readonly lead: LeadRule;
  /** Why no other plug may be adapted to this receptacle; null when it may. */
  readonly adapterBar: { readonly why: string; readonly source: string; readonly mark: string } | null;
  readonly osm: string | null;
  readonly ocpi: string | null;
  readonly plugCautions: readonly string[];
  readonly receptacleCautions: readonly string[];
  readonly source: string;
  readonly mark: string;
}

/** A plug that enters a receptacle of another configuration. */
export interface CrossEntry {
  readonly plug: string;
  readonly receptacle: string;
  readonly why: string;
  readonly source: string;
  readonly mark: string;
}

/** Every plug and receptacle of the vocabulary, in the order of the table. */
export const DEVICES: readonly PowerDevice[] = table.devices as readonly PowerDevice[];

const BY_ID: ReadonlyMap<string, PowerDevice> = new Map(DEVICES.map((device) => [device.id, device]));
const CROSS_ENTRIES: readonly CrossEntry[] = table.enters;

/** The device of an id, or null when the word is not of the vocabulary. */
export function deviceOf(id: string): PowerDevice | null {
  return BY_ID.get(id) ?? null;
}

/** The entry by which a plug goes into a receptacle of another configuration; null when it does not. */
export function crossEntry(plug: string, receptacle: string): CrossEntry | null {
  return CROSS_ENTRIES.find((entry) => entry.plug === plug && entry.receptacle === receptacle) ?? null;
}

/** True when the plug enters the receptacle as it is. */
export function enters(plug: string, receptacle: string): boolean {
  return plug === receptacle || crossEntry(plug, receptacle) !== null;
}

/** True when the plug resembles the receptacle's own and can be forced in. */
export function nearFit(plug: string, receptacle: string): boolean {
  return table.nearFits.some((pair) => pair.plug === plug && pair.receptacle === receptacle);
}

/** Lower case without the joints that mappers write differently. */
function bareKey(key: string): string {
  return key.toLowerCase().replace(/[_-]/g, "");
}

/**
 * The device that an OpenStreetMap key names (`socket:cee_blue` or `cee_blue`), spelling forgiven; null when none.
 * Source: OpenStreetMap wiki Key:socket; the spellings of TT-30 were read in public survey code.
 */
export function deviceByOpenMapKey(key: string): PowerDevice | null {
  const bare = bareKey(key.replace(/^socket:/, ""));
  const named = DEVICES.find((device) => device.osm !== null && bareKey(device.osm) === bare);
  if (named) return named;
  const alias = table.osmAliases.find((entry) => entry.key === bare);
  return alias ? deviceOf(alias.id) : null;
}

/** Nominal volt-amperes of a receptacle: legs x amperes x volts. */
export function nameplateVoltAmperes(device: PowerDevice): number {
  return device.hots * device.amps * device.volts;
}
