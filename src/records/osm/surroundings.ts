/** What stands and lies round the pitches: trees, barriers, buildings, roads, ground and the campground's services. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import type { CampgroundFeature } from "../../site/feature.ts";
import type { Classified } from "./classify.ts";
import { asArea, asLine, idOf, isClosed, type OsmElement, type OsmGeometry } from "./element.ts";
import { set } from "./member.ts";
import type { OsmNotes } from "./notes.ts";
import { middleOf } from "./place.ts";
import { TagReader } from "./tags.ts";
import { dayOf, inclineOf, lengthOf, limitOf } from "./values.ts";

type Made = readonly CampgroundFeature[];
type Maker = (reader: TagReader, one: Classified) => Made;

/** Features of one element; empty with a warning when its shape does not serve. */
export function surroundingsOf(one: Classified, notes: OsmNotes): Made {
  const make = MAKERS[one.role];
  if (make === undefined) return [];
  const reader = new TagReader(one.element, notes);
  reader.get(one.by);
  const made = make(reader, one);
  if (made.length > 0) reader.countKept();
  return made;
}

const MAKERS: Partial<Record<Classified["role"], Maker>> = {
  tree: makeTree,
  treeRow: makeTreeRow,
  barrier: makeBarrier,
  building: makeBuilding,
  road: makeRoad,
  walkway: makeWalkway,
  ground: makeGround,
  thing: makeThing,
  dump: (reader, one) => makeFacility(reader, one, "dump"),
  fill: (reader, one) => makeFacility(reader, one, "fill"),
  drinkingWater: (reader, one) => makeFacility(reader, one, "fill", "yes"),
  gate: (reader, one) => makeFacility(reader, one, "gate"),
};

function feature(
  reader: TagReader,
  { element }: Classified,
  geometry: OsmGeometry,
  properties: Readonly<Record<string, unknown>>,
  part = "",
): CampgroundFeature {
  const observedAt = set("observedAt", dayOf(reader, table.survey.observed));
  const how = { basis: "mapped", accuracy: table.accuracy.mapped, ...observedAt };
  return {
    type: "Feature",
    id: `${idOf(element.key)}${part}`,
    geometry,
    properties: { ...properties, ...how, osm: reader.kept() },
  };
}

/** No shape that the kind could have: told of, left out. */
function shapeless(reader: TagReader, { by }: Classified, wanted: string): Made {
  reader.warn("incomplete-geometry", by, `It has no ${wanted} and was left out.`);
  return [];
}

function point(element: OsmElement): OsmGeometry | null {
  const middle = middleOf(element);
  return middle === null ? null : { type: "Point", coordinates: middle.position };
}

const TALLEST_TREE = 130;
const WIDEST_CROWN = 60;
const TALLEST_BUILDING = 200;
const WIDEST_ROAD = 100;

/** A tree is two things: a trunk that stands in the way and a crown that breaks the wind. Most have no height. */
function makeTree(reader: TagReader, one: Classified): Made {
  const { geometry } = one.element;
  if (geometry?.type !== "Point") return shapeless(reader, one, "place of a single tree");
  const height = lengthOf(reader, "height", TALLEST_TREE);
  const round = lengthOf(reader, "circumference", WIDEST_CROWN);
  const trunk = round === undefined ? undefined : round / (2 * Math.PI);
  const crown = lengthOf(reader, "diameter_crown", WIDEST_CROWN);
  const leaf = leafOf(reader);
  return [
    feature(reader, one, geometry, { kind: "obstacle", what: "tree", ...set("radius", trunk), ...set("to", height) }),
    feature(
      reader,
      one,
      geometry,
      { kind: "shelter", what: "trees", ...set("height", height), ...set("radius", half(crown)), ...leaf },
      "-crown",
    ),
  ];
}

function half(value: number | undefined): number | undefined {
  return value === undefined ? undefined : value / 2;
}

function leafOf(reader: TagReader): { leaf?: "evergreen" | "deciduous" } {
  const cycle = reader.get("leaf_cycle");
  if (cycle === "evergreen" || cycle === "deciduous") return { leaf: cycle };
  if (cycle !== undefined) reader.unread("leaf_cycle");
  return {};
}

function makeTreeRow(reader: TagReader, one: Classified): Made {
  const line = asLine(one.element);
  if (line === null) return shapeless(reader, one, "line");
  const height = lengthOf(reader, "height", TALLEST_TREE);
  const crown = lengthOf(reader, "diameter_crown", WIDEST_CROWN);
  return [
    feature(reader, one, line, { kind: "obstacle", what: "tree", ...set("to", height) }),
    feature(
      reader,
      one,
      line,
      { kind: "shelter", what: "trees", ...set("height", height), ...set("width", crown), ...leafOf(reader) },
      "-crown",
    ),
  ];
}

/** A hedge, wall or fence is a line, also when it closes, unless area=yes says otherwise. */
function makeBarrier(reader: TagReader, one: Classified): Made {
  const { element, what } = one;
  const area = reader.get("area") === "yes" ? asArea(element) : null;
  const geometry = area ?? asLine(element);
  if (geometry === null) return shapeless(reader, one, "line");
  const height = lengthOf(reader, "height", TALLEST_TREE);
  const width = area === null ? lengthOf(reader, "width", WIDEST_ROAD) : undefined;
  return [feature(reader, one, geometry, { kind: "shelter", what, ...set("height", height), ...set("width", width) })];
}

