/** padwright trip: one rig through its stops. */
import { readTripInput } from "../http/trip-input.ts";
import { tripToWire } from "../http/trip-wire.ts";
import { tripSteps } from "../trip/plan.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import { OPTION_FLAGS } from "./fit-options.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { jsonOf, readText, refuseSharedInput, titleOf } from "./records.ts";
import { styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";
import { accepted, CAMPGROUNDS, type Members, optionsFromFlags, readList, readMembers, storeOf } from "./trip-input.ts";
import { tripReport } from "./trip-report.ts";

const JSON_INDENT = 2;
/** Milliseconds before a command says how far it is. */
const PATIENCE = 1000;

export const TRIP: CommandSpec = {
  name: "trip",
  summary: "One rig through its stops: sites, the kit to pack, tanks, what to do.",
  usage: "trip --trip file --campground file (--rig file | --fleet file --unit id) [flags]",
  about: [
    "Fits the rig at every stop, finds the smallest kit that serves all of them and the two next-best sites of each, and carries the tanks from stop to stop.",
  ],
  flags: {
    trip: { value: "file", required: true, help: "Stops, dates and party (JSON), or bookings under `trips`." },
    booking: { value: "id", help: "Which of the file's `trips`." },
    campground: CAMPGROUNDS,
    rig: { value: "file", help: "The rig's record (JSON)." },
    fleet: { value: "file", help: "A fleet (JSON, list `fleet`), in place of --rig." },
    unit: { value: "id", help: "Which unit of the fleet. Default: the one that the booking has." },
    stock: { value: "file", help: "What the depot has on the shelf (JSON, list `stock`)." },
    ...OPTION_FLAGS,
    json: { help: "The whole answer as JSON, as the API gives it." },
    strict: { help: "End with 4 unless the trip works at every stop." },
  },
  operands: [],
  examples: [
    "padwright trip --trip trip.json --rig rig.json --campground camp.geojson",
    "padwright trip --trip trips.json --booking b-2 --fleet fleet.json --unit u-3 \\",
    "    --stock stock.json --campground camp.geojson --units us",
  ],
};

/** The trip of the file, or the booking that is named. */
function bookingOf(file: Members, given: Given): Members {
  const wanted = given.value("booking");
  const trips = file["trips"];
  if (!Array.isArray(trips)) {
    if (wanted !== null) throw usageError("--booking wants a file with `trips`.");
    return file;
  }
  const ids = trips.map((trip) => String((trip as Members | null)?.["id"]));
  const trip = wanted === null ? null : trips[ids.indexOf(wanted)];
  if (trip !== null && trip !== undefined) return trip as Members;
  const which = wanted === null ? "Say which booking" : `There is no booking "${wanted}"`;
  throw inputError(`${which}: --booking ${ids.join(", ")}.`);
}

async function rigOf(given: Given, trip: Members, terminal: Terminal): Promise<Members> {
  const [rig, fleet] = [given.value("rig"), await readList(given, "fleet", terminal)];
  if (rig !== null && fleet !== null) throw usageError("A trip has one rig: --rig or --fleet.");
  if (rig !== null) return { rig: jsonOf(await readText(rig, terminal), rig) };
  const unit = given.value("unit") ?? trip["unit"];
  return fleet === null ? {} : { fleet, ...(unit === undefined ? {} : { unit }) };
}

export async function tripCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["trip", "rig", "fleet", "stock", "options"]);
  const file = given.value("trip") ?? "";
  const { unit: _unit, note: _note, ...trip } = bookingOf(await readMembers(file, terminal), given);
  const stock = await readList(given, "stock", terminal);
  const rig = await rigOf(given, { unit: _unit }, terminal);
  const options = await optionsFromFlags(given, trip["options"] !== undefined, terminal);
  const body = { ...trip, ...rig, ...(stock === null ? {} : { stock }) };
  const read = accepted(await readTripInput(body, await storeOf(given, terminal), null), `trip of ${titleOf(file)}`);
  const plan = toTheEnd(tripSteps(options === null ? read : { ...read, options }), terminal);
  if (given.has("json")) terminal.out(JSON.stringify(tripToWire(plan), null, JSON_INDENT));
  else
    for (const row of tripReport(plan, { width: terminal.width, style: styleOf(terminal.colour) })) terminal.out(row);
  return given.has("strict") && plan.works !== "yes" ? EXIT.noFit : EXIT.answered;
}

/** Runs the steps and shows how many were taken once it takes long. */
export function toTheEnd<T>(steps: Generator<void, T>, terminal: Terminal): T {
  const start = terminal.clock();
  for (let done = 1; ; done++) {
    const next = steps.next();
    if (next.done) {
      terminal.passing("");
      return next.value;
    }
    if (terminal.clock() - start > PATIENCE) terminal.passing(`${done} steps`);
  }
}
