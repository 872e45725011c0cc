/** padwright serve: page and API on one port. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import packageFile from "../../package.json" with { type: "json" };
import { eventLine, type ServeOptions, serve, stopOnSignals } from "../node/serve.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { isLedger } from "./ledger-file.ts";
import type { Terminal } from "./terminal.ts";
import { FORECAST_HELP } from "./when.ts";

const LARGEST_PORT = 65_535;
const DEMO = join("data", "demo");

export const SERVE: CommandSpec = {
  name: "serve",
  summary: "Page and API over the campgrounds of a folder, or of a ledger that hosts write to.",
  usage: "serve [flags]",
  about: [
    "Serves the campgrounds of a folder of .geojson files until it is stopped (Ctrl+C). Without --data it serves the invented demo campground.",
    "With --data file.sqlite it keeps a ledger there: hosts write records, stays and places through the API with tokens that padwright token makes. --records brings the campgrounds of a folder into the ledger that it does not have; what it has is never overwritten.",
    "With --catalogue it answers from a catalogue, and looks for a newer one now and then and on SIGHUP; what a ledger has is believed before the catalogue.",
    "Tokens of an identity provider are believed when --keys, --issuer and --audience name it.",
    ...FORECAST_HELP,
  ],
  flags: {
    port: { value: "number", help: "Port; 0 takes any that is free. Default: PORT of the environment, else 8787." },
    host: { value: "address", help: "Address to listen on. Default: HOST of the environment, else 127.0.0.1." },
    data: { value: "path", help: "Folder of .geojson files, or file of a ledger (.sqlite or .db)." },
    catalogue: {
      value: "place",
      help: "Folder or https address of a catalogue (padwright catalog build); alone, or below a ledger.",
    },
    "catalogue-seconds": { value: "number", help: "Seconds between two looks for a newer one. Default: 60." },
    log: { value: "form", help: "json: each line of the log is an object, and each request has one. Default: text." },
    records: { value: "folder", help: "Folder of .geojson files to bring into the ledger." },
    keys: { value: "address", help: "Key set (JWKS) of the identity provider of hosts." },
    issuer: { value: "text", help: "Issuer that its tokens name." },
    audience: { value: "text", help: "Audience that its tokens name." },
    rate: { value: "units/seconds", help: "How much one caller may ask, for instance 600/60. Default: no limit." },
  },
  operands: [],
  examples: [
    "padwright serve",
    "padwright serve --port 9000 --data ./campgrounds",
    "padwright serve --data park.sqlite --records ./campgrounds",
    "padwright serve --catalogue https://files.example/catalogue/ --data park.sqlite",
    "PORT=9000 padwright serve",
  ],
};

/** Resolves when the server listens; the process then lives until it is told to end. */
export async function serveCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  const port = given.value("port");
  const host = given.value("host");
  if (port !== null && (!/^\d+$/.test(port) || Number(port) > LARGEST_PORT)) {
    throw usageError(`--port wants a whole number from 0 to ${LARGEST_PORT}, and "${port}" is none.`);
  }
  const service = await serve({
    ...recordsOf(given),
    ...catalogueOf(given),
    ...logOf(given.value("log")),
    ...rateOf(given.value("rate")),
    version: packageFile.version,
    log: terminal.error,
    ...(port === null ? {} : { port: Number(port) }),
    ...(host === null ? {} : { host }),
  }).catch((fault: unknown) => {
    throw inputError(fault instanceof Error ? fault.message : String(fault));
  });
  const say = given.value("log") === "json" ? (line: string) => terminal.error(eventLine(line)) : terminal.error;
  stopOnSignals(service, say);
  say(`Padwright answers at ${service.address}; its reference is at ${service.address}/docs`);
  return EXIT.answered;
}

function rateOf(text: string | null): Pick<ServeOptions, "rate"> {
  if (text === null) return {};
  const [, quota, window] = /^([1-9]\d{0,8})\/([1-9]\d{0,5})$/.exec(text) ?? [];
  if (quota === undefined) throw usageError(`--rate wants units/seconds such as 600/60, and "${text}" is none.`);
  return { rate: { quota: Number(quota), window: Number(window) } };
}

function catalogueOf(given: Given): Pick<ServeOptions, "catalogue" | "catalogueInterval"> {
  const place = given.value("catalogue");
  const seconds = given.value("catalogue-seconds");
  if (place === null) {
    if (seconds !== null) throw usageError("--catalogue-seconds wants --catalogue.");
    return {};
  }
  if (seconds !== null && !/^[1-9]\d{0,5}$/.test(seconds)) {
    throw usageError(`--catalogue-seconds wants a whole number of seconds, and "${seconds}" is none.`);
  }
  const catalogue = place.includes("://") ? secureAddress("--catalogue", place) : place;
  return { catalogue, ...(seconds === null ? {} : { catalogueInterval: Number(seconds) * MILLISECONDS }) };
}

const MILLISECONDS = 1000;

function logOf(form: string | null): Pick<ServeOptions, "logForm"> {
  if (form === null) return {};
  if (form !== "json" && form !== "text") throw usageError(`--log wants json or text, and "${form}" is neither.`);
  return { logForm: form };
}

/** Where records come from: a folder, or a ledger with what may be brought into it. */
function recordsOf(given: Given): Pick<ServeOptions, "folder" | "ledger" | "tokens"> {
  const data = given.value("data");
  const records = given.value("records");
  const named = [given.value("keys"), given.value("issuer"), given.value("audience")];
  if (data === null || !isLedger(data)) {
    if (records !== null || named.some((value) => value !== null)) {
      throw usageError("--records, --keys, --issuer and --audience want a ledger: --data file.sqlite.");
    }
    if (given.value("catalogue") === null) return { folder: data ?? demoFolder() };
    if (data !== null) throw usageError("--catalogue goes alone or with a ledger: --data file.sqlite.");
    return {};
  }
  const [keys, issuer, audience] = named.filter((value) => value !== null);
  const tokens =
    keys && issuer && audience ? { tokens: { keys: secureAddress("--keys", keys), issuer, audience } } : {};
  if (!("tokens" in tokens) && named.some((value) => value !== null)) {
    throw usageError("--keys, --issuer and --audience go together.");
  }
  return { ledger: data, ...(records === null ? {} : { folder: records }), ...tokens };
}

/** What comes over an open line could be anybody's; on this machine there is nobody between. */
function secureAddress(flag: string, address: string): string {
  const url = URL.canParse(address) ? new URL(address) : null;
  const isHere = url?.protocol === "http:" && ["127.0.0.1", "[::1]", "localhost"].includes(url.hostname);
  if (url !== null && (url.protocol === "https:" || isHere)) return address;
  throw usageError(`${flag} wants an https address, and "${address}" is none.`);
}

/** The demo beside the package, wherever this module lies in it. */
function demoFolder(): string {
  for (let folder = dirname(fileURLToPath(import.meta.url)); folder !== dirname(folder); folder = dirname(folder)) {
    const demo = join(folder, DEMO);
    if (existsSync(demo)) return demo;
  }
  throw inputError("The demo campground is not here: name a folder with --data.");
}
