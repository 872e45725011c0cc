/** The worker in the real runtime, bound as its configuration file says, over a catalogue in a bucket. */
import { readFile } from "node:fs/promises";
import { Miniflare } from "miniflare";
import type { Bucket } from "../../src/edge/bucket-objects.ts";
import type { ObjectSink } from "../../src/records/catalogue/objects.ts";
import { bundleWorker } from "./bundle-worker.ts";

interface Configuration {
  readonly compatibility_date: string;
  readonly durable_objects: { readonly bindings: readonly { readonly name: string; readonly class_name: string }[] };
  readonly migrations: readonly { readonly new_sqlite_classes: readonly string[] }[];
  readonly r2_buckets: readonly { readonly binding: string; readonly bucket_name: string }[];
  readonly vars: Readonly<Record<string, string>>;
}

const FILE = new URL("../../src/edge/wrangler.json", import.meta.url);

export interface EdgeOptions {
  /** Settings beside those of the file, or in their place. */
  readonly settings?: Readonly<Record<string, string>>;
  /** False to leave the bucket out. */
  readonly bucket?: boolean;
  readonly said?: (line: string) => void;
}

export async function openEdge({ settings = {}, bucket = true, said }: EdgeOptions = {}): Promise<Miniflare> {
  const configuration = JSON.parse(await readFile(FILE, "utf8")) as Configuration;
  const kept = configuration.migrations.flatMap((step) => step.new_sqlite_classes);
  const edge = new Miniflare({
    modules: true,
    script: await bundleWorker(),
    compatibilityDate: configuration.compatibility_date,
    cf: false,
    durableObjects: Object.fromEntries(
      configuration.durable_objects.bindings.map(({ name, class_name: className }) => [
        name,
        { className, useSQLite: kept.includes(className) },
      ]),
    ),
    r2Buckets: bucket ? Object.fromEntries(configuration.r2_buckets.map((one) => [one.binding, one.bucket_name])) : {},
    bindings: { ...configuration.vars, ...settings },
    handleRuntimeStdio: (out: NodeJS.ReadableStream, errors: NodeJS.ReadableStream) => {
      for (const stream of [out, errors]) stream.on("data", (data) => said?.(String(data)));
    },
  });
  await edge.ready;
  return edge;
}

interface Bound extends Bucket {
  head(name: string): Promise<unknown>;
  put(name: string, bytes: Uint8Array): Promise<unknown>;
}

/** The bucket of the catalogue, to be written into. */
export async function bucketSink(edge: Miniflare): Promise<ObjectSink> {
  // The library has types for this only where those of the hosted runtime are installed.
  const bucket = (await edge.getR2Bucket("CATALOGUE")) as unknown as Bound;
  return {
    get: async (name) => {
      const object = await bucket.get(name);
      return object === null ? null : new Uint8Array(await object.arrayBuffer());
    },
    has: async (name) => (await bucket.head(name)) !== null,
    put: async (name, bytes) => {
      await bucket.put(name, bytes);
    },
  };
}
