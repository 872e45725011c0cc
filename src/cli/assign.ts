/** padwright assign: stays to the sites of a campground. */
import type { ProposeProgress } from "../http/assignment/propose.ts";
import { askedProblem } from "../http/assignment/read.ts";
import { readAssignmentRequest } from "../http/assignment/request.ts";
import { runAssignment } from "../http/assignment/run.ts";
import { readStayTable } from "../http/host/stay-table.ts";
import { Problem, type ProblemError } from "../http/problem.ts";
import { createExactSolver } from "../node/exact-solver.ts";
import { memoryStore } from "../records/store.ts";
import { assignReport } from "./assign-report.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { printable } from "./layout.ts";
import { jsonOf, readText, refusalOf, refuseSharedInput, titleOf } from "./records.ts";
import { styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";

const JSON_INDENT = 2;
const MOST_ROWS = 3000;
const MOST_FAULTS = 50;
const PERCENT = 100;

export const ASSIGN: CommandSpec = {
  name: "assign",
  summary: "Stays to the sites of a campground: a plan, its bound, and why.",
  usage: "assign --campground file --stays file [flags]",
  about: [
    "Fits every rig at every site and searches for the plan worth most. Says how far from the best it can be, why each stay has its site, and what would help who has none.",
  ],
  flags: {
    campground: { value: "file", required: true, help: "The campground's record (GeoJSON)." },
    stays: { value: "file", required: true, help: "Stays: a table (CSV), or a JSON list of stays." },
    request: { value: "file", help: "JSON with further members of a request: closures, feeders, plan, options." },
    effort: { value: "word", help: "quick, usual or thorough. Default usual." },
    seed: { value: "number", help: "One seed, one plan. Default 1." },
    seconds: { value: "number", help: "The search ends by then with the best plan so far. Default 30." },
    "first-night": { value: "date", help: "Nights before it are over. Default: the first arrival." },
    "max-moves": { value: "number", help: "Most stays that may leave the site of the accepted plan." },
    json: { help: "The whole answer as JSON, as the API gives it." },
  },
  operands: [],
  examples: [
    "padwright assign --campground camp.geojson --stays stays.csv",
    "padwright assign --campground camp.geojson --stays stays.json --effort thorough --json",
  ],
};

export async function assignCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["campground", "stays", "request"]);
  const campground = given.value("campground") ?? "";
  const body = {
    ...(await furtherMembers(given, terminal)),
    campground: jsonOf(await readText(campground, terminal), campground),
    stays: await readStays(given.value("stays") ?? "", terminal),
  };
  const request = { ...body, ...firstNight(given), options: { ...optionsOf(body), ...optionFlags(given) } };
  const errors: ProblemError[] = [];
  const { store } = await memoryStore([]);
  const read = await readAssignmentRequest(request, store, errors);
  if (read === null) throw refused("The request is refused.", errors);
  const { asked } = read;
  const options = { ...asked.options, firstNight: asked.firstNight };
  const problem = await askedProblem(read.parts, read.stays, asked.closures ?? [], options);
  if (problem.sites.length === 0 || problem.stays.length === 0) {
    throw inputError(`There is no ${problem.sites.length === 0 ? "site" : "stay with a night to come"}.`);
  }
  const exact = createExactSolver();
  try {
    const answer = await runAssignment(asked, problem, {
      clock: terminal.clock,
      exact,
      breathe: () => Promise.resolve(),
      memory: new Map(),
      progress: (progress) => terminal.passing(passingLine(progress)),
    });
    terminal.passing("");
    const lost = read.refused ?? [];
    if (given.has("json")) terminal.out(JSON.stringify({ refused: lost, ...answer }, null, JSON_INDENT));
    else {
      const names = new Map(problem.sites.map(({ site }) => [site.id, site.name]));
      const stays = new Map(read.stays.map(({ wire }) => [wire.id, wire]));
      const rows = assignReport(answer, { names, stays, width: terminal.width, style: styleOf(terminal.colour) });
      for (const row of rows) terminal.out(row);
      const ids = lost.map(({ site }) => printable(site ?? "one without an id"));
      if (ids.length > 0) terminal.out(`Refused records, given to nobody: ${ids.join(", ")}.`);
    }
  } catch (fault) {
    if (fault instanceof Problem) throw refused(fault.detail, fault.errors);
    throw fault;
  } finally {
    terminal.passing("");
    exact.close();
  }
  return EXIT.answered;
}

