/** What a hookup card says and what it must never say. Demo records and rigs are invented. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Fit } from "../../src/fit/answer.ts";
import { exposureRoseAnswer } from "../../src/fit/wind/site-exposure.ts";
import type { CompletedRig } from "../../src/rig/completed.ts";
import { cardContent } from "../../src/web/card/content.ts";
import { landmarkWords, whereToStop } from "../../src/web/card/place.ts";
import { notServedBy, servedBy } from "../../src/web/card/served.ts";
import { POWER_STEPS } from "../../src/web/card/steps.ts";
import { Engine } from "../../src/web/core/engine.ts";
import { roseAt } from "../../src/wind/rose.ts";
import { hookup, line, makeFit } from "../draw/makers.ts";
import { compiled, line as drawn, HERE } from "../wind/places.ts";

const read = (path: string): string => readFileSync(new URL(`../../data/demo/${path}`, import.meta.url), "utf8");
let rig: CompletedRig;
let trailer: CompletedRig;

beforeAll(() => {
  const engine = new Engine();
  const completed = (file: string) => {
    const check = engine.checkRig(JSON.parse(read(`rigs/${file}.json`)), "us");
    if (!check.ok) throw new Error(check.errors[0]?.message);
    return check.completed;
  };
  rig = completed("rental-coach");
  trailer = completed("long-trailer");
});

const STANCE = { facing: "out", along: 1.1, left: -0.35, yaw: 0 } as const;

/** An answer by hand in which power, water and sewer reach and nothing else is said. */
function reaching(more: Partial<Fit> = {}): Fit {
  return makeFit({
    units: "us",
    stance: STANCE,
    window: { along: { from: 0.4, to: 1.84 }, left: { from: -0.16, to: 0.33 }, why: "" },
    lines: [
      line("power", [], 5.1, 7.62, "reaches"),
      line("water", [], 4.2, 7.62, "reaches", { need: "wanted" }),
      line("sewer", [], 2.2, 2.74, "reaches", { need: "wanted" }),
    ],
    power: {
      ...makeFit().power,
      mating: "direct",
      receptacleType: "nema-tt-30",
      voltsToNeutral: 120,
      legs: 1,
      amps: 30,
      voltAmperes: 3600,
      continuousVoltAmperes: 2880,
    },
    sewer: { ...makeFit().sewer, status: "drains" },
    scene: {
      ...makeFit().scene,
      hookups: [hookup("water", 0.2, 3.1), hookup("power", 1.75, 3.4), hookup("sewer", 2.9, 2.8)],
    },
    cautions: [
      { id: "test-first", text: "Test with a tester or meter.", source: "invented" },
      { id: "lost-neutral", text: "Measure each hot to neutral.", source: "invented" },
      { id: "reversing-spotter", text: "Spotter.", source: "invented" },
      { id: "sewer-rinse-water", text: "The rinse tap is not drinking water.", source: "invented" },
    ],
    ...more,
  });
}

const idsOf = (steps: readonly { readonly id: string }[]): string[] => steps.map(({ id }) => id);
const powerOf = (steps: readonly { readonly id: string }[]): string[] =>
  idsOf(steps).filter((id) => id.startsWith("power-"));

