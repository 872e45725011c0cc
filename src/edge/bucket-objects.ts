/** Objects of a bucket that is bound to the worker. */
import type { ObjectSource } from "../records/catalogue/objects.ts";

/** The part of a bucket that a catalogue is read by. */
export interface Bucket {
  get(name: string): Promise<{ arrayBuffer(): Promise<ArrayBuffer> } | null>;
}

/** @param folder Where in the bucket the catalogue lies; empty for its top. */
export function bucketObjects(bucket: Bucket, folder = ""): ObjectSource {
  const prefix = folder === "" || folder.endsWith("/") ? folder : `${folder}/`;
  return {
    async get(name) {
      const object = await bucket.get(prefix + name);
      return object === null ? null : new Uint8Array(await object.arrayBuffer());
    },
  };
}
