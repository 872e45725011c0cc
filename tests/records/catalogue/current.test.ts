import { expect, it } from "vitest";
import { EXAMPLE_COLLECTION } from "../../../src/http/openapi/examples.ts";
import { buildCatalogue } from "../../../src/records/catalogue/build.ts";
import { currentCatalogue } from "../../../src/records/catalogue/current.ts";
import type { ObjectSink } from "../../../src/records/catalogue/objects.ts";

async function put(sink: ObjectSink, name: string): Promise<void> {
  const text = JSON.stringify({ ...EXAMPLE_COLLECTION, campground: { ...EXAMPLE_COLLECTION.campground, name } });
  await buildCatalogue(
    (async function* () {
      yield { name: "one", mark: name, read: async () => text };
    })(),
    sink,
  );
}

it("is looked for again after its interval, kept while the source fails, and one store as long as nothing changed", async () => {
  const objects = new Map<string, Uint8Array>();
  let isDown = false;
  const sink: ObjectSink = {
    get: async (name) => {
      if (isDown) throw new Error("down");
      return objects.get(name) ?? null;
    },
    has: async (name) => objects.has(name),
    put: async (name, bytes) => void objects.set(name, bytes),
  };
  let at = 1000;
  const faults: unknown[] = [];
  const current = currentCatalogue({
    source: sink,
    interval: 60,
    now: () => at,
    report: (fault) => faults.push(fault),
  });
  await expect(current.get()).rejects.toThrow("catalogue.json");
  await put(sink, "First");
  const first = await current.get();
  await put(sink, "Second");
  at += 59;
  expect(await current.get()).toBe(first);
  at += 1;
  const second = await current.get();
  expect([second === first, (await second.list())[0]?.name]).toEqual([false, "Second"]);
  at += 60;
  expect(await current.get()).toBe(second);
  expect(await current.refresh()).toBe(false);
  isDown = true;
  at += 60;
  expect(await current.get()).toBe(second);
  expect(faults).toHaveLength(1);
  await expect(current.refresh()).rejects.toThrow("down");
});
