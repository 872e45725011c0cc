/** POST /v1/import/osm: open map data to a campground record. Nothing is stored and nothing is fetched. */
import { importOsm, type OsmOptions } from "../../records/osm/import.ts";
import type { OsmError } from "../../records/osm/notes.ts";
import { BODY_PROBLEMS, type BodyRule, bodyMediaType, bodyText, parseJsonText } from "../body.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_OSM_GEOJSON, EXAMPLE_OSM_XML, EXAMPLE_OVERPASS } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem, type ProblemCode, type ProblemError } from "../problem.ts";
import { computed } from "../representation.ts";
import { type Call, type Parameter, type Route, schemaRef } from "../route.ts";
import type { ImportAnswer } from "../schemas/import-answer.ts";
import { shortPointer } from "../validate.ts";

const JSON_TYPE = "application/json";
const XML_TYPES = ["application/xml", "text/xml"];
const MEDIA_TYPES = [...XML_TYPES, JSON_TYPE, "application/geo+json"];
const PITCH_RULES = ["by-rule", "always", "never"] as const satisfies readonly OsmOptions["campSitesArePitches"][];

const PARAMETERS: readonly Parameter[] = [
  {
    name: "campgroundId",
    in: "query",
    description: "Id of the campground in the record. Default: made from its element.",
    schema: { type: "string", minLength: 1, maxLength: 200 },
  },
  {
    name: "name",
    in: "query",
    description: "Its name. Default: that of its element.",
    schema: { type: "string", minLength: 1, maxLength: 200 },
  },
  {
    name: "bboxOf",
    in: "query",
    description: "An element such as way/12: only what lies in its box and 200 m round it is imported.",
    schema: { type: "string", pattern: "^(node|way|relation)/\\d+$" },
  },
  {
    name: "campSitesArePitches",
    in: "query",
    description: "When a point tagged tourism=camp_site is a single pitch.",
    schema: { type: "string", enum: [...PITCH_RULES], default: "by-rule" },
  },
];

export const importRoute: Route = {
  method: "POST",
  path: "/v1/import/osm",
  operationId: "importOsm",
  tag: "Records",
  summary: "Open map data as a campground record",
  description:
    "Reads OSM XML, Overpass JSON, or GeoJSON with OpenStreetMap's tags, and gives the record that a fit reads, with a report on every tag. Nothing is stored. What the data do not say stays unknown; a point on a pitch is the sign post and never the place of a hookup.",
  parameters: PARAMETERS,
  requestBody: {
    description: "The data. JSON may be Overpass JSON or GeoJSON; which one is told from its members.",
    content: {
      "application/xml": {
        schema: { type: "string" },
        examples: { xml: { summary: "OSM XML", value: EXAMPLE_OSM_XML } },
      },
      [JSON_TYPE]: {
        schema: { type: "object" },
        examples: { overpass: { summary: "Overpass JSON", value: EXAMPLE_OVERPASS } },
      },
      "application/geo+json": {
        schema: { type: "object" },
        examples: { geojson: { summary: "GeoJSON with tags as properties", value: EXAMPLE_OSM_GEOJSON } },
      },
    },
  },
  answer: {
    description: "The record and the report.",
    content: { [JSON_TYPE]: { schema: schemaRef("ImportAnswer") } },
  },
  conditional: false,
  problems: [...BODY_PROBLEMS, "malformed-xml", "invalid-parameter", "invalid-request", "invalid-record"],
  handle: answerImport,
};

async function answerImport({ request, url, limits }: Call): Promise<Response> {
  const rule: BodyRule = { mediaTypes: MEDIA_TYPES, maxBytes: limits.importBodyBytes };
  const isXml = XML_TYPES.includes(bodyMediaType(request, rule));
  const text = await bodyText(request, rule);
  negotiate(request.headers.get("accept"), [JSON_TYPE]);
  const options = readOptions(url, limits.parameterLength);
  const input: unknown = isXml ? text : parseJsonText(text, limits.jsonDepth);
  const result = importOsm(input, isXml ? { ...options, format: "xml" } : options);
  if (!result.ok) throw importProblem(result.errors);
  const answer: ImportAnswer = {
    collection: { ...result.collection },
    report: { ...result.report, kinds: { ...result.report.kinds } },
  };
  return computed(JSON.stringify(answer), JSON_TYPE);
}

function readOptions(url: URL, longest: number): OsmOptions {
  refuseParameters(
    url,
    PARAMETERS.map((parameter) => parameter.name),
    longest,
  );
  const errors: ProblemError[] = [];
  const text = (parameter: string, accepts: RegExp, expected: string): string | undefined => {
    const value = url.searchParams.get(parameter);
    if (value === null || accepts.test(value)) return value ?? undefined;
    errors.push({ parameter, code: "bad-form", message: "This value is not accepted.", expected });
    return undefined;
  };
  const campgroundId = text("campgroundId", /^.{1,200}$/su, "1 to 200 characters");
  const name = text("name", /^.{1,200}$/su, "1 to 200 characters");
  const bboxOf = text("bboxOf", /^(node|way|relation)\/\d{1,19}$/, "an element such as way/12");
  const rule = text("campSitesArePitches", new RegExp(`^(${PITCH_RULES.join("|")})$`), PITCH_RULES.join(", "));
  if (errors.length > 0) throw new Problem("invalid-parameter", "A query parameter is not accepted.", errors);
  const campSitesArePitches = PITCH_RULES.find((one) => one === rule);
  return {
    ...(campgroundId === undefined ? {} : { campgroundId }),
    ...(name === undefined ? {} : { name }),
    ...(bboxOf === undefined ? {} : { bboxOf }),
    ...(campSitesArePitches === undefined ? {} : { campSitesArePitches }),
  };
}

const XML_FAULTS: readonly string[] = ["malformed-xml", "doctype-refused", "entity-refused"];
const BOX = "/bboxOf";

function importProblem(faults: readonly OsmError[]): Problem {
  const errors = faults.map(({ path, code, message, expected }): ProblemError => {
    const place = path === BOX ? { parameter: "bboxOf" } : { pointer: shortPointer(path) };
    return { ...place, code, message, expected };
  });
  const [first] = faults;
  const code: ProblemCode =
    first?.path === BOX
      ? "invalid-parameter"
      : XML_FAULTS.includes(first?.code ?? "")
        ? "malformed-xml"
        : "invalid-record";
  return new Problem(code, first?.message ?? "The data cannot be read.", errors);
}
