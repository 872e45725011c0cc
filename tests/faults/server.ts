/** One server over one ledger, as a process of its own: `server.ts <ledger> <folder of records>`. Says its address. */
import { serve, stopOnSignals } from "../../src/node/serve.ts";

const [, , ledger = "", folder = ""] = process.argv;
const service = await serve({ port: 0, ledger, folder, version: "0.1.0-fault", page: null, log: console.error });
stopOnSignals(service);
console.log(service.address);
