/** Answers of the geodata interface: the format asked for, links in the body and in the Link header, numbers as text. */
import { negotiate } from "../negotiate.ts";
import { Problem } from "../problem.ts";
import { cacheable } from "../representation.ts";
import type { Collection } from "./collections.ts";
import type { OgcFeature } from "./features/feature.ts";

export const JSON_TYPE = "application/json";
export const GEOJSON_TYPE = "application/geo+json";
export const SCHEMA_TYPE = "application/schema+json";

export const ROOT = "/ogc";
export const QUERYABLES_RELATION = "http://www.opengis.net/def/rel/ogc/1.0/queryables";

export interface Link {
  readonly rel: string;
  readonly href: string;
  readonly type: string;
  readonly title: string;
}

/** Media types by the word that the parameter `f` gives them; the first is given when nothing is asked. */
export type Formats = readonly [readonly [word: string, type: string], ...(readonly [word: string, type: string])[]];

/** `f` goes before Accept. */
export function formatFor(request: Request, url: URL, formats: Formats): string {
  const word = url.searchParams.get("f");
  if (word === null)
    return negotiate(request.headers.get("accept"), formats.map(([, type]) => type) as [string, ...string[]]);
  const found = formats.find(([name]) => name === word);
  if (found !== undefined) return found[1];
  const expected = formats.map(([name]) => name).join(", ");
  throw new Problem("invalid-parameter", `The parameter f is not accepted: ${expected} is wanted.`, [
    { parameter: "f", code: "bad-form", message: "This format is not given here.", expected },
  ]);
}

/** This document, and the same in every other format. */
export function ownLinks(url: URL, given: string, formats: Formats): Link[] {
  return formats.map(([word, type]) => {
    const address = new URL(url);
    if (type !== given) address.searchParams.set("f", word);
    const title = type === given ? "This document" : `This document as ${type}`;
    return { rel: type === given ? "self" : "alternate", href: address.href, type, title };
  });
}

export function linkHeader(links: readonly Link[]): Readonly<Record<string, string>> {
  return { Link: links.map(({ rel, href, type }) => `<${href}>; rel="${rel}"; type="${type}"`).join(", ") };
}

/** A JSON object with its links, in the body and in the header. */
export function linkedAnswer(
  request: Request,
  type: string,
  body: { readonly links: readonly Link[] } & Readonly<Record<string, unknown>>,
): Promise<Response> {
  return cacheable(request, JSON.stringify(body), type, linkHeader(body.links));
}

/** Far finer than anything that is measured, and free of the last digits that sums leave behind. */
const DIGITS = 12;

function fractionText(value: number): string {
  const text = JSON.stringify(Number(value.toPrecision(DIGITS)));
  return /^-?\d+$/.test(text) ? `${text}.0` : text;
}

/**
 * A feature as text. Numbers of a column that may have a fraction are written with one: whoever tells types from the
 * first page would otherwise take a column of whole numbers for integers, and cut the fractions off that come later.
 */
export function featureText({ columns }: Collection, feature: OgcFeature, links: readonly Link[] = []): string {
  const properties = columns.map(({ name, type }) => {
    const value = feature.properties[name] ?? null;
    const text = type === "number" && typeof value === "number" ? fractionText(value) : JSON.stringify(value);
    return `${JSON.stringify(name)}:${text}`;
  });
  const members = [
    `"type":"Feature"`,
    `"id":${JSON.stringify(feature.id)}`,
    `"geometry":${JSON.stringify(feature.geometry)}`,
    `"properties":{${properties.join(",")}}`,
  ];
  if (links.length > 0) members.push(`"links":${JSON.stringify(links)}`);
  return `{${members.join(",")}}`;
}
