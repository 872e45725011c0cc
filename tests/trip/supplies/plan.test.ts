/** Supplies through the stops: worked by hand, asymmetric figures. */
import { describe, expect, it } from "vitest";
import { tripSchema } from "../../../src/trip/request.ts";
import { coach, FULL, plan, same, station, stop } from "./stops.ts";

/** Two people at 30 litres, 6 of them for the toilet: 12 a day to the black tank, 48 to the grey, 60 from the fresh. */
const USE = { water: same(30), toilet: same(6), offBoard: 0 };

describe("a stay without anything", () => {
  const answer = plan([stop("dry", 4)], { use: USE });

  it("draws the fresh tank and fills the others, day by day", () => {
    const [, first, second] = answer.stops[0]!.days;
    expect(first!.levels.fresh.expected).toBeCloseTo(90, 9);
    expect(first!.levels.grey.expected).toBeCloseTo(48, 9);
    expect(first!.levels.black.expected).toBeCloseTo(12, 9);
    expect(second!.levels.fresh.expected).toBeCloseTo(30, 9);
  });

  it("stops when a tank is full: grey after 118/48 days, and then only the toilet draws", () => {
    const full = answer.events.find((event) => event.store === "grey" && event.kind === "full");
    expect(full?.day.expected).toBeCloseTo(118 / 48, 9);
    expect(answer.lasts.day.expected).toBeCloseTo(118 / 48, 9);
    // 118 to the grey tank, the rest of 150 to the black one.
    const third = answer.stops[0]!.days[3]!.levels;
    expect(third.black.expected).toBeCloseTo(150 - 118, 9);
    expect(third.grey.expected).toBe(118);
  });

  it("empties the fresh tank then, and nothing more is used", () => {
    const empty = answer.events.find((event) => event.store === "fresh");
    expect(empty?.kind).toBe("empty");
    // 2.5 l are left when the grey tank is full; the toilet takes 12 a day.
    expect(empty?.day.expected).toBeCloseTo(118 / 48 + 2.5 / 12, 9);
    const last = answer.stops[0]!.days[4]!.levels;
    expect(last.fresh.expected).toBe(0);
    expect(last.black.expected).toBeCloseTo(12 * (118 / 48 + 2.5 / 12), 9);
    expect(answer.ledger.expected.unmet).toBeCloseTo(4 * 60 - 150, 9);
  });

  it("tells the days that remain, each store by itself", () => {
    const { remaining } = answer.stops[0]!;
    expect(remaining.fresh.days.expected).toBeCloseTo(2.5, 9);
    expect(remaining.grey.days.expected).toBeCloseTo(118 / 48, 9);
    expect(remaining.black.days.expected).toBeCloseTo(97 / 12, 9);
    expect(remaining.propane.status).toBe("unknown");
    expect(remaining.generatorFuel.status).toBe("endless");
  });
});

describe("connections", () => {
  it("leaves the fresh tank alone on site water and lets the grey run at a sewer", () => {
    const answer = plan([stop("full", 3, FULL)], { use: USE });
    for (const { levels } of answer.stops[0]!.days) {
      expect(levels.fresh.expected).toBe(150);
      expect(levels.grey.expected).toBe(0);
    }
    expect(answer.ledger.expected.toSewer).toBeCloseTo(3 * 48, 9);
    expect(answer.ledger.expected.fromSite).toBeCloseTo(3 * 60, 9);
    expect(answer.lasts.day).toEqual({ low: null, expected: null, high: null });
    expect(answer.stops[0]!.grey.valve).toBe("may run");
    expect(answer.stops[0]!.black.why).toContain("Black valve shut");
  });

  it("keeps the black tank shut at a sewer and empties it by the day rule, whichever comes first", () => {
    const byDays = plan([stop("full", 4, FULL)], { use: USE });
    // 97 l, two thirds after 5.4 days: the day and a half comes first, at 1.5 and 3.
    expect(byDays.stops[0]!.black.emptied.expected).toBe(2);
    expect(byDays.stops[0]!.days[1]!.levels.black.expected).toBeCloseTo(12, 9);
    expect(byDays.stops[0]!.days[2]!.levels.black.expected).toBeCloseTo(6, 9);
    const byShare = plan([stop("full", 4, FULL)], { use: { ...USE, toilet: same(30) }, blackRule: { days: null } });
    // 60 a day against two thirds of 97: every 1.078 days.
    expect(byShare.stops[0]!.black.emptied.expected).toBe(3);
  });

  it("fills the grey tank on a site with water only", () => {
    const answer = plan([stop("wet", 3, { water: "yes", tankFill: "yes" })], { use: USE });
    expect(answer.stops[0]!.days[3]!.levels.fresh.expected).toBe(150);
    expect(answer.lasts.day.expected).toBeCloseTo(118 / 48, 9);
    expect(answer.stops[0]!.grey.valve).toBe("closed");
    expect(answer.stops[0]!.notes.map((note) => note.id)).toContain("grey-backs-up");
  });

  it("carries what is in the tanks to the next stop and empties and fills on leaving", () => {
    const stops = [stop("a", 1), { ...stop("b", 1), stations: [station("dump"), station("fill")] }, stop("c", 1)];
    const answer = plan(stops, { use: USE });
    expect(answer.stops[1]!.days[0]!.levels.fresh.expected).toBeCloseTo(90, 9);
    expect(answer.stops[1]!.days[1]!.levels.grey.expected).toBeCloseTo(96, 9);
    expect(answer.stops[1]!.after.grey.expected).toBe(0);
    expect(answer.stops[1]!.after.fresh.expected).toBe(150);
    expect(answer.ledger.expected.dumpedGrey).toBeCloseTo(96, 9);
    expect(answer.ledger.expected.filled).toBeCloseTo(120, 9);
    expect(answer.stops[0]!.nextDump).toMatchObject({ stop: "b", station: "dump-1", day: 2, sure: true });
    expect(answer.stops[2]!.nextDump).toBeNull();
    expect(answer.stops[2]!.notes.map((note) => note.id)).toContain("no-dump-ahead");
  });
});

