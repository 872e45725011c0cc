/**
 * OSM XML (API 0.6 and Overpass) as raw elements. A document type, entities of its own and excess nesting are refused
 * before anything is expanded; the five entities of XML and character references are read by ourselves.
 */
import { XMLParser, XMLValidator } from "fast-xml-parser";
import { OSM_LIMITS } from "./limits.ts";
import { type OsmNotes, quoted } from "./notes.ts";
import type { RawElements, RawMember } from "./raw.ts";
import { RawBuilder } from "./raw.ts";

const LISTS: ReadonlySet<string> = new Set(["node", "way", "relation", "tag", "nd", "member"]);
const ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
const ENTITY = /&(?:#x([0-9a-fA-F]{1,6})|#(\d{1,7})|([A-Za-z][\w.-]*));|&/g;
const HEXADECIMAL = 16;
const DECIMAL = 10;
const LAST_CODE_POINT = 0x10ffff;

type Node = Readonly<Record<string, unknown>>;

/** The elements of the text, or null when it is refused (the notes say why). */
export function readXml(text: string, notes: OsmNotes): RawElements | null {
  if (/<!(DOCTYPE|ENTITY|ELEMENT|ATTLIST|NOTATION)/i.test(text)) {
    notes.fail("doctype-refused", "The text has a document type or entities of its own.", "OSM XML without a DOCTYPE");
    return null;
  }
  if (!isModest(text, notes)) return null;
  const root = parse(text, notes);
  if (root === null) return null;
  const builder = new RawBuilder(notes);
  const reader = new XmlReader(builder, notes);
  if (!reader.read(root)) return null;
  const meta = one(root["meta"]);
  const written = attribute(meta, "osm_base") ?? attribute(root, "timestamp");
  return builder.done({ isOpenStreetMap: true, dataAsOf: written ?? null });
}

const OPENING = "<".charCodeAt(0);
const CLOSING = ">".charCodeAt(0);

/** Counts tags and their lengths before anything is parsed: the parser's time grows with both. */
function isModest(text: string, notes: OsmNotes): boolean {
  let opened = 0;
  let since = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === OPENING) opened += 1;
    if (code === OPENING || code === CLOSING) since = at;
    if (at - since <= OSM_LIMITS.tagLength && opened <= OSM_LIMITS.markup) continue;
    if (opened > OSM_LIMITS.markup) {
      notes.fail("too-many-elements", "The text has too many XML tags.", `at most ${OSM_LIMITS.markup} tags`);
    } else {
      const expected = `at most ${OSM_LIMITS.tagLength} characters between angle brackets`;
      notes.fail("malformed-xml", "A tag or a text of the XML is too long.", expected);
    }
    return false;
  }
  return true;
}

function parse(text: string, notes: OsmNotes): Node | null {
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "@",
    parseTagValue: false,
    parseAttributeValue: false,
    processEntities: false,
    trimValues: true,
    ignoreDeclaration: true,
    ignorePiTags: true,
    maxNestedTags: OSM_LIMITS.depth,
    isArray: (name) => LISTS.has(name),
  });
  try {
    const valid = XMLValidator.validate(text);
    if (valid !== true) {
      const { msg, line, col } = valid.err;
      notes.fail(
        "malformed-xml",
        `Not XML: ${msg.slice(0, LONGEST_MESSAGE)} (line ${line}, column ${col})`,
        "well-formed OSM XML",
      );
      return null;
    }
    const osm = (parser.parse(text) as Node)["osm"];
    // An element without attributes and children comes as an empty text.
    const root = osm === "" ? {} : one(osm);
    if (root === null) notes.fail("not-osm", "The root element is not <osm>.", "OSM XML with the root element <osm>");
    return root;
  } catch (thrown) {
    const message = thrown instanceof Error ? thrown.message : "it cannot be parsed";
    const code = /nest/i.test(message) ? "too-deep" : "malformed-xml";
    notes.fail(code, `Not OSM XML: ${message.slice(0, LONGEST_MESSAGE)}`, "well-formed OSM XML");
    return null;
  }
}

const LONGEST_MESSAGE = 200;

/** An element of which there is one; null for text, several or none. */
function one(value: unknown): Node | null {
  return typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Node) : null;
}

function nodes(value: unknown): readonly Node[] {
  return Array.isArray(value) ? value.map(one).filter((node) => node !== null) : [];
}

function attribute(node: Node | null, name: string): string | undefined {
  const value = node?.[`@${name}`];
  return typeof value === "string" ? value : undefined;
}

class XmlReader {
  constructor(
    private readonly builder: RawBuilder,
    private readonly notes: OsmNotes,
  ) {}

  /** False when an entity is met that XML does not know. */
  read(root: Node): boolean {
    for (const node of nodes(root["node"])) {
      if (this.gone(node)) continue;
      const { builder } = this;
      builder.node(attribute(node, "id"), attribute(node, "lon"), attribute(node, "lat"), this.tags(node));
    }
    for (const way of nodes(root["way"])) {
      if (this.gone(way)) continue;
      const refs = nodes(way["nd"]).map((nd) => attribute(nd, "ref") ?? "");
      const inline = nodes(way["nd"]).map((nd) => ({ lon: attribute(nd, "lon"), lat: attribute(nd, "lat") }));
      const drawn = inline.some((place) => place.lon !== undefined) ? inline : undefined;
      this.builder.way(attribute(way, "id"), refs, drawn, centreOf(way), this.tags(way));
    }
    for (const relation of nodes(root["relation"])) {
      if (this.gone(relation)) continue;
      const members = nodes(relation["member"]).map(
        (member): RawMember => ({
          type: attribute(member, "type") ?? "",
          ref: attribute(member, "ref") ?? "",
          role: attribute(member, "role") ?? "",
          drawn: undefined,
        }),
      );
      this.builder.relation(attribute(relation, "id"), members, centreOf(relation), this.tags(relation));
    }
    return this.notes.errors.length === 0;
  }

  /** An element that the data say is deleted. */
  private gone(node: Node): boolean {
    return attribute(node, "visible") === "false" || attribute(node, "action") === "delete";
  }

  private tags(node: Node): [string, string][] {
    return nodes(node["tag"]).map((tag) => [this.decode(attribute(tag, "k")), this.decode(attribute(tag, "v"))]);
  }

  private decode(text: string | undefined): string {
    if (text === undefined) return "";
    if (!text.includes("&")) return text;
    return text.replace(ENTITY, (whole: string, hexadecimal?: string, decimal?: string, name?: string) => {
      const digits = hexadecimal ?? decimal;
      const code = digits === undefined ? null : Number.parseInt(digits, hexadecimal ? HEXADECIMAL : DECIMAL);
      const known =
        code === null
          ? Object.hasOwn(ENTITIES, name ?? "")
            ? ENTITIES[name ?? ""]
            : undefined
          : code > 0 && code <= LAST_CODE_POINT
            ? String.fromCodePoint(code)
            : undefined;
      if (known !== undefined) return known;
      if (this.notes.errors.length === 0) {
        const expected = "only &amp; &lt; &gt; &quot; &apos; and character references";
        this.notes.fail("entity-refused", `The entity ${quoted(whole)} is not one of XML's.`, expected);
      }
      return "";
    });
  }
}

function centreOf(node: Node): { lon: unknown; lat: unknown } | undefined {
  const centre = one(node["center"]);
  return centre === null ? undefined : { lon: attribute(centre, "lon"), lat: attribute(centre, "lat") };
}
