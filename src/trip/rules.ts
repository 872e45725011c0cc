/** Rules between the fields of a trip: every one that is broken is told, also when fields are broken elsewhere. */
import { type InputError, type InputFault, pointer, shorten, valueAt } from "../units/input-error.ts";
import { dateOf, dayNumber } from "./dates.ts";
import { MOST_NIGHTS } from "./request.ts";

type Path = readonly (string | number)[];

class Broken {
  readonly errors: InputError[] = [];
  constructor(readonly input: unknown) {}
  add(path: Path, code: InputFault, message: string, expected: string): void {
    this.errors.push({ path: pointer(path), code, message, expected, got: shorten(valueAt(this.input, path)) });
  }
  dayAt(path: Path): number | null {
    const text = valueAt(this.input, path);
    if (typeof text !== "string") return null;
    const day = dayNumber(text);
    if (day === null)
      this.add(path, "impossible", "There is no such day in the calendar.", "a date such as 2025-07-04");
    return day;
  }
}

interface Stay {
  readonly path: Path;
  readonly arrive: number | null;
  readonly leave: number | null;
}

const PLACES = ["site", "campground", "offGrid"] as const;

function stopRules(broken: Broken, path: Path): Stay {
  const { input } = broken;
  const arrive = broken.dayAt([...path, "arrive"]);
  const leave = broken.dayAt([...path, "leave"]);
  if (arrive !== null && leave !== null && leave <= arrive) {
    const message = leave === arrive ? "A stop has at least one night." : "It is left before it is reached.";
    broken.add([...path, "leave"], "impossible", message, `a date after ${dateOf(arrive)}`);
  }
  const given = (key: string) => valueAt(input, [...path, key]) !== undefined;
  const campground = valueAt(input, [...path, "campground"]);
  // Beside a site that is sent along, `campground` says what holds for the place; alone it is the place.
  const named = PLACES.filter((key) => given(key) && !(key === "campground" && given("site")));
  const expected = "one of site, campground, offGrid";
  if (named.length === 0) broken.add(path, "missing", "These nights have no site.", expected);
  if (named.length > 1) broken.add([...path, named[1] ?? ""], "conflict", "A stop has one place.", expected);
  if (!given("site") && campground !== undefined && typeof campground !== "string")
    broken.add([...path, "campground"], "wrong-type", "This must be the id of a stored campground.", "a text");
  if (given("around") && !given("site"))
    broken.add([...path, "around"], "conflict", "Surroundings belong to a site that is sent along.", "nothing here");
  for (const key of ["among", "taken", "lends"] as const) {
    if (given("offGrid") && given(key))
      broken.add([...path, key], "conflict", "There is no campground off the grid.", "nothing here");
  }
  const [low, high] = ["low", "high"].map((end) => valueAt(input, [...path, "temperature", end]));
  if (typeof low === "number" && typeof high === "number" && low > high)
    broken.add([...path, "temperature", "high"], "impossible", "The highest lies below the lowest.", `at least ${low}`);
  return { path, arrive, leave };
}

/** Stops must follow each other: a stop that begins early overlaps, one that begins late leaves nights without a site. */
function gaps(broken: Broken, stays: readonly Stay[]): void {
  for (const [index, stay] of stays.entries()) {
    const before = stays[index - 1];
    if (before === undefined || before.leave === null || stay.arrive === null) continue;
    const expected = dateOf(before.leave);
    const path = [...stay.path, "arrive"];
    if (stay.arrive < before.leave)
      broken.add(path, "conflict", `It overlaps the stop before, which ends on ${expected}.`, expected);
    if (stay.arrive > before.leave) {
      const nights = stay.arrive - before.leave;
      const message = `${nights === 1 ? "One night" : `${nights} nights`} from ${expected} on have no site.`;
      broken.add(path, "missing", message, `${expected}, or a stop between (offGrid for a night without a site)`);
    }
  }
}

