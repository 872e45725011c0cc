/** What the routes of the geodata interface have in common: parameters and words for the description. */
import type { Parameter, Route } from "../route.ts";
import { COLLECTION_IDS, type Collection } from "./collections.ts";
import { columnSchema } from "./columns.ts";

const LONGEST_ID = 600;
const BOX_NUMBERS = 4;
const SOLID_BOX_NUMBERS = 6;

export const collectionParameter: Parameter = {
  name: "collectionId",
  in: "path",
  description: "Id of the collection.",
  schema: { type: "string", enum: COLLECTION_IDS },
  example: "sites",
};

export const featureParameter: Parameter = {
  name: "featureId",
  in: "path",
  description: "Id of the feature, as its collection gives it.",
  schema: { type: "string", minLength: 1, maxLength: LONGEST_ID },
  example: "alder-flat:A7",
};

export const formatParameter = (...words: readonly string[]): Parameter => ({
  name: "f",
  in: "query",
  description: "Format of the answer; goes before the Accept header.",
  schema: { type: "string", enum: words },
});

export const itemsParameters = (page: number, usual: number): readonly Parameter[] => [
  {
    name: "limit",
    in: "query",
    description: "Largest number of features in this page. More than the largest page is lowered to it.",
    schema: { type: "integer", minimum: 1, maximum: page, default: usual },
    example: 10,
  },
  {
    name: "bbox",
    in: "query",
    description:
      "Only features whose geometry meets this box, and those without geometry: west,south,east,north in degrees (CRS84), or six numbers with heights, which choose nothing here. West above east crosses the antimeridian.",
    schema: { type: "array", minItems: BOX_NUMBERS, maxItems: SOLID_BOX_NUMBERS, items: { type: "number" } },
    style: "form",
    explode: false,
  },
  {
    name: "datetime",
    in: "query",
    description:
      "An instant of RFC 3339, or an interval such as 2026-07-01T00:00:00Z/.. — no feature here has a time of its own, and such features match any.",
    schema: { type: "string", maxLength: 100 },
  },
  {
    name: "cursor",
    in: "query",
    description: "Where the page begins; from the links `next` and `prev` of another page, never made by hand.",
    schema: { type: "string", maxLength: LONGEST_ID },
  },
];

/** One parameter for each property that can be filtered by. */
export function queryParameters({ columns }: Collection): readonly Parameter[] {
  return columns
    .filter((column) => column.queryable === true)
    .map((column) => {
      const { title, ...schema } = columnSchema(column);
      return { name: column.name, in: "query", description: String(title), schema };
    });
}

type Shared = Pick<Route, "method" | "tag" | "conditional">;

export const SHARED: Shared = { method: "GET", tag: "Geodata", conditional: true };
