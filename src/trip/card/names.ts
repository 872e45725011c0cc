/** Names of things in the card's language. */
import receptacles from "../../../data/receptacles.json" with { type: "json" };
import type { CompletedRig, RigWall, Service } from "../../rig/completed.ts";
import type { Speaker } from "./messages.ts";

/** Amperes and the mark of the standard, `50 A (NEMA 14-50)`: the same in every language. */
export function receptacleName(id: string, speaker: Speaker): string {
  const device = receptacles.devices.find((one) => one.id === id);
  if (device === undefined) return id;
  const mark = device.name.slice(device.name.indexOf("("));
  return `${speaker.print({ kind: "amps", value: device.amps, round: "nearest" })} ${mark}`;
}

/** Amperes of a plug or receptacle of the table; null when the table has no such device. */
export const ampsOf = (id: string): number | null => receptacles.devices.find((one) => one.id === id)?.amps ?? null;

export function kitName(item: string, speaker: Speaker): string {
  const key = `kit.${item}`;
  return speaker.has(key) ? speaker.say(key) : item;
}

export const serviceName = (service: Service, speaker: Speaker): string => speaker.say(`service.${service}`);

export const wallName = (wall: RigWall, speaker: Speaker): string => speaker.say(`wall.${wall}`);

/** A usual appliance in the card's language; any other by the record's own word. */
export function applianceName(name: string, speaker: Speaker): string {
  const key = `appliance.${dashed(name)}`;
  return speaker.has(key) ? speaker.say(key) : name;
}

export function wheelName(wheel: string, speaker: Speaker): string {
  const key = `wheel.${dashed(wheel)}`;
  return speaker.has(key) ? speaker.say(key) : wheel;
}

/** Verdicts and names as the keys of messages have them. */
export const dashed = (words: string): string => words.trim().toLowerCase().replace(/ +/g, "-");

export const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

const TRAILERS: readonly CompletedRig["class"][] = ["travel-trailer", "fifth-wheel", "folding-trailer"];

export const isTrailer = (rig: CompletedRig): boolean => TRAILERS.includes(rig.class);

export const isAboard = (rig: CompletedRig, item: string): boolean =>
  rig.kit.some((one) => one.item === item && one.where === "aboard");

/** True for a rig that carries gas. */
export const hasGas = (rig: CompletedRig): boolean =>
  rig.tanks.propane !== null || rig.appliances.some(({ fuel }) => fuel !== "electric");

/** True when the only waste tank on record is the grey one. */
export const isGreyOnly = ({ tanks }: CompletedRig): boolean => tanks.black === null && tanks.grey !== null;