describe("where to stop", () => {
  it("gives the window rounded inwards, from the rear edge, for the end that is nearer to it", () => {
    const words = whereToStop(reaching()).join(" ");
    expect(words).toContain("The rear bumper anywhere between 1 ft 4 in and 6 ft from the pad's rear edge.");
    expect(words).toContain(
      "1 ft 2 in to the right of the pad's middle line; at most 1 ft more to the left or 6 in more to the right",
    );
    expect(whereToStop(reaching({ stance: { ...STANCE, facing: "in" } })).join(" ")).toContain(
      "The front bumper anywhere",
    );
  });

  it("names the pedestal before the tap, and which way past it is by the way that the rig comes in", () => {
    // The pedestal stands 0.65 m nearer to the exit than the bumper: backing in, the bumper passes it.
    expect(landmarkWords(reaching())).toBe(
      "By the pedestal on the pad's left: the rear bumper about 2 ft 3 in past it.",
    );
    expect(landmarkWords(reaching({ cautions: [] }))).toContain("about 2 ft 3 in short of it");
    expect(landmarkWords(reaching({ cautions: [], stance: { ...STANCE, facing: "in" } }))).toContain(
      "front bumper about 2 ft 3 in past it",
    );
    expect(landmarkWords(reaching({ stance: { ...STANCE, along: 3.2 } }))).toContain("short of it");
    expect(landmarkWords(reaching({ stance: { ...STANCE, along: 1.76 } }))).toContain("level with it");
  });

  it("takes no landmark whose place is only described or badly known", () => {
    const region = { alongLow: 0, alongHigh: 4, leftLow: 1, leftHigh: 4 };
    const vague = [hookup("power", 1.75, -3.4, { region }), hookup("water", 0.2, -3.1, { sigma: 0.5 })];
    expect(landmarkWords(reaching({ scene: { ...makeFit().scene, hookups: vague } }))).toBeNull();
    const tap = [vague[0] as (typeof vague)[0], hookup("water", 0.2, -3.1)];
    expect(landmarkWords(reaching({ scene: { ...makeFit().scene, hookups: tap } }))).toContain(
      "By the tap on the pad's right",
    );
  });

  it("claims no window where there is none, and no room where it is shut", () => {
    expect(whereToStop(reaching({ window: null })).join(" ")).toContain("How far off still works is not known");
    const shut = { along: { from: 1.09, to: 1.11 }, left: { from: 0, to: 0 }, why: "" };
    expect(whereToStop(reaching({ window: shut })).join(" ")).toContain("no room to be off");
  });
});