describe("visits", () => {
  it("are needed when a tank would fill or run dry before the next chance", () => {
    const at = { ...stop("a", 2), stations: [station("dump"), station("fill")] };
    const later = { ...stop("c", 1), stations: [station("dump")] };
    const [dump, fill] = plan([at, stop("b", 2), later], { use: USE }).stops[0]!.visits;
    // Grey: 96 + 3 * 48 - 118 = 122 l too small. Fresh: 30 left, 180 wanted.
    expect(dump).toMatchObject({ kind: "dump", needed: true });
    expect(dump!.why).toContain("122 L");
    expect(fill).toMatchObject({ kind: "fill", needed: true });
    expect(fill!.why).toContain("150 L");
  });

  it("are not needed when all lasts, and the black tank gets water first when it is less than two thirds full", () => {
    const at = { ...stop("a", 1), stations: [station("dump"), station("fill")] };
    const later = { ...stop("c", 1, FULL) };
    const [dump, fill] = plan([at, later], { use: USE }).stops[0]!.visits;
    expect(dump!.needed).toBe(false);
    expect(fill!.needed).toBe(false);
    expect(dump!.steps[0]).toContain("add water before opening");
    expect(dump!.steps.findIndex((step) => step.startsWith("Black first"))).toBeLessThan(
      dump!.steps.findIndex((step) => step.startsWith("Then grey")),
    );
  });

  it("cannot be judged without a size, and the last one is needed", () => {
    const unknown = { ...coach, tanks: { ...coach.tanks, grey: null } };
    const at = { ...stop("a", 1), stations: [station("dump")] };
    const [first, , last] = plan([at, stop("b", 1, FULL), at], { use: USE, rig: unknown }).stops.map(
      (one) => one.visits,
    );
    expect(first![0]!.needed).toBeNull();
    expect(last![0]!.needed).toBe(true);
  });

  it("pass a fill tap by whose water nobody calls drinkable", () => {
    const at = { ...stop("a", 1), stations: [station("fill", { drinkable: "unknown" })] };
    const answer = plan([at, stop("b", 1)], { use: USE });
    expect(answer.stops[0]!.after.fresh.expected).toBeCloseTo(90, 9);
    expect(answer.stops[0]!.nextFill).toMatchObject({ sure: false });
    expect(answer.stops[0]!.visits[0]!.why).toContain("fit to drink is not on record");
  });
});

describe("a use that is asked for", () => {
  const read = (use: unknown) => tripSchema.shape.use.safeParse(use).success;

  it("names a row of the table, or gives rates", () => {
    expect(read({ water: "sparing" })).toBe(true);
    expect(read({ water: "plenty" })).toBe(false);
    expect(read({ water: { low: 20, expected: 40, high: 40 } })).toBe(true);
  });
});

describe("a visit", () => {
  it("carries the lane as it was solved, in metres and in words", () => {
    const at = {
      ...stop("a", 1),
      stations: [station("dump", { needed: 1.9, margin: 2.6, why: "Drain hose: 1.9 m." })],
    };
    const [visit] = plan([at], { use: USE }).stops[0]!.visits;
    expect(visit!.lane).toMatchObject({ usable: "yes", inletSide: "left", needed: 1.9, available: 4.5, margin: 2.6 });
    expect(visit!.why).toContain("Drain hose: 1.9 m.");
  });
});

