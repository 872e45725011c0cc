/** padwright serve: page and API on one port. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import packageFile from "../../package.json" with { type: "json" };
import { serve, stopOnSignals } from "../node/serve.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import type { CommandSpec, Given } from "./flags.ts";
import type { Terminal } from "./terminal.ts";
import { FORECAST_HELP } from "./when.ts";

const LARGEST_PORT = 65_535;
const DEMO = join("data", "demo");

export const SERVE: CommandSpec = {
  name: "serve",
  summary: "Page and API over the campgrounds of a folder.",
  usage: "serve [flags]",
  about: [
    "Serves the campgrounds of a folder of .geojson files until it is stopped (Ctrl+C). Without --data it serves the invented demo campground.",
    ...FORECAST_HELP,
  ],
  flags: {
    port: { value: "number", help: "Port; 0 takes any that is free. Default: PORT of the environment, else 8787." },
    host: { value: "address", help: "Address to listen on. Default: HOST of the environment, else 127.0.0.1." },
    data: { value: "folder", help: "Folder of .geojson files." },
  },
  operands: [],
  examples: ["padwright serve", "padwright serve --port 9000 --data ./campgrounds", "PORT=9000 padwright serve"],
};

/** Resolves when the server listens; the process then lives until it is told to end. */
export async function serveCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  const port = given.value("port");
  const host = given.value("host");
  if (port !== null && (!/^\d+$/.test(port) || Number(port) > LARGEST_PORT)) {
    throw usageError(`--port wants a whole number from 0 to ${LARGEST_PORT}, and "${port}" is none.`);
  }
  const folder = given.value("data") ?? demoFolder();
  const service = await serve({
    folder,
    version: packageFile.version,
    log: terminal.error,
    ...(port === null ? {} : { port: Number(port) }),
    ...(host === null ? {} : { host }),
  }).catch((fault: unknown) => {
    throw inputError(fault instanceof Error ? fault.message : String(fault));
  });
  stopOnSignals(service, terminal.error);
  terminal.error(`Padwright answers at ${service.address}; its reference is at ${service.address}/docs`);
  return EXIT.answered;
}

/** The demo beside the package, wherever this module lies in it. */
function demoFolder(): string {
  for (let folder = dirname(fileURLToPath(import.meta.url)); folder !== dirname(folder); folder = dirname(folder)) {
    const demo = join(folder, DEMO);
    if (existsSync(demo)) return demo;
  }
  throw inputError("The demo campground is not here: name a folder with --data.");
}