const refused = (title: string, errors: readonly ProblemError[]) =>
  refusalOf(
    title,
    errors.map(({ pointer, message, expected }) => ({ path: pointer ?? "", message, expected: expected ?? "" })),
  );

const optionsOf = (body: Readonly<Record<string, unknown>>): object =>
  typeof body["options"] === "object" && body["options"] !== null ? body["options"] : {};

async function furtherMembers(given: Given, terminal: Terminal): Promise<Record<string, unknown>> {
  const file = given.value("request");
  if (file === null) return {};
  const value: unknown = jsonOf(await readText(file, terminal), file);
  if (typeof value === "object" && value !== null && !Array.isArray(value)) return { ...value };
  throw inputError(`${titleOf(file)} must be a JSON object.`);
}

const firstNight = (given: Given) =>
  given.value("first-night") === null ? {} : { firstNight: given.value("first-night") };

function optionFlags(given: Given): Record<string, unknown> {
  const options: Record<string, unknown> = {};
  const effort = given.value("effort");
  if (effort !== null) options["effort"] = effort;
  for (const [flag, member] of [
    ["seed", "seed"],
    ["seconds", "seconds"],
    ["max-moves", "maxMoves"],
  ] as const) {
    const text = given.value(flag);
    if (text === null) continue;
    const value = Number(text);
    if (text.trim() === "" || !Number.isFinite(value))
      throw usageError(`--${flag} wants a number, and "${text}" is none.`);
    options[member] = value;
  }
  return options;
}

/** A JSON list, or a table as the API takes it. Every bad row is told. */
async function readStays(file: string, terminal: Terminal): Promise<unknown> {
  const text = await readText(file, terminal);
  if (/^\s*[[{]/.test(text)) {
    const value: unknown = jsonOf(text, file);
    return Array.isArray(value) ? value : (value as Readonly<Record<string, unknown>>)["stays"];
  }
  const table = readStayTable(text, MOST_ROWS);
  if (!table.ok) throw refused(`${titleOf(file)} cannot be read as a table of stays.`, table.errors);
  const faults: string[] = [];
  const stays: unknown[] = [];
  for (let index = 0; index < table.rows; index++) {
    const row = table.read(index);
    if ("entry" in row) {
      const { arrival, departure, status, asks, party } = row.entry;
      stays.push({ id: row.id, arrival, departure, status, ...asks, ...(party === null ? {} : { party }) });
    } else {
      faults.push(
        ...row.map(({ line, name, message }) => `  line ${line}${name === null ? "" : `, ${name}`}: ${message}`),
      );
    }
  }
  if (faults.length === 0) return stays;
  const more = faults.length > MOST_FAULTS ? [`  and ${faults.length - MOST_FAULTS} more`] : [];
  throw inputError(`${titleOf(file)} has bad rows.`, ...faults.slice(0, MOST_FAULTS), ...more);
}

const PHASES: Readonly<Record<ProposeProgress["phase"], string>> = {
  fits: "fitting rigs at sites",
  start: "first plan",
  search: "searching",
  bound: "working out the bound",
  "led-search": "searching",
  repair: "repairing",
  check: "checking",
};

function passingLine(progress: ProposeProgress): string {
  const share = `${Math.round(progress.done * PERCENT)} %`;
  const words = `${PHASES[progress.phase]}: ${share}`;
  return "unplaced" in progress ? `${words}, ${progress.unplaced} without a site` : words;
}
