/** Shapes of raw elements: nodes as points, ways as lines, multipolygon relations as areas. */
import { ringContains } from "../../geo/longitude-latitude.ts";
import { CAMPGROUND_LIMITS } from "../geojson-limits.ts";
import { isClosed, type OsmElement, type OsmGeometry, type OsmSource, type Position } from "./element.ts";
import type { OsmNotes } from "./notes.ts";
import type { RawElements, RawRelation, RawWay } from "./raw.ts";

type Line = readonly Position[];

/** Elements with tags, in the order nodes, ways, relations. Nodes without tags only carry ways. */
export function assemble(raw: RawElements, format: OsmSource["format"], notes: OsmNotes): OsmSource {
  const elements: OsmElement[] = [];
  for (const { key, position, tags } of raw.nodes.values()) {
    if (tags.size === 0) continue;
    const geometry: OsmGeometry | null = position === null ? null : { type: "Point", coordinates: position };
    elements.push({ key, type: "node", tags, geometry, partial: false });
  }
  for (const way of raw.ways.values()) {
    if (way.tags.size > 0) elements.push(wayElement(way, raw, notes));
  }
  for (const relation of raw.relations.values()) {
    if (relation.tags.size > 0) elements.push(relationElement(relation, raw, notes));
  }
  const { isOpenStreetMap, dataAsOf } = raw;
  const counts = { nodes: raw.nodes.size, ways: raw.ways.size, relations: raw.relations.size };
  return { format, ...counts, isOpenStreetMap, dataAsOf, elements };
}

function wayElement(way: RawWay, raw: RawElements, notes: OsmNotes): OsmElement {
  const { key, tags, centre } = way;
  const { line, missing } = positionsOfWay(way, raw);
  const common = { key, type: "way", tags } as const;
  if (missing > 0) {
    const text = `${missing} of its nodes are missing or have no place; only a connected part of it is used.`;
    notes.warn("missing-reference", key, null, text);
  }
  if (line.length > 1) {
    return { ...common, geometry: { type: "LineString", coordinates: line }, partial: missing > 0 };
  }
  const alone = line[0] ?? centre;
  if (alone === null) {
    if (missing === 0) notes.warn("incomplete-geometry", key, null, "The way has no nodes and no place.");
    return { ...common, geometry: null, partial: true };
  }
  return { ...common, geometry: { type: "Point", coordinates: alone }, partial: true };
}

/** The longest connected run of a way's positions, and how many are missing. */
function positionsOfWay(way: RawWay, raw: RawElements): { readonly line: Line; readonly missing: number } {
  const places =
    way.drawn !== undefined && way.drawn.length >= way.refs.length
      ? way.drawn
      : way.refs.map((ref) => raw.nodes.get(`node/${ref}`)?.position ?? null);
  // Overpass without places of its own (`out center`) lists nodes that were not asked for: nothing is missing then.
  if (way.centre !== null && places.every((place) => place === null)) return { line: [], missing: 0 };
  let best: Position[] = [];
  let run: Position[] = [];
  for (const place of places) {
    if (place === null) run = [];
    else {
      run.push(place);
      if (run.length > best.length) best = run;
    }
  }
  return { line: best, missing: places.filter((place) => place === null).length };
}

const AREA_RELATIONS: ReadonlySet<string> = new Set(["multipolygon", "boundary"]);

