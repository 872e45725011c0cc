/** A batch over a real connection: rows come as they are made, compressed too, and stop when the caller goes away. */
import { request } from "node:http";
import type { AddressInfo } from "node:net";
import { createBrotliDecompress, createGunzip } from "node:zlib";
import { createAdaptorServer, type ServerType } from "@hono/node-server";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION, EXAMPLE_FIT_REQUEST } from "../../src/http/openapi/examples.ts";
import { compressed } from "../../src/node/compress.ts";
import { memoryStore } from "../../src/records/store.ts";
import { testApp } from "../http/helpers.ts";

const ROWS = 300;
let server: ServerType;
let address: string;
/** Sites that were read: one for each row. */
let read = 0;

beforeAll(async () => {
  const { store } = await memoryStore([{ name: "example", input: EXAMPLE_COLLECTION }]);
  const get = (id: string) => {
    read += 1;
    return store.get(id);
  };
  const app = await testApp(undefined, { store: { ...store, get } });
  server = createAdaptorServer({ fetch: async (one) => compressed(one, await app.fetch(one)) });
  await new Promise<void>((resolve) => {
    server.listen(0, "127.0.0.1", resolve);
  });
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(() => new Promise((resolve) => server.close(resolve)));

const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

function batch(coding: string) {
  const sites = Array.from({ length: ROWS }, () => ({ campground: "alder-flat", site: "A7" }));
  const body = JSON.stringify({ rigs: [EXAMPLE_FIT_REQUEST.rig], sites });
  const call = request(`${address}/v1/fit/batch`, {
    method: "POST",
    headers: { "Content-Type": "application/json", "Accept-Encoding": coding },
  });
  call.end(body);
  return call;
}

describe("a batch over the wire", () => {
  it.each([
    ["identity", undefined],
    ["gzip", "gzip"],
    ["br, gzip", "br"],
  ])(
    "comes row by row to who takes %s, long before it is done, and ends when the caller goes",
    async (accept, coding) => {
      const rows = await new Promise<string[]>((resolve, reject) => {
        const call = batch(accept);
        call.on("error", reject);
        call.on("response", (response) => {
          expect(response.headers["content-encoding"]).toBe(coding);
          const plain =
            coding === "br"
              ? response.pipe(createBrotliDecompress())
              : coding === "gzip"
                ? response.pipe(createGunzip())
                : response;
          let text = "";
          plain.on("data", (piece: Buffer) => {
            text += piece.toString("utf8");
            if (text.split("\n").length <= 2) return;
            call.removeAllListeners("error");
            call.on("error", () => undefined);
            plain.on("error", () => undefined);
            call.destroy();
            resolve(text.split("\n").slice(0, -1));
          });
        });
      });
      expect(rows.length).toBeLessThan(ROWS);
      expect(JSON.parse(rows[0] ?? "")).toMatchObject({ row: 0, of: ROWS, errors: [] });
      await pause(300);
      const then = read;
      expect(then).toBeLessThan(ROWS);
      await pause(300);
      expect(read).toBe(then);
      read = 0;
    },
  );

  it("comes whole when it is read to the end", async () => {
    const text = await new Promise<string>((resolve, reject) => {
      const call = batch("br");
      call.on("error", reject);
      call.on("response", (response) => {
        const plain = response.pipe(createBrotliDecompress());
        let all = "";
        plain.on("data", (piece: Buffer) => {
          all += piece.toString("utf8");
        });
        plain.on("end", () => resolve(all));
      });
    });
    const numbers = text
      .trimEnd()
      .split("\n")
      .map((line) => (JSON.parse(line) as { row: number }).row);
    expect(numbers).toEqual(Array.from({ length: ROWS }, (_, row) => row));
  });
});
