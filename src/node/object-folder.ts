/** Objects in a folder: what a bucket is on one machine, and what a static server or a sync tool can publish. */
import { randomUUID } from "node:crypto";
import { access, mkdir, open, readFile, rename, rm } from "node:fs/promises";
import { dirname, join, sep } from "node:path";
import type { ObjectSink } from "../records/catalogue/objects.ts";

/** Every write is whole or not at all: a file is written beside its place, synced, and then moved there. */
export function objectFolder(folder: string): ObjectSink {
  const pathOf = (name: string): string => {
    const path = join(folder, ...name.split("/"));
    if (!path.startsWith(join(folder, sep))) throw new Error(`"${name}" is no name of an object.`);
    return path;
  };
  return {
    async get(name) {
      try {
        return new Uint8Array(await readFile(pathOf(name)));
      } catch (fault) {
        if ((fault as NodeJS.ErrnoException).code === "ENOENT") return null;
        throw fault;
      }
    },
    async has(name) {
      return access(pathOf(name)).then(
        () => true,
        () => false,
      );
    },
    async put(name, bytes) {
      const path = pathOf(name);
      await mkdir(dirname(path), { recursive: true });
      const beside = `${path}.${randomUUID()}`;
      const file = await open(beside, "w");
      try {
        await file.writeFile(bytes);
        await file.sync();
        await file.close();
        await rename(beside, path);
      } catch (fault) {
        await file.close().catch(() => undefined);
        await rm(beside, { force: true });
        throw fault;
      }
    },
  };
}
