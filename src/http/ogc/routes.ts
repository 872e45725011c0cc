/** OGC API Features over the stored campgrounds, read only: landing page, conformance, collections, features. */
import type { CampgroundStore } from "../../records/store.ts";
import { DEFAULT_LIMITS } from "../limits.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
import { cacheable } from "../representation.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import {
  type Formats,
  featureText,
  formatFor,
  GEOJSON_TYPE,
  JSON_TYPE,
  type Link,
  linkedAnswer,
  linkHeader,
  ownLinks,
  QUERYABLES_RELATION,
  ROOT,
  SCHEMA_TYPE,
} from "./answer.ts";
import { apiRoute, OPENAPI_TYPE } from "./api-route.ts";
import { COLLECTIONS, type Collection, collectionOf, featuresIn } from "./collections.ts";
import { columnSchema } from "./columns.ts";
import { collectionParameter, featureParameter, formatParameter, itemsParameters, SHARED } from "./describe.ts";
import { extentOf } from "./extent.ts";
import { campgroundOfId } from "./features/feature.ts";
import { type ItemsQuery, type Place, readItemsQuery, writePage } from "./query.ts";
import { countMatches, readsEveryRecord, scan } from "./scan.ts";

const JSON_FORMATS: Formats = [["json", JSON_TYPE]];
const SCHEMA_FORMATS: Formats = [["json", SCHEMA_TYPE]];
const FEATURE_FORMATS: Formats = [
  ["geojson", GEOJSON_TYPE],
  ["json", JSON_TYPE],
];
const CRS84 = "http://www.opengis.net/def/crs/OGC/1.3/CRS84";

/**
 * Classes of OGC 17-069r4 (Features Part 1) and OGC 19-079r2 (Part 3) whose requirements are met. The requirements were
 * read in the standards' own repository, the numbers of the editions from memory.
 */
const CONFORMANCE = [
  "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/core",
  "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/geojson",
  "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/oas30",
  "http://www.opengis.net/spec/ogcapi-features-3/1.0/conf/queryables",
  "http://www.opengis.net/spec/ogcapi-features-3/1.0/conf/queryables-query-parameters",
];

const addressOf = (url: URL, ...parts: readonly string[]): string =>
  [url.origin + ROOT, ...parts.map(encodeURIComponent)].join("/");

const landingRoute: Route = {
  ...SHARED,
  path: ROOT,
  alias: `${ROOT}/`,
  operationId: "ogcLanding",
  summary: "Geodata: where everything is",
  description: "OGC API Features for geographic information systems: the stored records, read only.",
  parameters: [formatParameter("json")],
  answer: { description: "The links.", content: { [JSON_TYPE]: { schema: schemaRef("OgcLanding") } } },
  problems: ["invalid-parameter"],
  handle: async ({ request, url }) => {
    refuseParameters(url, ["f"]);
    const type = formatFor(request, url, JSON_FORMATS);
    const links: Link[] = [
      ...ownLinks(url, type, JSON_FORMATS),
      { rel: "service-desc", href: addressOf(url, "api"), type: OPENAPI_TYPE, title: "The description" },
      {
        rel: "service-doc",
        href: `${addressOf(url, "api")}?f=html`,
        type: "text/html",
        title: "The description to read",
      },
      { rel: "conformance", href: addressOf(url, "conformance"), type: JSON_TYPE, title: "Conformance classes" },
      { rel: "data", href: addressOf(url, "collections"), type: JSON_TYPE, title: "The collections" },
    ];
    const description = "Campgrounds, sites, hookups and obstacles as they are on record.";
    return linkedAnswer(request, type, { title: "Padwright geodata", description, links });
  },
};

const conformanceRoute: Route = {
  ...SHARED,
  path: `${ROOT}/conformance`,
  operationId: "ogcConformance",
  summary: "Geodata: conformance classes",
  description:
    "The classes of the standard whose requirements are met, and no others. Over a catalogue of more than `campgroundsCounted` campgrounds there are none: there a box is held against the campgrounds that come near it, so that features without geometry do not match every box, as the core wants; everything else is the same.",
  parameters: [formatParameter("json")],
  answer: { description: "The classes.", content: { [JSON_TYPE]: { schema: schemaRef("OgcConformance") } } },
  problems: ["invalid-parameter"],
  handle: async ({ request, url, store, limits }) => {
    refuseParameters(url, ["f"]);
    const type = formatFor(request, url, JSON_FORMATS);
    // Every class rests on the core, and the core wants features without geometry to match any box.
    const conformsTo = (await readsEveryRecord(store, limits)) ? CONFORMANCE : [];
    return linkedAnswer(request, type, { conformsTo, links: ownLinks(url, type, JSON_FORMATS) });
  },
};

