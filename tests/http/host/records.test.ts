import { describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION } from "../../../src/http/openapi/examples.ts";
import { answered, BASE, openHosts, RIG, refused, stay } from "./hosts.ts";

interface Written {
  readonly written: boolean;
  readonly version: number;
  readonly sites: { readonly added: string[]; readonly changed: string[]; readonly removed: string[] };
  readonly fits: { readonly changed: unknown[]; readonly compared: number; readonly notCompared: number };
}

const collection = () => structuredClone(EXAMPLE_COLLECTION) as unknown as { features: Record<string, unknown>[] };

/** Stay s1 on A7, s2 on B2. */
async function withPlaces() {
  const hosts = await openHosts();
  await answered(await hosts.send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-04")), 201);
  await answered(await hosts.send("POST", "/stays", stay("s2", "2027-06-01", "2027-06-04")), 201);
  const moves = [
    { stay: "s1", from: null, to: "A7" },
    { stay: "s2", from: null, to: "B2" },
  ];
  await answered(await hosts.send("POST", "/assignment/move", { moves }), 200);
  const tagOf = async (path: string) => (await hosts.send("GET", path)).headers.get("etag") ?? "";
  return { ...hosts, tagOf };
}

describe("a record", () => {
  it("is written whole by whoever has seen it; the same reading gives its new tag", async () => {
    const { send, tagOf } = await withPlaces();
    const tag = await tagOf("");
    const changed = collection();
    (changed.features[0] as { properties: Record<string, unknown> }).properties["shade"] = "full";
    await refused(await send("PUT", "", changed), 428, "precondition-required");
    await refused(await send("PUT", "", changed, { "If-Match": '"other"' }), 412, "precondition-failed");
    await refused(await send("PUT", "", changed, { "If-Match": `W/${tag}` }), 412, "precondition-failed");
    await refused(await send("PUT", "", changed, { "If-None-Match": "*" }), 412, "precondition-failed");
    const written = await send("PUT", "", changed, { "If-Match": `"other", ${tag.slice(0, -1)};br"` });
    expect(await answered<Written>(written, 200)).toMatchObject({
      written: true,
      version: 2,
      sites: { added: [], changed: ["A7"], removed: [] },
      fits: { changed: [], notCompared: 0 },
    });
    expect(await tagOf("")).toBe(written.headers.get("etag"));
    await refused(await send("PUT", "", changed, { "If-Match": tag }), 412, "precondition-failed");
  });

  it("tells for which stays the verdict changes, and writes nothing in a preview", async () => {
    const { send, tagOf } = await withPlaces();
    const path = "/sites/A7";
    const patch = { properties: { pad: { length: "20 ft" } } };
    const tag = await tagOf(path);
    const preview = await answered<Written>(
      await send("PATCH", `${path}?preview=true`, patch, { "If-Match": tag }),
      200,
    );
    expect(preview).toMatchObject({
      written: false,
      version: 2,
      sites: { changed: ["A7"] },
      fits: {
        compared: 1,
        changed: [{ stay: "s1", site: "A7", before: { verdict: "fits" }, after: { verdict: "does not fit" } }],
      },
    });
    expect(await tagOf(path)).toBe(tag);
    const done = await send("PATCH", path, patch, { "If-Match": tag });
    expect(await answered<Written>(done, 200)).toMatchObject({ written: true, version: 2, fits: preview.fits });
    expect(await tagOf(path)).toBe(done.headers.get("etag"));
    // Who has seen the site before can still change another one, and not this one.
    await answered(
      await send("PATCH", "/sites/B2", { properties: { shade: "half" } }, { "If-Match": await tagOf("/sites/B2") }),
      200,
    );
    await refused(await send("PATCH", path, patch, { "If-Match": tag }), 412, "precondition-failed");
  });

  it("tells what a thing beside a site does to it", async () => {
    const { send, tagOf } = await withPlaces();
    const wall = {
      type: "Feature",
      id: "rule",
      geometry: null,
      properties: { kind: "site", name: "C3", layout: "back-in" },
    };
    const before = await tagOf("");
    const more = { ...collection(), features: [...collection().features, wall] };
    expect((await answered<Written>(await send("PUT", "", more, { "If-Match": before }), 200)).fits.compared).toBe(0);
    const other = { campground: { electricalSystem: "230" } };
    const { fits } = await answered<Written>(await send("PATCH", "", other, { "If-Match": await tagOf("") }), 200);
    expect(fits.compared).toBe(2);
  });

  it("has sites added, replaced and removed one by one; not one that somebody has", async () => {
    const { send, tagOf } = await withPlaces();
    const site = { type: "Feature", id: "C3", geometry: null, properties: { kind: "site", name: "C3" } };
    await refused(await send("PUT", "/sites/C3", site), 428, "precondition-required");
    const added = await send("PUT", "/sites/C3", site, { "If-None-Match": "*" });
    expect(await answered<Written>(added, 200)).toMatchObject({ sites: { added: ["C3"] } });
    await refused(await send("PUT", "/sites/C3", site, { "If-None-Match": "*" }), 412, "precondition-failed");
    await refused(await send("PUT", "/sites/C4", site, { "If-None-Match": "*" }), 422, "invalid-record");
    const bad = { ...site, properties: { kind: "site", pad: { length: "long" } } };
    const tag = await tagOf("/sites/C3");
    const { errors } = await refused(await send("PUT", "/sites/C3", bad, { "If-Match": tag }), 422, "invalid-record");
    expect(errors[0]?.pointer).toBe("/properties/pad/length");
    await answered(await send("DELETE", "/sites/C3", undefined, { "If-Match": tag }), 200);
    await refused(await send("GET", "/sites/C3"), 404, "not-found");
    const held = await refused(
      await send("DELETE", "/sites/A7", undefined, { "If-Match": await tagOf("/sites/A7") }),
      409,
      "conflict",
    );
    expect(held.errors[0]).toMatchObject({ code: "in-use", message: expect.stringContaining("the stay s1") });
  });

  it("is refused when anything of it would be left out, with every fault", async () => {
    const { send, tagOf } = await withPlaces();
    const tag = await tagOf("");
    const broken = collection();
    const [first] = broken.features as [Record<string, unknown>];
    const twice = [...broken.features, { ...first }, { type: "Feature", geometry: null, properties: { kind: "site" } }];
    const { errors } = await refused(
      await send("PUT", "", { ...broken, campground: { id: "other" }, features: twice }, { "If-Match": tag }),
      422,
      "invalid-record",
    );
    expect(errors.map(({ pointer }) => pointer)).toEqual(expect.arrayContaining(["/features/2/id", "/campground/id"]));
    await refused(await send("PUT", "", { type: "FeatureCollection" }, { "If-Match": tag }), 422, "invalid-record");
    await refused(await send("PUT", "", [], { "If-Match": tag }), 422, "invalid-record");
    await refused(await send("PATCH", "", { features: null }, { "If-Match": tag }), 422, "invalid-record");
    expect(await tagOf("")).toBe(tag);
  });

  it("is made new with If-None-Match, and every version can be read back", async () => {
    const { app, token } = await openHosts();
    const everywhere = await token({ "*": ["read", "records"] });
    const send = (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) =>
      app.request(`/v1/campgrounds/new-field${path}`, {
        method,
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
        headers: {
          Authorization: `Bearer ${everywhere}`,
          "Idempotency-Key": `n-${method}-${path}-${JSON.stringify(headers)}`,
          ...(body === undefined ? {} : { "Content-Type": "application/json" }),
          ...headers,
        },
      });
    const record = { ...collection(), campground: { ...EXAMPLE_COLLECTION.campground, id: "new-field" } };
    await refused(await send("PUT", "", record), 428, "precondition-required");
    await refused(await send("PUT", "", record, { "If-Match": '"seen"' }), 412, "precondition-failed");
    const made = await send("PUT", "", record, { "If-None-Match": "*" });
    expect(await answered<Written>(made, 201)).toMatchObject({ version: 1, sites: { added: ["A7", "B2"] } });
    const tag = made.headers.get("etag") ?? "";
    await answered(await send("PUT", "", { ...record, note: "second" }, { "If-Match": tag }), 200);
    expect(await answered(await send("GET", "/versions"), 200)).toMatchObject({
      versions: [{ version: 2 }, { version: 1 }],
    });
    expect(await answered(await send("GET", "/versions/1"), 200)).not.toHaveProperty("note");
    expect(await answered(await send("GET", "/versions/2"), 200)).toMatchObject({ note: "second" });
    await refused(await send("GET", "/versions/3"), 404, "not-found");
    await refused(await send("GET", "/versions/x"), 404, "not-found");
  });

  it("answers fits, searches and lists from its newest version", async () => {
    const { app, send, tagOf } = await withPlaces();
    const post = async (path: string, body: unknown) => {
      const init = { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" } };
      return answered<{ verdict: string; features: { properties: { fit: { verdict: string } } }[] }>(
        await app.request(path, init),
        200,
      );
    };
    const question = { rig: RIG, site: { campground: "alder-flat", site: "A7" } };
    expect((await post("/v1/fit", question)).verdict).toBe("fits");
    await answered(
      await send("PATCH", "/sites/A7", { properties: { closed: true } }, { "If-Match": await tagOf("/sites/A7") }),
      200,
    );
    expect((await post("/v1/fit", question)).verdict).toBe("does not fit");
    const found = await post("/v1/search", { rig: RIG, campground: "alder-flat" });
    expect(found.features.map(({ properties }) => properties.fit.verdict)).not.toContain("fits");
    const list = await answered(await app.request("/v1/campgrounds"), 200);
    expect(list).toMatchObject({ campgrounds: [{ id: "alder-flat", sites: 2 }] });
    // What everybody may read holds nothing about stays.
    for (const path of [BASE, `${BASE}/sites/A7`, "/v1/campgrounds"]) {
      expect(await (await app.request(path)).text()).not.toMatch(/Canary|s1|2027-06/);
    }
  });
});
