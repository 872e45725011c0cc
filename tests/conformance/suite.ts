/** Runs the whole contract at one place. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sha256 } from "../../src/http/host/local-tokens.ts";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import { ALL_ROUTES } from "../../src/http/routes/index.ts";
import { buildCatalogue } from "../../src/records/catalogue/build.ts";
import type { ObjectSink } from "../../src/records/catalogue/objects.ts";
import { HOST_CASES } from "./host-cases.ts";
import { senderFor, TOKEN, type World } from "./port.ts";
import { PUBLIC_CASES } from "./public-cases.ts";

const CASES = [...PUBLIC_CASES, ...HOST_CASES];
const OPEN_WITHIN = 60_000;

export interface OpenWorld extends World {
  readonly close: () => Promise<void>;
}

export function holdToContract(place: string, open: () => Promise<OpenWorld>): void {
  describe(`the contract at ${place}`, () => {
    let world: OpenWorld;
    beforeAll(async () => {
      world = await open();
    }, OPEN_WITHIN);
    afterAll(() => world.close());

    it("has a case for every route, and no case for a route that is not there", () => {
      const routes = ALL_ROUTES.map(({ method, path }) => `${method} ${path}`).sort();
      const held = [...new Set(CASES.flatMap((one) => one.routes))].sort();
      expect(held).toEqual(routes);
    });
    for (const one of CASES) it(one.name, () => one.run(senderFor(world), world));
  });
}

export async function hostToken() {
  const grants = { "*": ["read" as const, "stays" as const, "records" as const] };
  return { id: "conformance", hash: await sha256(TOKEN), name: "conformance", grants, expiresAt: null };
}

/** The example campground as a catalogue. */
export async function putCatalogue(sink: ObjectSink): Promise<void> {
  const text = JSON.stringify(EXAMPLE_COLLECTION);
  async function* inputs() {
    yield { name: "alder-flat.geojson", mark: "1", read: async () => text };
  }
  const { refused } = await buildCatalogue(inputs(), sink);
  expect(refused).toEqual([]);
}