const collectionsRoute: Route = {
  ...SHARED,
  path: `${ROOT}/collections`,
  operationId: "describeCollections",
  summary: "Geodata: the collections",
  description: "Campgrounds, sites, hookups and obstacles, each with its extent and its links.",
  parameters: [formatParameter("json")],
  answer: { description: "The collections.", content: { [JSON_TYPE]: { schema: schemaRef("OgcCollections") } } },
  problems: ["invalid-parameter"],
  handle: async (call) => {
    const { request, url } = call;
    refuseParameters(url, ["f"]);
    const type = formatFor(request, url, JSON_FORMATS);
    const collections = [];
    for (const collection of COLLECTIONS) collections.push(await described(call, collection));
    return linkedAnswer(request, type, { collections, links: ownLinks(url, type, JSON_FORMATS) });
  },
};

async function described(call: Call, collection: Collection) {
  const { id, title, description } = collection;
  const { url } = call;
  const box = await extentOf(call, collection);
  const links: Link[] = [
    { rel: "self", href: addressOf(url, "collections", id), type: JSON_TYPE, title },
    ...FEATURE_FORMATS.map(([word, type]) => ({
      rel: "items",
      href: `${addressOf(url, "collections", id, "items")}?f=${word}`,
      type,
      title: `The features as ${type}`,
    })),
    queryablesLink(url, collection),
    // Relation types do not tell capitals from small letters (RFC 8288 section 3.3); some readers do.
    {
      rel: "describedBy",
      href: addressOf(url, "collections", id, "schema"),
      type: SCHEMA_TYPE,
      title: "The columns and their types",
    },
  ];
  return {
    id,
    title,
    description,
    itemType: "feature",
    crs: [CRS84],
    ...(box === null ? {} : { extent: { spatial: { bbox: [[...box]], crs: CRS84 } } }),
    links,
  };
}

const queryablesLink = (url: URL, { id }: Collection): Link => ({
  rel: QUERYABLES_RELATION,
  href: addressOf(url, "collections", id, "queryables"),
  type: SCHEMA_TYPE,
  title: "Properties to filter by",
});

const collectionRoute: Route = {
  ...SHARED,
  path: `${ROOT}/collections/{collectionId}`,
  operationId: "ogcCollection",
  summary: "Geodata: one collection",
  description: "The same as in the list of the collections.",
  parameters: [collectionParameter, formatParameter("json")],
  answer: { description: "The collection.", content: { [JSON_TYPE]: { schema: schemaRef("OgcCollection") } } },
  problems: ["invalid-parameter", "not-found"],
  handle: async (call) => {
    const collection = requireCollection(call);
    refuseParameters(call.url, ["f"]);
    const type = formatFor(call.request, call.url, JSON_FORMATS);
    return linkedAnswer(call.request, type, await described(call, collection));
  },
};

function requireCollection({ params }: Call): Collection {
  const collection = collectionOf(params["collectionId"] ?? "");
  if (collection === null) throw new Problem("not-found", "There is no collection of this id.");
  return collection;
}

const queryablesRoute: Route = {
  ...SHARED,
  path: `${ROOT}/collections/{collectionId}/queryables`,
  operationId: "ogcQueryables",
  summary: "Geodata: properties to filter by",
  description: "A JSON Schema: each of its properties is a parameter of the collection's items.",
  parameters: [collectionParameter, formatParameter("json")],
  answer: { description: "The schema.", content: { [SCHEMA_TYPE]: { schema: { type: "object" } } } },
  problems: ["invalid-parameter", "not-found"],
  handle: async (call) => {
    const { request, url } = call;
    const { id, title, columns } = requireCollection(call);
    refuseParameters(url, ["f"]);
    const type = formatFor(request, url, SCHEMA_FORMATS);
    const queryable = columns.filter((column) => column.queryable === true);
    const schema = {
      $schema: "https://json-schema.org/draft/2020-12/schema",
      $id: addressOf(url, "collections", id, "queryables"),
      type: "object",
      title,
      properties: Object.fromEntries(queryable.map((column) => [column.name, columnSchema(column)])),
      additionalProperties: false,
    };
    return cacheable(request, JSON.stringify(schema), type, linkHeader(ownLinks(url, type, SCHEMA_FORMATS)));
  },
};

const schemaRoute: Route = {
  ...SHARED,
  path: `${ROOT}/collections/{collectionId}/schema`,
  operationId: "ogcSchema",
  summary: "Geodata: the columns of a collection",
  description:
    "A JSON Schema of what a feature's properties mean and of which type they are, for readers that would otherwise guess it from the first page. Any property may be null, which is unknown; `record` is left to be read as it comes.",
  parameters: [collectionParameter, formatParameter("json")],
  answer: { description: "The schema.", content: { [SCHEMA_TYPE]: { schema: { type: "object" } } } },
  problems: ["invalid-parameter", "not-found"],
  handle: async (call) => {
    const { request, url } = call;
    const { id, title, columns } = requireCollection(call);
    refuseParameters(url, ["f"]);
    const type = formatFor(request, url, SCHEMA_FORMATS);
    const plain = columns.filter((column) => column.type !== "object");
    const schema = {
      $schema: "https://json-schema.org/draft/2020-12/schema",
      $id: addressOf(url, "collections", id, "schema"),
      type: "object",
      title,
      description: "Types of the properties where they have a value: any of them may be null.",
      properties: {
        properties: {
          type: "object",
          properties: Object.fromEntries(plain.map((column) => [column.name, columnSchema(column)])),
        },
      },
    };
    return cacheable(request, JSON.stringify(schema), type, linkHeader(ownLinks(url, type, SCHEMA_FORMATS)));
  },
};

