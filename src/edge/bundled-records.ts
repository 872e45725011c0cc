/** The campground records of a worker: none here; the bundler puts those of a folder in this module's place. */
import type { RecordSource } from "../records/store.ts";

export const bundledRecords: readonly RecordSource[] = [];