describe("steps", () => {
  it("tell power in its fixed order, after levelling and slides and before water, sewer and awning", () => {
    const card = cardContent(
      reaching({ level: { ...makeFit().level, blocks: [{ wheel: "front left", height: 0.05 }] } }),
      rig,
    );
    const ids = idsOf(card.arrival);
    expect(powerOf(card.arrival)).toEqual([...POWER_STEPS]);
    expect(POWER_STEPS).toEqual(["power-off", "power-test", "power-loads", "power-plug", "power-slack", "power-on"]);
    expect(ids.indexOf("level")).toBeLessThan(ids.indexOf("power-off"));
    expect(ids.indexOf("power-on")).toBeLessThan(ids.indexOf("water"));
    expect(ids.indexOf("water")).toBeLessThan(ids.indexOf("sewer"));
    for (const step of card.arrival) expect(step.why).not.toBe("");
    expect(card.arrival.map(({ text, why, ifNot }) => `${text}${why}${ifNot}`).join()).not.toMatch(/\{|undefined/);
  });

  it("end a bad reading, a loose plug and a tingle with the host, never with a meter", () => {
    const card = cardContent(reaching(), rig);
    const step = (id: string) => card.arrival.find((one) => one.id === id)?.ifNot ?? "";
    expect(step("power-test")).toMatch(/do not connect.*host.*no meter probes/is);
    expect(step("power-on")).toMatch(/tingle.*hot plug.*host/i);
    expect(card.cautions.join(" ")).not.toMatch(/measure|with a tester or meter/i);
    expect(card.cautions.join(" ")).toContain("lost neutral");
  });

  it("of departure dump black before grey, switch the breaker off before unplugging and walk round last", () => {
    const { departure } = cardContent(reaching(), rig);
    const dump = departure.find(({ id }) => id === "dump")?.text ?? "";
    expect(dump.toLowerCase().indexOf("black")).toBeLessThan(dump.toLowerCase().indexOf("grey"));
    expect(powerOf(departure)).toEqual(["power-loads-off", "power-breaker-off", "power-stow"]);
    expect(departure.at(-1)?.id).toBe("walk");
    expect(departure.at(-1)?.text).toContain("before the engine starts");
  });

  it("are only those that this rig at this site needs", () => {
    const noSewer = reaching({ lines: [line("power", [], 5.1, 7.62, "reaches")] });
    expect(idsOf(cardContent(noSewer, rig).arrival)).not.toContain("sewer");
    expect(cardContent(noSewer, rig).dump).toContain("dump station");
    expect(idsOf(cardContent(reaching(), rig).arrival)).toContain("brake");
    expect(idsOf(cardContent(reaching(), trailer).arrival)).toContain("chock-trailer");
    expect(idsOf(cardContent(reaching(), trailer).departure)).toContain("hitch");
    expect(idsOf(cardContent(reaching({ cautions: [] }), rig).arrival)).not.toContain("spotter");
    const filled = reaching({
      lines: [line("power", [], 5, 7, "reaches"), line("fill", [], 5, 7, "reaches", { need: "wanted" })],
    });
    expect(idsOf(cardContent(filled, rig).arrival)).toContain("fill");
  });

  it("look at the fall first where nobody checked it", () => {
    const ids = idsOf(
      cardContent(reaching({ sewer: { ...makeFit().sewer, status: "fall not checked" } }), rig).arrival,
    );
    expect(ids.indexOf("sewer-look")).toBe(ids.indexOf("sewer") - 1);
  });
});

describe("services that a card joins", () => {
  const power = (more: Partial<Fit["power"]>): Fit => reaching({ power: { ...reaching().power, ...more } });
  const drop = { volts: 20, ratio: 0.1, voltsAtRigFromNominal: 100, voltsAtRigFromLowest: 94, why: "Too low." };

  it("leave out power that is refused, unknown or too low although its cord reaches", () => {
    expect(servedBy(reaching()).has("power")).toBe(true);
    for (const mating of ["refused", "unknown", "none"] as const)
      expect(servedBy(power({ mating })).has("power")).toBe(false);
    expect(servedBy(power({ drop: { ...drop, status: "stop" } })).has("power")).toBe(false);
    expect(servedBy(power({ drop: { ...drop, status: "low" } })).has("power")).toBe(true);
  });

  it("leave out a hose that would run uphill, and a line that hangs", () => {
    expect(servedBy(reaching({ sewer: { ...makeFit().sewer, status: "uphill" } })).has("sewer")).toBe(false);
    const hanging = reaching({
      lines: [line("water", [], 8.1, 7.62, "tight", { need: "wanted", why: "It would hang." })],
    });
    expect(servedBy(hanging).size).toBe(0);
    expect(notServedBy(hanging)).toEqual([{ service: "water", why: "It would hang." }]);
    expect(servedBy(reaching({ lines: [line("water", [], 7.5, 7.62, "tight")] })).has("water")).toBe(true);
  });

  it("leave out what a check of the service forbids", () => {
    const check = {
      id: "water.drinkable",
      family: "must-not",
      deciding: false,
      status: "fail",
      value: null,
      limit: null,
      margin: null,
      unit: null,
      source: "",
      why: "Not drinking water.",
    } as const;
    expect(servedBy(reaching({ checks: [check] })).has("water")).toBe(false);
    expect(servedBy(reaching({ checks: [{ ...check, status: "pass" }] })).has("water")).toBe(true);
  });
});

describe("a card that approves nothing", () => {
  const bare = (fit: Fit) => {
    const card = cardContent(fit, rig);
    expect(card.approves).toBe(false);
    expect([card.arrival, card.departure, card.stop, card.kit, card.run, card.awning]).toEqual([
      [],
      [],
      [],
      [],
      null,
      [],
    ]);
    return card;
  };

  it("is that of a site that does not fit, with what would mend it", () => {
    const fix = {
      kind: "longer line",
      title: "A drain hose of 20 ft",
      change: {},
      free: false,
      verdictAfter: "fits",
      why: "",
    } as const;
    const card = bare(reaching({ verdict: "does not fit", fixes: [fix] }));
    expect(card.banner?.words).toBe("This rig does not fit this site");
    expect(card.instead).toEqual(["A drain hose of 20 ft: then fits."]);
  });

  it("is that of an unknown site, with what to measure and no pointers into records", () => {
    const unknowns = [
      { path: "/site/pad", measure: "Measure the pad (/site/properties/pad)", decides: [], weight: null },
    ];
    const card = bare(reaching({ verdict: "unknown", unknowns }));
    expect(card.banner?.words).toBe("Not known whether this rig fits");
    expect(card.instead).toEqual(["Measure the pad."]);
  });

  it("is that of a tight site whose required cord would hang", () => {
    const fit = reaching({ verdict: "tight", lines: [line("power", [], 8.4, 7.62, "tight")] });
    expect(bare(fit).banner?.words).toContain("cannot be relied on");
  });

  it("is that of a rig that stands nowhere", () => {
    bare(reaching({ stance: null, window: null }));
  });
});

describe("the awning", () => {
  const awning = {
    id: "a",
    side: "right",
    padSide: "right",
    room: "pass",
    needed: 2.4,
    clear: null,
    why: "",
    exposure: null,
  } as const;
  const card = (more: Partial<Fit["awning"][number]>) =>
    cardContent(reaching({ awning: [{ ...awning, ...more }] }), rig);

  it("comes out last where it may, and is said to be unjudged where nobody judged the wind", () => {
    expect(card({}).arrival.at(-1)?.id).toBe("awning");
    expect(card({}).awning.join(" ")).toMatch(/wind rises.*nobody is awake.*handbook.*not judged/);
    expect(card({ exposure: "moderate" }).awning.join(" ")).toContain("moderate");
  });

  it("says from where the site lies most open and most sheltered, and behind what", () => {
    const hedge = drawn(
      "quickset",
      [
        [-90, 14],
        [120, 14],
      ],
      { kind: "shelter", what: "hedge", height: 3, name: "Quickset" },
    );
    const exposureRose = exposureRoseAnswer(roseAt(compiled(hedge), HERE));
    const open = { ...awning, exposure: "moderate" } as const;
    const said = (units: "us" | "metric") =>
      cardContent(reaching({ awning: [open], exposureRose, units }), rig).awning.join(" ");
    expect(said("metric")).toMatch(/moderate, most from \w+, least from N\w*: a hedge "Quickset" 14 m upwind\./);
    expect(said("us")).toMatch(/"Quickset" 46 ft upwind/);
    const unknown = cardContent(reaching({ awning: [{ ...awning, exposure: "unknown" }], exposureRose }), rig);
    expect(unknown.awning.join(" ")).toMatch(/Exposure to wind at this site: unknown\./);
  });

  it("stays in without room, and is locked before leaving all the same", () => {
    for (const room of ["fail", "tight", "unknown"] as const) {
      const barred = { room };
      expect(idsOf(card(barred).arrival)).not.toContain("awning");
      expect(card(barred).awning.join(" ")).toContain("stays in");
      expect(idsOf(card(barred).departure)).toContain("awning-in");
    }
  });
});

describe("kit of a card", () => {
  it("names what to bring first, and a tester when nothing aboard shows the wiring", () => {
    const without: CompletedRig = {
      ...rig,
      kit: rig.kit.filter(({ item }) => item !== "tester" && item !== "protector"),
    };
    const card = cardContent(reaching(), without);
    expect(card.kit[0]).toEqual({
      text: "Plug-in wiring tester or Plug-in surge and wiring protector",
      where: "to bring",
    });
    expect(card.arrival.find(({ id }) => id === "power-test")?.text).toContain("bring one");
    expect(cardContent(reaching(), rig).kit.every(({ where }) => where === "aboard")).toBe(true);
  });
});
