/** padwright desk: a fleet and its bookings. */
import { readDeskInput } from "../http/trip-input.ts";
import { deskToWire } from "../http/trip-wire.ts";
import { deskSteps } from "../trip/desk/desk.ts";
import { deskReport } from "./desk-report.ts";
import { EXIT, type ExitCode } from "./ending.ts";
import { OPTION_FLAGS } from "./fit-options.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { refuseSharedInput } from "./records.ts";
import { styleOf } from "./style.ts";
import type { Terminal } from "./terminal.ts";
import { toTheEnd } from "./trip.ts";
import { accepted, CAMPGROUNDS, optionsFromFlags, readList, storeOf } from "./trip-input.ts";

const JSON_INDENT = 2;

export const DESK: CommandSpec = {
  name: "desk",
  summary: "A fleet and its bookings: which unit for which trip, what to load.",
  usage: "desk --fleet file --trips file --campground file [flags]",
  about: [
    "Judges every unit on every booking, proposes a unit for each, lists what to load, and counts the depot's stock by date.",
  ],
  flags: {
    fleet: { value: "file", required: true, help: "The fleet (JSON, list `fleet`)." },
    trips: { value: "file", required: true, help: "The bookings (JSON, list `trips`)." },
    campground: CAMPGROUNDS,
    stock: { value: "file", help: "What the depot has on the shelf (JSON, list `stock`)." },
    ...OPTION_FLAGS,
    json: { help: "The whole answer as JSON, as the API gives it." },
    strict: { help: "End with 4 unless every booking has a unit and the stock is enough." },
  },
  operands: [],
  examples: [
    "padwright desk --fleet fleet.json --trips trips.json --stock stock.json \\",
    "    --campground camp.geojson --units us",
  ],
};

export async function deskCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  refuseSharedInput(given, ["fleet", "trips", "stock", "options"]);
  const fleet = await readList(given, "fleet", terminal);
  const trips = await readList(given, "trips", terminal);
  const stock = await readList(given, "stock", terminal);
  const options = await optionsFromFlags(given, false, terminal);
  const body = { fleet, trips, ...(stock === null ? {} : { stock }) };
  const read = accepted(await readDeskInput(body, await storeOf(given, terminal), null), "desk");
  const plan = toTheEnd(deskSteps(options === null ? read : { ...read, options }), terminal);
  if (given.has("json")) terminal.out(JSON.stringify(deskToWire(plan), null, JSON_INDENT));
  else
    for (const row of deskReport(plan, { width: terminal.width, style: styleOf(terminal.colour) })) terminal.out(row);
  const done = plan.trips.every((trip) => trip.unit !== null && trip.clashes.length === 0);
  const short = plan.stock.some((one) => one.shortFrom !== null);
  return given.has("strict") && (!done || short) ? EXIT.noFit : EXIT.answered;
}
