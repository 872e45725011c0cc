/** Objects of any static server or public bucket, by fetch alone. */
import type { ObjectSource } from "./objects.ts";

const NOT_FOUND = 404;
const PATIENCE_MILLISECONDS = 10_000;

/**
 * `base` is the address of the catalogue's folder and comes from the configuration, never from a request. Redirects
 * are refused, so that a store cannot send its reader elsewhere.
 */
export function httpObjects(base: string, ask: typeof fetch = fetch): ObjectSource {
  const root = new URL(base.endsWith("/") ? base : `${base}/`);
  return {
    async get(name) {
      const reply = await ask(new URL(name, root), {
        redirect: "error",
        signal: AbortSignal.timeout(PATIENCE_MILLISECONDS),
      });
      if (reply.status === NOT_FOUND) return null;
      if (!reply.ok) throw new Error(`The object store answered ${reply.status} to ${name}.`);
      return new Uint8Array(await reply.arrayBuffer());
    },
  };
}
