import { beforeAll, describe, expect, it } from "vitest";
import {
  EXAMPLE_OSM_GEOJSON,
  EXAMPLE_OSM_XML,
  EXAMPLE_OVERPASS,
  EXAMPLE_RIG,
} from "../../src/http/openapi/examples.ts";
import { importAnswerSchema } from "../../src/http/schemas/import-answer.ts";
import { post, problemIn, type TestApp, testApp } from "./helpers.ts";

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

const PATH = "/v1/import/osm";
const xml = (text: string, query = "", type = "application/xml") =>
  app.request(PATH + query, { method: "POST", body: text, headers: { "Content-Type": type } });

interface Answer {
  readonly collection: {
    readonly campground: { id: string; name?: string };
    readonly features: { properties: { kind: string } }[];
  };
  readonly report: { readonly format: string; readonly kinds: Record<string, number> };
}

describe("POST /v1/import/osm", () => {
  it.each([
    ["xml", EXAMPLE_OSM_XML, "application/xml"],
    ["xml", `\ufeff${EXAMPLE_OSM_XML}`, "text/xml; charset=utf-8"],
    ["overpass", JSON.stringify(EXAMPLE_OVERPASS), "application/json"],
    ["geojson", JSON.stringify(EXAMPLE_OSM_GEOJSON), "application/geo+json"],
  ])("reads %s and gives a record that a fit takes as it is", async (format, text, type) => {
    const response = await xml(text, "", type);
    expect(response.status).toBe(200);
    const answer = (await response.json()) as Answer;
    expect(importAnswerSchema.parse(answer)).toEqual(answer);
    expect(answer.report).toMatchObject({ format, kinds: { site: 1 } });
    const site = answer.collection.features.find((feature) => feature.properties.kind === "site");
    const fit = await post(app, "/v1/fit", { rig: EXAMPLE_RIG, site, campground: answer.collection.campground });
    expect(fit.status).toBe(200);
    expect(((await fit.json()) as { verdict: string }).verdict).toBe("unknown");
  });

  it("takes the id, the name and the box from the query", async () => {
    const response = await xml(
      EXAMPLE_OSM_XML,
      "?campgroundId=alder&name=Alder%20%26%20Ash&bboxOf=way/9&campSitesArePitches=never",
    );
    const { collection } = (await response.json()) as Answer;
    expect(collection.campground).toMatchObject({ id: "alder", name: "Alder & Ash" });
  });

  it.each<[string, string, string, string, number, string]>([
    ["cut XML", EXAMPLE_OSM_XML.slice(0, -20), "", "application/xml", 400, "malformed-xml"],
    ["no XML", "hello", "", "text/xml", 400, "malformed-xml"],
    [
      "entities of its own",
      `<!DOCTYPE osm [<!ENTITY a "aaaa">]>${EXAMPLE_OSM_XML}`,
      "",
      "application/xml",
      400,
      "malformed-xml",
    ],
    ["JSON as XML", JSON.stringify(EXAMPLE_OVERPASS), "", "application/xml", 400, "malformed-xml"],
    ["XML as JSON", EXAMPLE_OSM_XML, "", "application/json", 400, "malformed-json"],
    ["other JSON", '{"a":1}', "", "application/json", 422, "invalid-record"],
    ["a list", "[]", "", "application/geo+json", 422, "invalid-record"],
    ["a key twice", '{"elements":[],"elements":[]}', "", "application/json", 400, "refused-json"],
    ["another type", EXAMPLE_OSM_XML, "", "text/plain", 415, "unsupported-media-type"],
    ["nothing", "", "", "application/xml", 400, "empty-body"],
    ["an unknown parameter", EXAMPLE_OSM_XML, "?box=way/9", "application/xml", 400, "invalid-parameter"],
    ["a box of no element", EXAMPLE_OSM_XML, "?bboxOf=way/8", "application/xml", 400, "invalid-parameter"],
    ["a box of no form", EXAMPLE_OSM_XML, "?bboxOf=9", "application/xml", 400, "invalid-parameter"],
    ["a rule of no name", EXAMPLE_OSM_XML, "?campSitesArePitches=yes", "application/xml", 400, "invalid-parameter"],
    ["an empty id", EXAMPLE_OSM_XML, "?campgroundId=", "application/xml", 400, "invalid-parameter"],
  ])("refuses %s", async (_what, text, query, type, status, code) => {
    const { errors } = await problemIn(await xml(text, query, type), status, code);
    if (code === "invalid-parameter") expect(errors[0]?.parameter).toBeTypeOf("string");
    else if (code !== "empty-body" && status !== 415) expect(errors[0]?.pointer).toBeTypeOf("string");
  });

  it("reads ten mebibytes and refuses a byte more", async () => {
    const size = 10 * 1_048_576;
    // Comments of the length that a text of the file may have, and blanks for the rest.
    const comment = `<!--${" ".repeat(9_993)}-->`;
    const full = EXAMPLE_OSM_XML + comment.repeat(Math.floor((size - EXAMPLE_OSM_XML.length) / comment.length));
    const padded = full.padEnd(size, " ");
    expect((await xml(padded)).status).toBe(200);
    await problemIn(await xml(`${padded} `), 413, "body-too-large");
  });
});