describe("what is not known", () => {
  it("a tank of unknown size stays unknown, and the others are judged", () => {
    const rig = { ...coach, tanks: { fresh: null, grey: 118, black: null, propane: null } };
    const answer = plan([stop("dry", 4)], { use: USE, rig });
    const last = answer.stops[0]!.days[4]!.levels;
    expect(last.fresh).toEqual({ low: null, expected: null, high: null });
    expect(last.black).toEqual({ low: null, expected: null, high: null });
    expect(last.grey.expected).toBe(118);
    expect(answer.lasts.withoutTanks).toEqual(["fresh", "black"]);
    expect(answer.lasts.why).toContain("cannot be judged");
    expect(answer.unknowns.map((one) => one.path)).toContain("/rig/tanks/fresh");
    expect(answer.events.some((event) => event.store === "fresh")).toBe(false);
  });

  it("a doubtful tap leaves the expectation open and keeps both ends", () => {
    const answer = plan([stop("maybe", 2, { water: "unknown" })], { use: USE });
    const fresh = answer.stops[0]!.days[2]!.levels.fresh;
    expect(fresh.low).toBeCloseTo(30, 9);
    expect(fresh.expected).toBeNull();
    expect(fresh.high).toBe(150);
    expect(answer.stops[0]!.days[2]!.levels.grey.expected).toBeCloseTo(96, 9);
  });

  it("a start that nobody knows is unknown until the tank is emptied", () => {
    const answer = plan([stop("a", 1), stop("b", 1, FULL)], { use: USE, start: { grey: null } });
    expect(answer.stops[0]!.after.grey.expected).toBeNull();
    expect(answer.stops[1]!.after.grey.expected).toBe(0);
  });
});

describe("energy", () => {
  const stores = { battery: 1200, charger: 300, generatorFuel: 20 };
  const use = {
    ...USE,
    propane: same(3),
    battery: same(700),
    generatorHours: same(2),
    generatorFuel: same(1.5),
  };

  it("draws battery, fuel and gas off power and fills the battery on it", () => {
    const answer = plan([stop("dry", 2), stop("on", 1, FULL)], { use, stores });
    const levels = answer.stops[0]!.days.map((day) => day.levels);
    // 700 out and 2 h at 300 in: 100 a day.
    expect(levels[2]!.battery.expected).toBeCloseTo(1000, 9);
    expect(levels[2]!.generatorFuel.expected).toBeCloseTo(14, 9);
    expect(levels[2]!.propane.expected).toBeCloseTo(45 * 0.8 - 6, 9);
    expect(answer.stops[1]!.after.battery.expected).toBe(1200);
    expect(answer.stops[1]!.after.generatorFuel.expected).toBeCloseTo(14, 9);
    expect(answer.stops[0]!.remaining.battery.days.expected).toBeCloseTo(12, 9);
  });

  it("stops charging when the fuel is gone", () => {
    const answer = plan([stop("dry", 4)], { use, stores: { ...stores, generatorFuel: 3 } });
    const battery = answer.stops[0]!.days.map((day) => day.levels.battery.expected);
    expect(battery[1]).toBeCloseTo(1100, 9);
    expect(battery[2]).toBeCloseTo(400, 9);
    expect(battery[3]).toBe(0);
    const empty = answer.events.find((event) => event.store === "battery");
    expect(empty?.day.expected).toBeCloseTo(2 + 400 / 700, 9);
  });

  it("reckons propane from burners and their hours", () => {
    const burners = [{ name: "furnace", watts: 8800, hours: { low: 2, expected: 4, high: 9 } }];
    const answer = plan([stop("dry", 1)], { use: { ...USE, burners } });
    const { propane } = answer.stops[0]!.after;
    // 8800 W for an hour are 31.68 MJ, 1.2422 l.
    expect(45 * 0.8 - propane.expected!).toBeCloseTo(4 * 1.2422, 3);
    expect(45 * 0.8 - propane.low!).toBeCloseTo(9 * 1.2422, 3);
  });
});

describe("notes", () => {
  it("speak of frost and heat only when the forecast does", () => {
    const notes = (low: number, high: number, water: "yes" | "no") =>
      plan([{ ...stop("a", 1, { water }), temperature: { low, high } }]).stops[0]!.notes.map((note) => note.id);
    expect(notes(4, 21, "yes")).not.toContain("freeze");
    expect(notes(-1, 21, "yes")).toContain("freeze");
    expect(notes(-1, 21, "yes")).not.toContain("hard-freeze");
    expect(notes(-1, 21, "no")).toContain("freeze-unserved");
    expect(notes(-3, 21, "yes")).toContain("hard-freeze");
    expect(notes(12, 36, "no")).toContain("heat");
    expect(plan([stop("a", 1)]).stops[0]!.notes.map((note) => note.id)).toContain("no-forecast");
  });

  it("tell a cold night in the caller's degrees, towards the colder side", () => {
    const cold = { ...stop("a", 1), temperature: { low: -1.4, high: 9 } };
    expect(plan([cold]).stops[0]!.notes[0]!.text).toContain("-2 °C");
    expect(plan([cold], { units: "us" }).stops[0]!.notes[0]!.text).toContain("29 °F");
  });

  it("name the hours of the tap's backflow device for a stay on site water", () => {
    const note = plan([stop("a", 2, FULL)]).stops[0]!.notes.find((one) => one.id === "backflow");
    expect(note?.text).toContain("48 hours");
    expect(note?.source).toContain("ASSE 1011");
  });
});
