/** Starts the server: PORT, HOST, and RECORDS for the folder of .geojson files (default: the invented demo). */
import { fileURLToPath } from "node:url";
import packageFile from "../../package.json" with { type: "json" };
import { serve, stopOnSignals } from "./serve.ts";

const DEMO = fileURLToPath(new URL("../../data/demo", import.meta.url));

try {
  const service = await serve({ folder: process.env["RECORDS"] ?? DEMO, version: packageFile.version });
  stopOnSignals(service);
  console.error(`Padwright answers at ${service.address}; its reference is at ${service.address}/docs`);
} catch (fault) {
  console.error(fault instanceof Error ? fault.message : String(fault));
  process.exitCode = 1;
}