const itemsRoute: Route = {
  ...SHARED,
  path: `${ROOT}/collections/{collectionId}/items`,
  operationId: "ogcItems",
  summary: "Geodata: features of a collection",
  description:
    "A page of features in the order of their ids; follow the link `next`. A page holds its place by an id: records that change meanwhile neither hide nor repeat the others. Besides the parameters that are listed, every property of the collection's queryables is a parameter, and features are kept that have exactly its value.",
  parameters: [
    collectionParameter,
    ...itemsParameters(DEFAULT_LIMITS.itemsPage, DEFAULT_LIMITS.itemsPageDefault),
    formatParameter("geojson", "json"),
    {
      name: "queryables",
      in: "query",
      description: "Properties of the collection's queryables, each as a parameter of its own.",
      schema: { type: "object", additionalProperties: { type: "string", maxLength: DEFAULT_LIMITS.parameterLength } },
      style: "form",
      explode: true,
    },
  ],
  answer: {
    description: "A page.",
    content: { [GEOJSON_TYPE]: { schema: schemaRef("OgcItems") }, [JSON_TYPE]: { schema: schemaRef("OgcItems") } },
  },
  paged: true,
  problems: ["invalid-parameter", "invalid-cursor", "not-found"],
  handle: async (call) => {
    const { request, url, store, limits } = call;
    const collection = requireCollection(call);
    const query = await readItemsQuery(url, collection, limits);
    const type = formatFor(request, url, FEATURE_FORMATS);
    const page = await scan(store, collection, query, limits);
    const matched = await countMatches(store, collection, query, limits);
    const links: Link[] = [
      ...ownLinks(url, type, FEATURE_FORMATS),
      ...pageLinks(url, type, query, page),
      {
        rel: "collection",
        href: addressOf(url, "collections", collection.id),
        type: JSON_TYPE,
        title: collection.title,
      },
      queryablesLink(url, collection),
    ];
    const features = page.features.map((feature) => featureText(collection, feature));
    const members = [
      `"type":"FeatureCollection"`,
      ...(matched === null ? [] : [`"numberMatched":${matched}`]),
      `"numberReturned":${features.length}`,
      `"links":${JSON.stringify(links)}`,
      `"features":[${features.join(",\n")}]`,
    ];
    return cacheable(request, `{${members.join(",")}}`, type, linkHeader(links));
  },
};

function pageLinks(
  url: URL,
  type: string,
  query: ItemsQuery,
  { before, after }: { readonly before: Place | null; readonly after: Place | null },
): Link[] {
  const link = (rel: string, title: string, place: Place, backwards: boolean): Link => {
    const address = new URL(url);
    address.searchParams.set("limit", String(query.limit));
    address.searchParams.set("cursor", writePage(query.digest, place, backwards));
    return { rel, href: address.href, type, title };
  };
  return [
    ...(after === null ? [] : [link("next", "The next page", after, false)]),
    ...(before === null ? [] : [link("prev", "The page before", before, true)]),
  ];
}

const itemRoute: Route = {
  ...SHARED,
  path: `${ROOT}/collections/{collectionId}/items/{featureId}`,
  operationId: "ogcItem",
  summary: "Geodata: one feature",
  description: "The same as in its collection, with links of its own.",
  parameters: [collectionParameter, featureParameter, formatParameter("geojson", "json")],
  answer: {
    description: "The feature.",
    content: { [GEOJSON_TYPE]: { schema: schemaRef("OgcFeature") }, [JSON_TYPE]: { schema: schemaRef("OgcFeature") } },
  },
  problems: ["invalid-parameter", "not-found"],
  handle: async (call) => {
    const { request, url, params, store } = call;
    const collection = requireCollection(call);
    refuseParameters(url, ["f"]);
    const type = formatFor(request, url, FEATURE_FORMATS);
    const feature = await featureById(store, collection, params["featureId"] ?? "");
    if (feature === null) throw new Problem("not-found", "There is no feature of this id in the collection.");
    const links: Link[] = [
      ...ownLinks(url, type, FEATURE_FORMATS),
      {
        rel: "collection",
        href: addressOf(url, "collections", collection.id),
        type: JSON_TYPE,
        title: collection.title,
      },
    ];
    return cacheable(request, featureText(collection, feature, links), type, linkHeader(links));
  },
};

async function featureById(store: CampgroundStore, collection: Collection, id: string) {
  const stored = await store.get(campgroundOfId(id));
  return stored === null ? null : (featuresIn(collection, stored).find((feature) => feature.id === id) ?? null);
}

/** Every route under /ogc. */
export const OGC_ROUTES: readonly Route[] = [
  landingRoute,
  conformanceRoute,
  apiRoute(() => OGC_ROUTES),
  collectionsRoute,
  collectionRoute,
  queryablesRoute,
  schemaRoute,
  itemsRoute,
  itemRoute,
];
