import { describe, expect, it } from "vitest";
import { EXAMPLE_SITE } from "../../../src/http/openapi/examples.ts";
import { answered, openHosts, RIG, refused, stay } from "./hosts.ts";

/** Sites P1, P2 and P3 about one post with two 30 A receptacles and one 50 A, and one tap. */
async function withPost() {
  const hosts = await openHosts();
  const [power, water, sewer] = EXAMPLE_SITE.properties.hookups;
  const receptacle = (id: string, type: string, amps: number) => ({ id, type, amps, volts: 120, state: "working" });
  const receptacles = [
    receptacle("30-a", "nema-tt-30", 30),
    receptacle("30-b", "nema-tt-30", 30),
    receptacle("50", "nema-14-50", 50),
  ];
  for (const id of ["P1", "P2", "P3"]) {
    const properties = {
      ...EXAMPLE_SITE.properties,
      name: id,
      hookups: [
        { ...power, pedestal: "post", shared: true, receptacles },
        { ...water, id: "tap", pedestal: "post", shared: true },
        sewer,
      ],
    };
    const site = { ...EXAMPLE_SITE, id, properties };
    await answered(await hosts.send("PUT", `/sites/${id}`, site, { "If-None-Match": "*" }), 200);
  }
  return hosts;
}

interface Placed {
  readonly stays: readonly { readonly place: { readonly outlets: readonly string[] } }[];
}

describe("a post that sites share", () => {
  it("gives each stay a receptacle of its own while there are any, by hand too", async () => {
    const { send } = await withPost();
    const move = async (id: string, to: string, more = {}) => {
      await answered(await send("POST", "/stays", stay(id, "2027-06-01", "2027-06-03")), 201);
      return send("POST", "/assignment/move", { moves: [{ stay: id, from: null, to, ...more }] });
    };
    const held = async (response: Response) => (await answered<Placed>(response, 200)).stays[0]?.place.outlets;
    expect(await held(await move("s1", "P1"))).toEqual(["post/30-a"]);
    expect(await held(await move("s2", "P2"))).toEqual(["post/30-b"]);
    const third = await refused(await move("s3", "P3"), 409, "conflict");
    expect(third.errors[0]).toMatchObject({ code: "taken", pointer: "/moves/0" });
    expect(third.errors[0]?.message).toContain("post/30-a is held by the stay s1");
    // The host decides: the larger one, or none at all.
    const larger = { moves: [{ stay: "s3", from: null, to: "P3", outlets: ["post/50"] }] };
    expect(await held(await send("POST", "/assignment/move", larger))).toEqual(["post/50"]);
    await answered(await send("POST", "/assignment/release", { stays: [{ stay: "s3", from: "P3" }] }), 200);
    const none = { moves: [{ stay: "s3", from: null, to: "P3", outlets: [] }] };
    expect(await held(await send("POST", "/assignment/move", none))).toEqual([]);
  });

  it("gives its one tap to one stay that cannot do without", async () => {
    const { send } = await withPost();
    for (const id of ["s1", "s2"]) {
      const asked = stay(id, "2027-06-01", "2027-06-03", {
        rig: { ...RIG, waterHose: "25 ft" },
        needs: { water: "required" },
      });
      await answered(await send("POST", "/stays", asked), 201);
    }
    const first = { moves: [{ stay: "s1", from: null, to: "P1" }] };
    expect(
      (await answered<Placed>(await send("POST", "/assignment/move", first), 200)).stays[0]?.place.outlets,
    ).toEqual(["post/30-a", "post/tap"]);
    const second = { moves: [{ stay: "s2", from: null, to: "P2" }] };
    expect(
      (await refused(await send("POST", "/assignment/move", second), 409, "conflict")).errors[0]?.message,
    ).toContain("post/tap");
  });

  it("with a failed receptacle gives the other one and leaves the sites open", async () => {
    const { send } = await withPost();
    const outlets = await answered<{ outlets: { id: string; shared: boolean; sites: string[] }[] }>(
      await send("GET", "/outlets"),
      200,
    );
    expect(outlets.outlets.find(({ id }) => id === "post/30-a")).toMatchObject({
      shared: true,
      sites: ["P1", "P2", "P3"],
    });
    await answered(await send("POST", "/closures", { outlet: "post/30-a", firstNight: "2027-06-01" }), 201);
    await answered(await send("POST", "/stays", stay("s1", "2027-06-01", "2027-06-03")), 201);
    const moved = await send("POST", "/assignment/move", { moves: [{ stay: "s1", from: null, to: "P1" }] });
    expect((await answered<Placed>(moved, 200)).stays[0]?.place.outlets).toEqual(["post/30-b"]);
  });
});