function relationElement(relation: RawRelation, raw: RawElements, notes: OsmNotes): OsmElement {
  const { key, tags, centre } = relation;
  const common = { key, type: "relation", tags } as const;
  const place: OsmGeometry | null = centre === null ? null : { type: "Point", coordinates: centre };
  if (!AREA_RELATIONS.has(tags.get("type") ?? "")) return { ...common, geometry: place, partial: true };
  const outer = ringsOf(relation, ["outer", ""], raw);
  const inner = ringsOf(relation, ["inner"], raw);
  if (outer.missing + inner.missing > 0) {
    const text = `${outer.missing + inner.missing} of its ways are missing or broken.`;
    if (place === null || outer.known) notes.warn("missing-reference", key, null, text);
  }
  const broken = outer.open > 0 || inner.open > 0 || outer.missing > 0 || inner.missing > 0;
  if (broken || outer.rings.length === 0) {
    if (outer.open + inner.open > 0) notes.warn("incomplete-geometry", key, null, "Its outline does not close.");
    return { ...common, geometry: place, partial: true };
  }
  if (outer.rings.length + inner.rings.length > CAMPGROUND_LIMITS.rings) {
    notes.warn("incomplete-geometry", key, null, `It has more than ${CAMPGROUND_LIMITS.rings} rings.`);
    return { ...common, geometry: place, partial: true };
  }
  return { ...common, geometry: withHoles(outer.rings, inner.rings, key, notes), partial: false };
}

function withHoles(outer: readonly Line[], inner: readonly Line[], key: string, notes: OsmNotes): OsmGeometry {
  const polygons = outer.map((ring) => [ring]);
  for (const hole of inner) {
    const first = hole[0];
    const home = first === undefined ? undefined : polygons.find(([ring]) => ring && ringContains(ring, first));
    if (home === undefined) notes.warn("bad-geometry", key, null, "A hole that lies in no part of it was left out.");
    else home.push(hole);
  }
  const only = polygons[0];
  return polygons.length === 1 && only !== undefined
    ? { type: "Polygon", coordinates: only }
    : { type: "MultiPolygon", coordinates: polygons };
}

interface Rings {
  readonly rings: readonly Line[];
  /** Chains that do not close. */
  readonly open: number;
  /** Ways that are not in the data. */
  readonly missing: number;
  /** True when at least one way was found. */
  readonly known: boolean;
}

function ringsOf(relation: RawRelation, roles: readonly string[], raw: RawElements): Rings {
  const lines: Line[] = [];
  let missing = 0;
  for (const { type, ref, role, drawn } of relation.members) {
    if (type !== "way" || !roles.includes(role)) continue;
    const way = raw.ways.get(`way/${ref}`);
    const found =
      drawn !== undefined
        ? { line: drawn.filter((place) => place !== null), missing: drawn.filter((place) => place === null).length }
        : way === undefined
          ? { line: [], missing: 1 }
          : positionsOfWay(way, raw);
    if (found.missing > 0 || found.line.length < 2) missing += 1;
    else lines.push(found.line);
  }
  return { ...joined(lines), missing, known: lines.length > 0 };
}

/** Lines joined end to end into rings. Ends meet where they are the very same position. */
export function joined(lines: readonly Line[]): { readonly rings: readonly Line[]; readonly open: number } {
  const rings: Line[] = [];
  const byEnd = new Map<string, Set<Line>>();
  const name = (place: Position | undefined): string => (place === undefined ? "" : place.join(" "));
  const ends = (line: Line): string[] => [name(line[0]), name(line.at(-1))];
  const waiting = new Set<Line>();
  for (const line of lines) {
    if (isClosed(line)) {
      rings.push(line);
      continue;
    }
    waiting.add(line);
    for (const end of ends(line)) byEnd.set(end, (byEnd.get(end) ?? new Set()).add(line));
  }
  const take = (line: Line): void => {
    waiting.delete(line);
    for (const end of ends(line)) byEnd.get(end)?.delete(line);
  };
  let open = 0;
  for (const start of lines) {
    if (!waiting.has(start)) continue;
    take(start);
    const chain: Position[] = [...start];
    let next = byEnd
      .get(name(chain.at(-1)))
      ?.values()
      .next().value;
    while (!isClosed(chain) && next !== undefined) {
      take(next);
      const forward = name(next[0]) === name(chain.at(-1));
      chain.push(...(forward ? next : [...next].reverse()).slice(1));
      next = byEnd
        .get(name(chain.at(-1)))
        ?.values()
        .next().value;
    }
    if (isClosed(chain)) rings.push(chain);
    else open += 1;
  }
  return { rings, open };
}
