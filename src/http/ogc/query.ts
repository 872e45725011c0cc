/** What a request for items asks: box, time, filters by property, page. */
import type { Box } from "../../records/place.ts";
import { digestOf } from "../cursor.ts";
import { readPlace, writePlace } from "../host/pages.ts";
import type { Limits } from "../limits.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
import type { Collection } from "./collections.ts";
import type { Column } from "./columns.ts";
import { readInterval } from "./datetime.ts";

export interface PropertyFilter {
  readonly name: string;
  readonly value: string | number | boolean;
}

/** A place between two features of a collection. */
export interface Place {
  readonly campground: string;
  /** Null: before every feature of the campground. */
  readonly feature: string | null;
}

export interface ItemsQuery {
  readonly limit: number;
  readonly box: Box | null;
  readonly filters: readonly PropertyFilter[];
  /** Null: from the beginning. */
  readonly from: Place | null;
  /** Backwards gives the features before `from`. */
  readonly backwards: boolean;
  /** Digest of everything but the page. */
  readonly digest: string;
}

const OWN = ["f", "limit", "bbox", "datetime", "cursor"];
const NORTH = 90;
const HALF_TURN = 180;
const FLAT = 4;
const SOLID = 6;

export async function readItemsQuery(url: URL, collection: Collection, limits: Limits): Promise<ItemsQuery> {
  const queryables = collection.columns.filter((column) => column.queryable === true);
  refuseParameters(url, [...OWN, ...queryables.map(({ name }) => name)], limits.parameterLength);
  const { searchParams } = url;
  const bbox = searchParams.get("bbox");
  const datetime = searchParams.get("datetime");
  // No feature of these collections has a time of its own, and such a feature matches any (requirement fc-time-response).
  if (datetime !== null) readInterval(datetime);
  const box = bbox === null ? null : readBox(bbox);
  const filters = queryables.flatMap((column) => {
    const value = searchParams.get(column.name);
    return value === null ? [] : [{ name: column.name, value: readValue(column, value) }];
  });
  const digest = await digestOf([collection.id, box, filters]);
  const cursor = searchParams.get("cursor");
  const page = cursor === null ? { from: null, backwards: false } : readPage(cursor, digest);
  return { limit: readLimit(searchParams.get("limit"), limits), box, filters, digest, ...page };
}

const FORWARDS = "+";
const BACKWARDS = "-";

export function writePage(digest: string, { campground, feature }: Place, backwards: boolean): string {
  const direction = backwards ? BACKWARDS : FORWARDS;
  return writePlace([digest, direction, campground, feature === null ? "" : `=${feature}`]);
}

function readPage(cursor: string, digest: string): Pick<ItemsQuery, "from" | "backwards"> {
  const parts = readPlace("cursor", cursor, ["string", "string", "string", "string"]) as readonly string[];
  const [query, direction, campground = "", feature = ""] = parts;
  if (query !== digest || (direction !== FORWARDS && direction !== BACKWARDS)) {
    throw new Problem("invalid-cursor", "This cursor was not given for this request.");
  }
  const from: Place = { campground, feature: feature === "" ? null : feature.slice(1) };
  return { from, backwards: direction === BACKWARDS };
}

/** Above the largest page it is lowered to it (requirement fc-limit-response). */
function readLimit(text: string | null, limits: Limits): number {
  if (text === null) return limits.itemsPageDefault;
  if (!/^\d{1,9}$/.test(text) || Number(text) < 1) throw refused("limit", `a whole number from 1`);
  return Math.min(Number(text), limits.itemsPage);
}

/**
 * Four numbers, or six with heights. Positions here have no height that means anything, so that the heights of a box
 * are read and choose nothing.
 */
function readBox(text: string): Box {
  const wanted = "west,south,east,north, or west,south,lowest,east,north,highest";
  const numbers = text.split(",").map((one) => (NUMBER.test(one.trim()) ? Number(one) : Number.NaN));
  if ((numbers.length !== FLAT && numbers.length !== SOLID) || !numbers.every(Number.isFinite)) {
    throw refused("bbox", wanted);
  }
  const [first = 0, second = 0, third = 0, fourth = 0, fifth = 0, sixth = 0] = numbers;
  const solid = numbers.length === SOLID;
  const box: Box = solid ? [first, second, fourth, fifth] : [first, second, third, fourth];
  const [west, south, east, north] = box;
  const within = Math.abs(west) <= HALF_TURN && Math.abs(east) <= HALF_TURN && Math.abs(south) <= NORTH;
  if (!within || Math.abs(north) > NORTH || south > north || (solid && third > sixth)) {
    throw refused("bbox", "degrees of longitude and latitude, south not above north");
  }
  return box;
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;

function readValue(column: Column, text: string): PropertyFilter["value"] {
  if (column.type === "string") {
    if (column.words !== undefined && !column.words.includes(text)) throw refused(column.name, column.words.join(", "));
    return text;
  }
  if (column.type === "boolean") {
    if (text !== "true" && text !== "false") throw refused(column.name, "true or false");
    return text === "true";
  }
  if (!NUMBER.test(text) || (column.type === "integer" && !Number.isInteger(Number(text)))) {
    throw refused(column.name, column.type === "integer" ? "a whole number" : "a number");
  }
  return Number(text);
}

function refused(parameter: string, expected: string): Problem {
  const message = "This value is not accepted.";
  return new Problem("invalid-parameter", `The parameter ${parameter} is not accepted: ${expected} is wanted.`, [
    { parameter, code: "bad-form", message, expected },
  ]);
}