function ends(broken: Broken, base: Path, stays: readonly Stay[]): void {
  const from = broken.dayAt([...base, "from"]);
  const to = broken.dayAt([...base, "to"]);
  const [first, last] = [stays[0], stays.at(-1)];
  if (from !== null && to !== null && to <= from)
    broken.add([...base, "to"], "impossible", "The hire ends before it begins.", `a date after ${dateOf(from)}`);
  if (from !== null && first?.arrive != null && first.arrive !== from) {
    const early = first.arrive < from;
    const message = early ? "The first stop begins before the hire." : "The nights before it have no site.";
    broken.add([...first.path, "arrive"], early ? "conflict" : "missing", message, dateOf(from));
  }
  if (to !== null && last?.leave != null && last.leave !== to) {
    const late = last.leave > to;
    const message = late ? "The last stop ends after the hire." : "The nights after it have no site.";
    broken.add([...last.path, "leave"], late ? "conflict" : "missing", message, dateOf(to));
  }
  const [start, end] = [first?.arrive, last?.leave];
  if (start != null && end != null && end - start > MOST_NIGHTS)
    broken.add([...base, "stops"], "too-many", `The trip has ${end - start} nights.`, `at most ${MOST_NIGHTS} nights`);
}

function partyRules(broken: Broken, base: Path): void {
  const count = (key: string) => valueAt(broken.input, [...base, "party", key]);
  const [adults, children] = [count("adults"), count("children") ?? 0];
  if (adults === 0 && children === 0)
    broken.add([...base, "party", "adults"], "impossible", "Nobody travels.", "at least one person");
}

const TANKS = ["fresh", "grey", "black", "propane"] as const;
const CASES = ["low", "expected", "high"] as const;

function useRules(broken: Broken, base: Path): void {
  for (const key of ["water", "toilet", "propane", "battery", "generatorHours", "generatorFuel"]) {
    const path = [...base, "use", key];
    const numbers = CASES.map((one) => valueAt(broken.input, [...path, one]));
    const [low, expected, high] = numbers;
    if (typeof low !== "number" || typeof expected !== "number" || typeof high !== "number") continue;
    if (low > expected || expected > high)
      broken.add(path, "impossible", "Low, expected and high use must rise.", "low <= expected <= high");
  }
}

/** Broken rules of a trip or booking that stands at `base` in the body. */
export function brokenTripRules(input: unknown, base: Path = []): readonly InputError[] {
  const broken = new Broken(input);
  const stops = valueAt(input, [...base, "stops"]);
  const stays = Array.isArray(stops) ? stops.map((_, index) => stopRules(broken, [...base, "stops", index])) : [];
  gaps(broken, stays);
  ends(broken, base, stays);
  partyRules(broken, base);
  useRules(broken, base);
  return broken.errors;
}

const LITRES_PER_CUBIC_METRE = 1000;

/** What a rig's tanks and the levels at departure cannot be: larger than the rig's body, more than the tank holds. */
export function tankRules(
  rig: {
    readonly length: number;
    readonly width: number;
    readonly height: number;
    readonly tanks: Readonly<Record<string, number | null | undefined>>;
  },
  paths: { readonly tanks: string; readonly start: string },
  start: Readonly<Record<string, number | undefined>> | undefined,
): readonly InputError[] {
  const room = rig.length * rig.width * rig.height * LITRES_PER_CUBIC_METRE;
  return TANKS.flatMap((tank): InputError[] => {
    const size = rig.tanks[tank] ?? null;
    const level = start?.[tank];
    const found: InputError[] = [];
    const add = (path: string, message: string, expected: string, got: number) =>
      found.push({ path: `${path}/${tank}`, code: "impossible", message, expected, got: `${got} L` });
    if (size !== null && size > room) {
      const most = Math.floor(room);
      add(paths.tanks, `The tank is larger than the rig's whole body of ${most} L.`, `at most ${most} L`, size);
    }
    if (level !== undefined && size !== null && level > size)
      add(paths.start, `More than the rig's ${tank} tank of ${size} L holds.`, `at most ${size} L`, level);
    if (level !== undefined && size === null)
      add(
        paths.start,
        `The rig's record does not say how large its ${tank} tank is.`,
        "tanks in the rig's record",
        level,
      );
    return found;
  });
}
