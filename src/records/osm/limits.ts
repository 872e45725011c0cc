/** Caps on what the importer of open map data takes, published with the other limits of the service. */
import { CAMPGROUND_LIMITS } from "../geojson-limits.ts";

interface OsmLimits {
  /** Bytes of the text in UTF-8. */
  readonly bytes: number;
  /** Opening angle brackets of an XML text: counted before it is parsed. */
  readonly markup: number;
  /** Characters between two angle brackets of an XML text. */
  readonly tagLength: number;
  /** Nesting of XML elements; OSM XML needs three. */
  readonly depth: number;
  /** Nodes, ways and relations, or features. */
  readonly elements: number;
  readonly tagsPerElement: number;
  /** Characters of a key and of a value; OpenStreetMap itself takes 255. */
  readonly textLength: number;
  /** Ways of one relation, nodes of one way. */
  readonly members: number;
  readonly warnings: number;
  /** Different keys that the report counts one by one. */
  readonly reportedKeys: number;
}

export const OSM_LIMITS: OsmLimits = {
  bytes: CAMPGROUND_LIMITS.bytes,
  markup: 600_000,
  tagLength: 20_000,
  depth: 12,
  elements: 200_000,
  tagsPerElement: 500,
  textLength: 1000,
  members: 20_000,
  warnings: 1000,
  reportedKeys: 1000,
};
