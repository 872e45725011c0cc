/** Stale, missing, weak, wild and listed entity tags; and no lost update whatever two hosts do. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answered, openHosts, refused, stay } from "../http/host/hosts.ts";

describe("If-Match of a stay", () => {
  it("is wanted, compared strongly, and may be a list or *", async () => {
    const { send } = await openHosts();
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03")), 201);
    const patch = (tag: string | null, priority: number) =>
      send("PATCH", "/stays/s1", { priority }, tag === null ? {} : { "If-Match": tag });
    await refused(await patch(null, 1), 428, "precondition-required");
    for (const tag of ['"0"', '"2"', "1", 'W/"1"', '"1', "", '"a", W/"1"', "**"]) {
      const response = await patch(tag, 1);
      expect([tag, response.headers.get("etag")]).toEqual([tag, '"1"']);
      await refused(response, 412, "precondition-failed");
    }
    expect(await answered(await patch('"x" , "1"', 1), 200)).toMatchObject({ version: 2 });
    expect(await answered(await patch("*", 2), 200)).toMatchObject({ version: 3, priority: 2 });
    expect(await answered(await send("GET", "/stays/s1"), 200)).toMatchObject({ version: 3 });
  });
});

describe("two hosts who change the same stay", () => {
  it("never lose an update: what is kept is the work of those who were told 200, in their order", async () => {
    const { send } = await openHosts();
    let made = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.record({ host: fc.nat({ max: 2 }), looks: fc.boolean() }), { minLength: 5, maxLength: 40 }),
        async (steps) => {
          made += 1;
          const path = `/stays/m${made}`;
          await answered(await send("POST", "/stays", stay(`m${made}`, "2027-06-01", "2027-06-03")), 201);
          const seen = ['"1"', '"1"', '"1"'];
          let model = { version: 1, wishes: [] as string[] };
          for (const [index, { host, looks }] of steps.entries()) {
            if (looks) seen[host] = (await send("GET", path)).headers.get("etag") ?? "";
            // A list is replaced whole: a write from an old look would drop what others have added.
            const wishes = [...model.wishes.slice(-3), `w${index}`];
            const response = await send("PATCH", path, { wishes }, { "If-Match": seen[host] ?? "" });
            if (seen[host] === `"${model.version}"`) {
              expect(response.status).toBe(200);
              model = { version: model.version + 1, wishes };
              seen[host] = response.headers.get("etag") ?? "";
            } else expect(response.status).toBe(412);
          }
          const kept = await answered(await send("GET", path), 200);
          expect(kept["version"]).toBe(model.version);
          expect(kept["wishes"] ?? []).toEqual(model.wishes);
        },
      ),
      { numRuns: 25, seed: 20_270_520 },
    );
  });

  it("or race at once: one wins, the others are told 412", async () => {
    const { send } = await openHosts();
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03")), 201);
    for (let version = 1; version <= 20; version += 1) {
      const all = Array.from({ length: 10 }, (_, n) =>
        send("PATCH", "/stays/s1", { wishes: [`v${version}`, `by ${n}`] }, { "If-Match": `"${version}"` }),
      );
      const statuses = (await Promise.all(all)).map(({ status }) => status).sort();
      expect(statuses).toEqual([200, ...Array(9).fill(412)]);
    }
  });

  it("of a record: of two changes of one site one is stale, changes of two sites both stand", async () => {
    const { send } = await openHosts();
    const tags = Object.fromEntries(
      await Promise.all(
        ["A7", "B2"].map(
          async (site) => [site, (await send("GET", `/sites/${site}`)).headers.get("etag") ?? ""] as const,
        ),
      ),
    );
    const patch = (site: string, shade: string) =>
      send("PATCH", `/sites/${site}`, { properties: { shade } }, { "If-Match": tags[site] ?? "" });
    const statuses = (await Promise.all([patch("A7", "full"), patch("A7", "half"), patch("B2", "none")])).map(
      ({ status }) => status,
    );
    expect(statuses.slice(0, 2).sort()).toEqual([200, 412]);
    expect(statuses[2]).toBe(200);
    expect(await answered(await send("GET", "/versions"), 200)).toMatchObject({
      versions: [{ version: 3 }, { version: 2 }, { version: 1 }],
    });
  });
});