function makeBuilding(reader: TagReader, one: Classified): Made {
  const area = asArea(one.element);
  if (area === null) return shapeless(reader, one, "area");
  const underground = reader.tags.get("location") === "underground" || Number(reader.tags.get("layer") ?? 0) < 0;
  if (underground) {
    reader.warn("ignored-element", one.by, "It lies beneath the ground and was left out.");
    return [];
  }
  const from = reader.tags.get("min_height") === "0" ? undefined : lengthOf(reader, "min_height", TALLEST_BUILDING);
  const height = lengthOf(reader, "height", TALLEST_BUILDING);
  if (height !== undefined && from !== undefined && from >= height) {
    reader.remark("contradiction", "min_height", "min_height is not below height; neither is used.");
    return [feature(reader, one, area, { kind: "shelter", what: "building" })];
  }
  if (from !== undefined) {
    return [feature(reader, one, area, { kind: "obstacle", what: "roof", from, ...set("to", height) })];
  }
  const top = height ?? storeys(reader);
  return [feature(reader, one, area, { kind: "shelter", what: "building", ...set("height", top) })];
}

const MOST_STOREYS = 60;

/** Storeys as a height, told as the estimate that it is. */
function storeys(reader: TagReader): number | undefined {
  const levels = reader.get("building:levels");
  if (levels === undefined) return undefined;
  const count = /^\d+(\.\d+)?$/.test(levels) ? Number(levels) : 0;
  if (count <= 0 || count > MOST_STOREYS) {
    reader.unread("building:levels");
    reader.warn("bad-value", "building:levels", "It is no number of storeys.");
    return undefined;
  }
  const { levelHeight, source } = table.judgement;
  reader.remarks.push(`The height is estimated: ${levels} storeys of ${levelHeight} m (${source}).`);
  return count * levelHeight;
}

function makeRoad(reader: TagReader, one: Classified): Made {
  // A paved area has no line that a rig follows.
  const drawn = reader.tags.get("area") === "yes" ? null : asLine(one.element);
  if (drawn === null) return shapeless(reader, one, "line");
  const oneway = reader.get("oneway");
  // -1 means one way against the drawn direction: the line is turned, so that it runs the way that is driven.
  const turned = oneway === "-1" || oneway === "reverse";
  const line =
    turned && drawn.type === "LineString" ? { ...drawn, coordinates: [...drawn.coordinates].reverse() } : drawn;
  const clearHeight = limitOf(reader, ["maxheight", "maxheight:physical"], TALLEST_BUILDING);
  const slope = inclineOf(reader);
  const incline = slope === undefined ? {} : { incline: turned ? -slope : slope };
  const made = feature(reader, one, line, {
    kind: "road",
    ...set("name", reader.get("name") ?? reader.get("ref")),
    ...set("width", lengthOf(reader, "width", WIDEST_ROAD)),
    ...oneWayOf(reader, oneway, turned),
    ...set("clearHeight", clearHeight),
  });
  const osm = { ...(made.properties["osm"] as Record<string, unknown>), ...incline };
  return [{ ...made, properties: { ...made.properties, osm } }];
}

function oneWayOf(reader: TagReader, oneway: string | undefined, turned: boolean): { oneWay?: boolean } {
  if (turned || oneway === "yes" || oneway === "true" || oneway === "1") return { oneWay: true };
  if (oneway === "no" || oneway === "false" || oneway === "0") return { oneWay: false };
  if (oneway !== undefined) reader.unread("oneway");
  return {};
}

function makeWalkway(reader: TagReader, one: Classified): Made {
  const { element, what } = one;
  const area = reader.get("area") === "yes" ? asArea(element) : null;
  const geometry = area ?? asLine(element);
  if (geometry === null) return shapeless(reader, one, "line");
  const width = area === null ? lengthOf(reader, "width", WIDEST_ROAD) : undefined;
  return [feature(reader, one, geometry, { kind: "obstacle", what, ...set("width", width) })];
}

function makeGround(reader: TagReader, one: Classified): Made {
  const area = asArea(one.element);
  // A nameless grove as a point has no extent: it tells nothing of the ground.
  if (area === null) return shapeless(reader, one, "area");
  return [feature(reader, one, area, { kind: "ground", what: one.what, ...set("name", reader.get("name")) })];
}

function makeThing(reader: TagReader, one: Classified): Made {
  const { element, what } = one;
  const area = asArea(element);
  const geometry = area ?? point(element);
  if (geometry === null) return shapeless(reader, one, "place");
  const diameter = area === null ? lengthOf(reader, "diameter", WIDEST_CROWN) : undefined;
  const radius = set("radius", half(diameter));
  return [
    feature(reader, one, geometry, {
      kind: "obstacle",
      what,
      ...radius,
      ...set("to", lengthOf(reader, "height", TALLEST_TREE)),
    }),
  ];
}

function makeFacility(reader: TagReader, one: Classified, kind: "dump" | "fill" | "gate", drinkable?: "yes"): Made {
  const { element } = one;
  const drawn = element.geometry;
  const open = drawn?.type === "LineString" && !isClosed(drawn.coordinates);
  const geometry = open ? drawn : (asArea(element) ?? point(element));
  if (geometry === null) return shapeless(reader, one, "place");
  const water = kind === "gate" ? {} : set("drinkable", reader.yesNo("drinking_water") ?? drinkable);
  const passing =
    kind === "gate"
      ? {
          ...set("clearHeight", limitOf(reader, ["maxheight", "maxheight:physical"], TALLEST_BUILDING)),
          ...set("width", limitOf(reader, ["maxwidth", "maxwidth:physical"], WIDEST_ROAD)),
        }
      : {};
  return [
    feature(reader, one, geometry, {
      kind,
      ...set("name", reader.get("name") ?? reader.get("ref")),
      ...set("hours", reader.get("opening_hours")),
      ...set("fee", reader.get("charge") ?? reader.get("fee")),
      ...set("season", reader.get("seasonal")),
      ...water,
      ...passing,
    }),
  ];
}
