/** Nodes, ways and relations as they are listed, gathered under caps before shapes are made of them. */
import type { Position } from "./element.ts";
import { OSM_LIMITS } from "./limits.ts";
import { type OsmNotes, quoted } from "./notes.ts";
import { putTag } from "./tags.ts";

/** A position as text or number; either may be missing. */
export interface RawPlace {
  readonly lon: unknown;
  readonly lat: unknown;
}

export interface RawMember {
  readonly type: string;
  readonly ref: string;
  readonly role: string;
  /** Positions delivered with the member; undefined when it has to be looked up. */
  readonly drawn: readonly (RawPlace | null)[] | undefined;
}

interface RawNode {
  readonly key: string;
  /** Null when its position is none on the earth. */
  readonly position: Position | null;
  readonly tags: ReadonlyMap<string, string>;
}

export interface RawWay {
  readonly key: string;
  readonly refs: readonly string[];
  readonly drawn: readonly (Position | null)[] | undefined;
  readonly centre: Position | null;
  readonly tags: ReadonlyMap<string, string>;
}

export interface RawRelation {
  readonly key: string;
  readonly members: readonly (Omit<RawMember, "drawn"> & {
    readonly drawn: readonly (Position | null)[] | undefined;
  })[];
  readonly centre: Position | null;
  readonly tags: ReadonlyMap<string, string>;
}

export interface RawElements {
  readonly nodes: ReadonlyMap<string, RawNode>;
  readonly ways: ReadonlyMap<string, RawWay>;
  readonly relations: ReadonlyMap<string, RawRelation>;
  readonly isOpenStreetMap: boolean;
  readonly dataAsOf: string | null;
}

const ID = /^-?\d{1,19}$/;
const COORDINATE = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;
const MOST_LONGITUDE = 180;
const MOST_LATITUDE = 90;

/** A position on the earth from two numbers or texts; null when it is none. */
export function readPosition(place: RawPlace): Position | null {
  const longitude = degreesOf(place.lon);
  const latitude = degreesOf(place.lat);
  if (longitude === null || latitude === null) return null;
  if (Math.abs(longitude) > MOST_LONGITUDE || Math.abs(latitude) > MOST_LATITUDE) return null;
  return [longitude, latitude];
}

function degreesOf(value: unknown): number | null {
  const number =
    typeof value === "number"
      ? value
      : typeof value === "string" && COORDINATE.test(value)
        ? Number(value)
        : Number.NaN;
  return Number.isFinite(number) ? number : null;
}

export class RawBuilder {
  private readonly nodes = new Map<string, RawNode>();
  private readonly ways = new Map<string, RawWay>();
  private readonly relations = new Map<string, RawRelation>();
  private elements = 0;

  constructor(private readonly notes: OsmNotes) {}

  node(id: unknown, lon: unknown, lat: unknown, tags: readonly (readonly [string, string])[]): void {
    const key = this.key("node", id, this.nodes);
    if (key === null) return;
    const position = readPosition({ lon, lat });
    if (position === null) {
      const text = `The position ${quoted(`${String(lon)}, ${String(lat)}`)} is none on the earth (longitude, latitude).`;
      this.notes.warn("bad-position", key, null, text);
    }
    this.nodes.set(key, { key, position, tags: this.tags(tags, key) });
  }

  way(
    id: unknown,
    refs: readonly string[],
    drawn: readonly (RawPlace | null)[] | undefined,
    centre: RawPlace | undefined,
    tags: readonly (readonly [string, string])[],
  ): void {
    const key = this.key("way", id, this.ways);
    if (key === null || !this.within(key, Math.max(refs.length, drawn?.length ?? 0))) return;
    this.ways.set(key, {
      key,
      refs,
      drawn: drawn?.map(placeOrNull),
      centre: placeOrNull(centre ?? null),
      tags: this.tags(tags, key),
    });
  }

  relation(
    id: unknown,
    members: readonly RawMember[],
    centre: RawPlace | undefined,
    tags: readonly (readonly [string, string])[],
  ): void {
    const key = this.key("relation", id, this.relations);
    if (key === null || !this.within(key, members.length)) return;
    this.relations.set(key, {
      key,
      members: members.map((member) => ({ ...member, drawn: member.drawn?.map(placeOrNull) })),
      centre: placeOrNull(centre ?? null),
      tags: this.tags(tags, key),
    });
  }

  done(source: Pick<RawElements, "isOpenStreetMap" | "dataAsOf">): RawElements | null {
    if (this.notes.errors.length > 0) return null;
    return { nodes: this.nodes, ways: this.ways, relations: this.relations, ...source };
  }

  /** The element's key; null when it has no id, is there already, or is one too many. */
  private key(type: string, id: unknown, known: ReadonlyMap<string, unknown>): string | null {
    this.elements += 1;
    if (this.elements > OSM_LIMITS.elements) {
      if (this.elements === OSM_LIMITS.elements + 1) {
        const expected = `at most ${OSM_LIMITS.elements} nodes, ways and relations`;
        this.notes.fail("too-many-elements", "The data have too many elements.", expected);
      }
      return null;
    }
    const text = typeof id === "number" || typeof id === "string" ? String(id) : "";
    if (!ID.test(text)) {
      this.notes.warn("ignored-element", null, null, `A ${type} with the id ${quoted(text)} was left out.`);
      return null;
    }
    const key = `${type}/${text}`;
    if (!known.has(key)) return key;
    this.notes.warn("duplicate-element", key, null, "It is there twice; the first stands.");
    return null;
  }

  private within(key: string, members: number): boolean {
    if (members <= OSM_LIMITS.members) return true;
    const text = `It has ${members} members, more than ${OSM_LIMITS.members}, and was left out.`;
    this.notes.warn("ignored-element", key, null, text);
    return false;
  }

  private tags(pairs: readonly (readonly [string, string])[], element: string): Map<string, string> {
    const tags = new Map<string, string>();
    for (const [key, value] of pairs) putTag(tags, key, value, element, this.notes);
    return tags;
  }
}

function placeOrNull(place: RawPlace | null): Position | null {
  return place === null ? null : readPosition(place);
}
