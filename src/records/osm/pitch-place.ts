/**
 * The place of a pitch: how well the middle of its pad can be told from a sign post or from the outline of the whole
 * pitch. Neither is the pad itself.
 */
import table from "../../../data/osm-tags.json" with { type: "json" };
import { rightHanded } from "../../geo/longitude-latitude.ts";
import { plainNumber } from "../../units/number.ts";
import { asArea, type OsmElement } from "./element.ts";
import { set } from "./member.ts";
import { quoted } from "./notes.ts";
import { isSound, middleOf } from "./place.ts";
import type { TagReader } from "./tags.ts";

/** How well the place of a site is known. */
interface SitePlace {
  readonly basis: "mapped" | "gps";
  readonly accuracy: number;
  readonly source: string;
  readonly observedAt?: string;
}

/** The radius that holds 68 % of fixes, in standard deviations per axis: sqrt(-2 ln(1 - 0.68)) = 1.510 (derived). */
const SHARE_OF_PHONES = 0.68;
const RADIUS_OF_PHONES = Math.sqrt(-2 * Math.log(1 - SHARE_OF_PHONES));
/** A value spread evenly over plus or minus L has the standard deviation L over the root of this. */
const EVEN_SPREAD = 3;

/** Metres beyond which a radius of a survey is a slip of the pen. */
const WIDEST_RADIUS = 250_000;

export interface PitchPlace {
  readonly is: "sign post" | "middle of the pitch" | "middle of a part of the pitch";
  readonly position: readonly number[];
  readonly record: SitePlace;
  readonly outline: unknown;
}

/** The pad's middle as well as the element tells it: its own error, and how far the pad may lie from post or middle. */
export function placeOf(reader: TagReader, element: OsmElement, observedAt: string | undefined): PitchPlace | null {
  const middle = middleOf(element);
  if (middle === null) {
    reader.remark("bad-geometry", null, "The pitch has no place.");
    return null;
  }
  const own = ownAccuracy(reader);
  const day = set("observedAt", observedAt);
  if (element.geometry?.type === "Point" && !element.partial) {
    const { postToPad } = table.accuracy;
    const source =
      `OpenStreetMap ${element.key}: the identifying post, ${own.words}; ` +
      `the middle of the pad within ${postToPad} m of it per axis (standard deviation; ${table.accuracy.source})`;
    const accuracy = Math.hypot(own.accuracy, postToPad);
    return {
      is: "sign post",
      position: middle.position,
      record: { basis: own.basis, accuracy, source, ...day },
      outline: undefined,
    };
  }
  const area = asArea(element);
  const sound = area !== null && area.type === "Polygon" && isSound(area.coordinates);
  if (!sound) {
    const text = "The outline of the pitch is incomplete or faulty; only its middle is kept.";
    reader.remark("incomplete-geometry", null, text);
  }
  const even = middle.reach / Math.sqrt(EVEN_SPREAD);
  const within = sound ? even : Math.max(even, table.accuracy.postToPad);
  const extent = sound ? `its middle within ${Math.ceil(middle.reach)} m` : "how far from there is unknown";
  const source =
    `OpenStreetMap ${element.key}: the middle of the whole pitch, ${own.words}; the pad lies somewhere in it, ` +
    `${extent}`;
  return {
    is: sound ? "middle of the pitch" : "middle of a part of the pitch",
    position: middle.position,
    record: { basis: own.basis, accuracy: Math.hypot(own.accuracy, within), source, ...day },
    outline: sound ? { ...area, coordinates: rightHanded(area.coordinates) } : undefined,
  };
}

/** A survey's radius as a standard deviation per axis; else that of a place set by hand on a map. */
function ownAccuracy(reader: TagReader): { basis: "mapped" | "gps"; accuracy: number; words: string } {
  const { mapped, source } = table.accuracy;
  const drawn = { basis: "mapped", accuracy: mapped, words: `set on a map, ${mapped} m per axis (${source})` } as const;
  const found = reader.first(table.survey.accuracy);
  if (found === undefined) return drawn;
  const radius = /^\d+(\.\d+)?$/.test(found.value) ? Number(found.value) : null;
  if (radius === null || radius > WIDEST_RADIUS) {
    reader.unread(found.key);
    reader.warn("bad-value", found.key, `${found.key}=${quoted(found.value)} is no accuracy in metres.`);
    return drawn;
  }
  // A survey app writes 0 when the place was not measured but typed on its map.
  if (radius === 0) return drawn;
  const words = `by GPS, radius ${plainNumber(radius)} m taken as holding 68 % of fixes (assumed)`;
  return { basis: "gps", accuracy: Math.min(radius / RADIUS_OF_PHONES, MOST_METRES_OFF), words };
}

/** The widest accuracy that a record can hold, less room for the post. */
const MOST_METRES_OFF = 9000;
