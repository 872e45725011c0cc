#!/usr/bin/env node
/** The command line. The same core as the API; no command computes anything of its own. */
import packageFile from "../../package.json" with { type: "json" };
import { nearest } from "../units/nearest.ts";
import { ASSIGN, assignCommand } from "./assign.ts";
import { CARD, cardCommand } from "./card.ts";
import { CATALOG, catalogCommand } from "./catalog.ts";
import { DESK, deskCommand } from "./desk.ts";
import { Ending, EXIT, type ExitCode, usageError } from "./ending.ts";
import { FIT, fitCommand } from "./fit.ts";
import { type CommandSpec, type Given, readFlags } from "./flags.ts";
import { helpOf, overview } from "./help.ts";
import { IMPORT, importCommand } from "./import.ts";
import { SEARCH, searchCommand } from "./search.ts";
import { SERVE, serveCommand } from "./serve.ts";
import { processTerminal, type Terminal } from "./terminal.ts";
import { TOKEN, tokenCommand } from "./token.ts";
import { TRIP, tripCommand } from "./trip.ts";
import { WIND, windCommand } from "./wind.ts";

type Command = (given: Given, terminal: Terminal) => Promise<ExitCode>;

const COMMANDS: readonly { readonly spec: CommandSpec; readonly run: Command }[] = [
  { spec: FIT, run: fitCommand },
  { spec: CARD, run: cardCommand },
  { spec: SEARCH, run: searchCommand },
  { spec: WIND, run: windCommand },
  { spec: TRIP, run: tripCommand },
  { spec: DESK, run: deskCommand },
  { spec: ASSIGN, run: assignCommand },
  { spec: IMPORT, run: importCommand },
  { spec: CATALOG, run: catalogCommand },
  { spec: SERVE, run: serveCommand },
  { spec: TOKEN, run: tokenCommand },
];

async function run(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const [word, ...rest] = args;
  const specs = COMMANDS.map(({ spec }) => spec);
  if (word === "--version") {
    terminal.out(packageFile.version);
    return EXIT.answered;
  }
  if (word === undefined || word === "--help" || word === "-h" || word === "help") {
    const rows = overview(specs, packageFile.version, terminal.width);
    for (const row of rows) (word === undefined ? terminal.error : terminal.out)(row);
    return word === undefined ? EXIT.usage : EXIT.answered;
  }
  const command = COMMANDS.find(({ spec }) => spec.name === word);
  if (command === undefined) {
    const names = specs.map(({ name }) => name);
    const near = nearest(word, names);
    const hint = near === null ? "" : ` Did you mean ${near}?`;
    throw usageError(`There is no command "${word}".${hint}`, `The commands are ${names.join(", ")}.`);
  }
  const given = readFlags(rest, command.spec);
  if (given.help) {
    for (const row of helpOf(command.spec, terminal.width)) terminal.out(row);
    return EXIT.answered;
  }
  return command.run(given, terminal);
}

/** Whoever reads our output may stop early (`| head`): that is no fault of ours. */
function endQuietlyWhenNobodyReads(fault: NodeJS.ErrnoException): void {
  if (fault.code === "EPIPE") process.exit(process.exitCode ?? EXIT.answered);
  throw fault;
}

process.stdout.on("error", endQuietlyWhenNobodyReads);
process.stderr.on("error", endQuietlyWhenNobodyReads);

const terminal = processTerminal(process);
try {
  process.exitCode = await run(process.argv.slice(2), terminal);
} catch (fault) {
  terminal.passing("");
  if (fault instanceof Ending) {
    for (const line of fault.lines) terminal.error(line);
    process.exitCode = fault.code;
  } else {
    terminal.error(
      `This is a fault of the program: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}`,
    );
    process.exitCode = EXIT.internal;
  }
}
