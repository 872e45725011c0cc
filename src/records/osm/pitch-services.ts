/** What a pitch's tags say of its services, and the hookups that follow: what they give, never where they stand. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import { set } from "./member.ts";
import type { Supply, WireReceptacle } from "./power.ts";
import type { TagReader } from "./tags.ts";

export interface WireHookup {
  readonly id: string;
  readonly service: "power" | "water";
  readonly at?: { readonly position: readonly number[] };
  readonly pedestal?: string;
  readonly receptacles?: readonly WireReceptacle[];
  readonly [member: string]: unknown;
}

export function powerHookups(
  reader: TagReader,
  { power, receptacles }: Supply,
  pedestals: readonly WireHookup[],
  observedAt: string | undefined,
): WireHookup[] {
  const alone = pedestals.length === 1 ? pedestals[0] : undefined;
  if (alone !== undefined && receptacles.length > 0) {
    if (alone.receptacles === undefined) return [{ ...alone, receptacles }];
    if (JSON.stringify(alone.receptacles) !== JSON.stringify(receptacles)) {
      reader.remark("contradiction", null, "Pitch and supply name different sockets; those of the supply are taken.");
    }
    return [alone];
  }
  if (pedestals.length > 1 && receptacles.length > 0) {
    reader.remark(
      "contradiction",
      null,
      "The pitch names sockets and has several supplies; those of the supplies are taken.",
    );
  }
  if (pedestals.length > 0) return [...pedestals];
  if (power !== "yes") return [];
  const sockets = receptacles.length > 0 ? { receptacles } : {};
  return [{ id: "power", service: "power", ...sockets, ...provenance(reader, observedAt) }];
}

export function waterHookups(
  reader: TagReader,
  water: "yes" | "no" | undefined,
  observedAt: string | undefined,
): WireHookup[] {
  return water === "yes" ? [{ id: "water", service: "water", ...provenance(reader, observedAt) }] : [];
}

function provenance(reader: TagReader, observedAt: string | undefined) {
  return { source: `tags of OpenStreetMap ${reader.key}; its place is unknown`, ...set("observedAt", observedAt) };
}

export function readWater(reader: TagReader): "yes" | "no" | undefined {
  for (const key of table.drafts.water) {
    const value = reader.yesNo(key);
    if (value !== undefined) return value;
  }
  const drinking = reader.yesNo("drinking_water");
  if (drinking === "yes") {
    reader.remarks.push("drinking_water=yes: there is water; whether a hose can be connected is unknown.");
    return "yes";
  }
  if (drinking === "no") {
    reader.unread("drinking_water");
    reader.remarks.push("drinking_water=no does not say whether there is other water.");
  }
  return undefined;
}

/** There is no tag in use for a sewer inlet of a pitch: a drain may be for grey water alone. */
export function readDrain(reader: TagReader): "no" | undefined {
  for (const key of table.drafts.drain) {
    const value = reader.yesNo(key);
    if (value === "no") return "no";
    if (value !== "yes") continue;
    reader.unread(key);
    reader.remark("not-a-hookup", key, `${key}=yes: a sewer inlet is possible and not verified; sewer stays unknown.`);
  }
  if (reader.tags.get("sanitary_dump_station") === "yes") {
    reader.remark(
      "not-a-hookup",
      "sanitary_dump_station",
      "A dump station is a place to drive to, no sewer inlet of the pitch.",
    );
  }
  return undefined;
}
