import { beforeAll, describe, expect, it } from "vitest";
import type * as z from "zod";
import {
  EXAMPLE_CAMPGROUND,
  EXAMPLE_FIT_REQUEST,
  EXAMPLE_RIG,
  EXAMPLE_SITE,
  EXAMPLE_VAGUE_SITE,
} from "../../src/http/openapi/examples.ts";
import { fitAnswerSchema } from "../../src/http/schemas/answer.ts";
import { CHECK_WORDS } from "../../src/http/vocabulary.ts";
import { post, problemIn, type TestApp, testApp } from "./helpers.ts";

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

type Answer = z.infer<typeof fitAnswerSchema>;
const fitOf = async (body: unknown): Promise<Answer> => {
  const response = await post(app, "/v1/fit", body);
  const text = await response.text();
  expect([response.status, response.status === 200 ? "" : text]).toEqual([200, ""]);
  return JSON.parse(text) as Answer;
};

describe("POST /v1/fit", () => {
  it("gives the whole answer and nothing beyond its published schema", async () => {
    const response = await post(app, "/v1/fit", EXAMPLE_FIT_REQUEST);
    expect(response.headers.get("cache-control")).toBe("no-store");
    expect(response.headers.get("vary")).toBe("Accept");
    const answer = (await response.json()) as unknown;
    expect(fitAnswerSchema.parse(answer)).toEqual(answer);
    expect(answer).toMatchObject({
      site: { id: "A7", name: "A7", campground: "alder-flat" },
      units: "us",
      dataVersion: null,
    });
  });

  it("lists every check of the vocabulary in its order, also when the site is hardly known", async () => {
    const ids = Object.keys(CHECK_WORDS);
    for (const site of [EXAMPLE_SITE, EXAMPLE_VAGUE_SITE]) {
      expect((await fitOf({ rig: EXAMPLE_RIG, site })).checks.map((check) => check.id)).toEqual(ids);
    }
  });

  it("names what to measure and what was assumed by pointers into the request", async () => {
    const answer = await fitOf(EXAMPLE_FIT_REQUEST);
    for (const { path } of [...answer.assumed, ...answer.unknowns, ...answer.warnings]) {
      expect(path).toMatch(/^\/(rig|site\/properties|site\/geometry)(\/|$)/);
    }
  });

  it("gives one answer for a stored site and the same site sent along, apart from the version", async () => {
    const sent = await fitOf({
      rig: EXAMPLE_RIG,
      site: EXAMPLE_SITE,
      campground: EXAMPLE_CAMPGROUND,
      around: [EXAMPLE_VAGUE_SITE],
    });
    const stored = await fitOf({ rig: EXAMPLE_RIG, site: { campground: "alder-flat", site: "A7" } });
    expect(stored.dataVersion).toMatch(/^[0-9a-f]{24}$/);
    expect({ ...stored, dataVersion: null }).toEqual(sent);
  });

  it("gives angles in degrees: heading as recorded, yaw as listed", async () => {
    const answer = await fitOf({ ...EXAMPLE_FIT_REQUEST, options: { yaws: [4], parking: { yaw: 0 } } });
    expect(answer.scene.pad?.heading).toBe(212);
    if (answer.stance !== null) expect([0, 4, -4]).toContain(answer.stance.yaw);
    expect(answer.scene.rig?.stance).toEqual(answer.stance);
    for (const check of answer.checks) expect(check.unit).not.toBe("rad");
  });

  it("gives null for the top of an obstacle of unknown height", async () => {
    const site = {
      ...EXAMPLE_SITE,
      properties: {
        ...EXAMPLE_SITE.properties,
        obstacles: [{ what: "tree", at: { along: 12, left: 6 }, radius: 0.4 }],
      },
    };
    const answer = await fitOf({ ...EXAMPLE_FIT_REQUEST, site });
    expect(answer.scene.obstacles.find((obstacle) => obstacle.what === "tree")?.to).toBeNull();
  });

  it("answers 200 when it does not fit and when it cannot know", async () => {
    const long = await fitOf({ ...EXAMPLE_FIT_REQUEST, rig: { ...EXAMPLE_RIG, class: "class-a", length: "58 ft" } });
    expect(long.verdict).toBe("does not fit");
    const vague = await fitOf({ rig: EXAMPLE_RIG, site: EXAMPLE_VAGUE_SITE });
    expect(vague.verdict).toBe("unknown");
    expect(vague.site.campground).toBeNull();
  });

  it("draws the plan of the same answer", async () => {
    const response = await post(app, "/v1/fit", EXAMPLE_FIT_REQUEST, { Accept: "image/svg+xml" });
    expect(response.headers.get("content-type")).toBe("image/svg+xml");
    expect(response.headers.get("content-security-policy")).toContain("default-src 'none'");
    const plan = await response.text();
    expect(plan).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
    expect(plan).not.toMatch(/<script|href="http/);
  });

  it("draws the way in when it is asked for, and refuses a picture that there is not", async () => {
    const asked = (picture: string) =>
      post(app, `/v1/fit?picture=${picture}`, EXAMPLE_FIT_REQUEST, { Accept: "image/svg+xml" });
    const sheet = await (await asked("way-in")).text();
    expect(sheet).toMatch(/^<svg [\s\S]*Way in and out[\s\S]*<\/svg>\s*$/);
    const refused = await asked("wayin");
    expect(refused.status).toBe(400);
    expect(JSON.stringify(await refused.json())).toMatch(/plan, way-in/);
  });

  it("gives the manoeuvre in degrees, and none in a summary", async () => {
    const full = (await (await post(app, "/v1/fit", EXAMPLE_FIT_REQUEST)).json()) as z.infer<typeof fitAnswerSchema>;
    expect(full.checks.filter(({ id }) => id === "manoeuvre")).toHaveLength(1);
    expect(full.manoeuvre?.status).toMatch(/^(ok in one move|needs a shunt|unknown)$/);
    const options = { ...(EXAMPLE_FIT_REQUEST as { options?: object }).options, detail: "summary" };
    const short = (await (await post(app, "/v1/fit", { ...EXAMPLE_FIT_REQUEST, options })).json()) as z.infer<
      typeof fitAnswerSchema
    >;
    expect(short.manoeuvre).toBeNull();
    expect(short.notChecked.map(({ id }) => id)).toContain("manoeuvre");
  });

  it("lists every fault of rig, site, campground, options and envelope at once", async () => {
    const response = await post(app, "/v1/fit", {
      rig: { ...EXAMPLE_RIG, lenght: 3, height: "-2 ft" },
      site: { ...EXAMPLE_SITE, properties: { ...EXAMPLE_SITE.properties, heading: "north" } },
      campground: { ...EXAMPLE_CAMPGROUND, drivesOn: "middle" },
      around: [
        { type: "Feature", geometry: { type: "Point", coordinates: [200, 1] }, properties: { kind: "obstacle" } },
      ],
      options: { unit: "us" },
      when: { date: "2026-07-01" },
    });
    const { errors } = await problemIn(response, 422, "invalid-request");
    const pointers = errors.map((error) => error.pointer);
    for (const pointer of [
      "/rig/lenght",
      "/rig/height",
      "/site/properties/heading",
      "/campground/drivesOn",
      "/options/unit",
      "/when/date",
    ]) {
      expect(pointers).toContain(pointer);
    }
    expect(pointers.some((pointer) => pointer?.startsWith("/around/0/"))).toBe(true);
    expect(errors.find((error) => error.pointer === "/options/unit")?.message).toContain('"units"');
    for (const error of errors) expect([error.code, error.message]).not.toContain("");
  });

  it("refuses a stored site that is not there or beside which more is sent", async () => {
    const of = async (body: Record<string, unknown>) =>
      (await problemIn(await post(app, "/v1/fit", { rig: EXAMPLE_RIG, ...body }), 422, "invalid-request")).errors.map(
        (error) => [error.pointer, error.code],
      );
    expect(await of({ site: { campground: "none", site: "A7" } })).toEqual([["/site/campground", "not-found"]]);
    expect(await of({ site: { campground: "alder-flat", site: "A8" } })).toEqual([["/site/site", "not-found"]]);
    expect(await of({ site: { campground: "alder-flat" } })).toEqual([["/site/site", "missing"]]);
    expect(await of({ site: { campground: "alder-flat", site: "A7" }, campground: EXAMPLE_CAMPGROUND })).toEqual([
      ["/campground", "conflict"],
    ]);
    expect(await of({ site: { ...EXAMPLE_SITE, properties: { kind: "road" } } })).toContainEqual([
      "/site/properties/kind",
      "wrong-kind",
    ]);
    expect(await of({})).toEqual([["/site", "missing"]]);
  });
});
