import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createToken } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { objectFolder } from "../../src/node/object-folder.ts";
import { serve } from "../../src/node/serve.ts";
import { ORIGIN, TOKEN } from "./port.ts";
import { holdToContract, hostToken, putCatalogue } from "./suite.ts";

holdToContract("Node, over HTTP", async () => {
  const folder = await mkdtemp(join(tmpdir(), "padwright-contract-"));
  const path = join(folder, "park.sqlite");
  const catalogue = join(folder, "catalogue");
  await putCatalogue(objectFolder(catalogue));
  const { ledger, close } = openLedger(path);
  const { hash, ...token } = await hostToken();
  createToken(ledger, hash, token);
  close();
  const log = () => undefined;
  const service = await serve({ port: 0, ledger: path, catalogue, version: "0.1.0-test", page: null, log });
  return {
    token: TOKEN,
    exactSolver: "highs",
    call: async (request) => {
      const body = request.body === null ? null : await request.arrayBuffer();
      const { method, headers } = request;
      return fetch(service.address + request.url.slice(ORIGIN.length), { method, headers, body });
    },
    close: async () => {
      await service.stop();
      await rm(folder, { recursive: true });
    },
  };
});
