/** What a hookup card says and what it must never say. Demo records and rigs are invented. */
import { describe, expect, it } from "vitest";
import type { Fit } from "../../src/fit/answer.ts";
import { exposureRoseAnswer } from "../../src/fit/wind/site-exposure.ts";
import type { CompletedRig } from "../../src/rig/completed.ts";
import type { CardNote } from "../../src/trip/card/card.ts";
import { roseAt } from "../../src/wind/rose.ts";
import { hookup, line, makeFit } from "../draw/makers.ts";
import { compiled, line as drawn, HERE } from "../wind/places.ts";
import { cardOf, coach, reaching, STANCE, trailer } from "./cards.ts";

/** The only order in which power is told. */
const POWER_STEPS = ["power-off", "power-test", "power-loads", "power-plug", "power-slack", "power-on"];

const words = (notes: readonly CardNote[]): string => notes.map(({ text }) => text).join(" ");
const stopWords = (fit: Fit): string => words(cardOf(fit).stop);
const landmarkWords = (fit: Fit): string | null => cardOf(fit).stop.find(({ id }) => id === "landmark")?.text ?? null;

const idsOf = (steps: readonly { readonly id: string }[]): string[] => steps.map(({ id }) => id);
const powerOf = (steps: readonly { readonly id: string }[]): string[] =>
  idsOf(steps).filter((id) => id.startsWith("power-"));

describe("where to stop", () => {
  it("gives the window rounded inwards, from the rear edge, for the end that is nearer to it", () => {
    const said = stopWords(reaching());
    expect(said).toContain("Rear bumper anywhere between 1 ft 4 in and 6 ft from the pad's rear edge.");
    expect(said).toContain(
      "1 ft 2 in to the right of the pad's middle line. At most 1 ft more to the left or 6 in more to the right",
    );
    expect(stopWords(reaching({ stance: { ...STANCE, facing: "in" } }))).toContain("Front bumper anywhere");
  });

  it("names the pedestal before the tap, and which way past it is by the way that the rig comes in", () => {
    // The pedestal stands 0.65 m nearer to the exit than the bumper: backing in, the bumper passes it.
    expect(landmarkWords(reaching())).toBe("Pedestal on the pad's left: rear bumper about 2 ft 3 in past it.");
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
      "Tap on the pad's right",
    );
  });

  it("claims no window where there is none, and no room where it is shut", () => {
    expect(stopWords(reaching({ window: null }))).toContain("How far off still works is not known");
    const shut = { along: { from: 1.09, to: 1.11 }, left: { from: 0, to: 0 }, why: "" };
    expect(stopWords(reaching({ window: shut }))).toContain("no room to be off");
  });
});

describe("steps", () => {
  it("tell power in its fixed order, after levelling and slides and before water, sewer and awning", () => {
    const card = cardOf(reaching({ level: { ...makeFit().level, blocks: [{ wheel: "front left", height: 0.05 }] } }));
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
    const card = cardOf(reaching());
    const step = (id: string) => card.arrival.find((one) => one.id === id)?.ifNot ?? "";
    expect(step("power-test")).toMatch(/do not connect.*host.*no meter probes/is);
    expect(step("power-on")).toMatch(/tingle.*hot plug.*host/i);
    expect(words(card.cautions)).not.toMatch(/measure|with a tester or meter/i);
    expect(words(card.cautions)).toContain("lost neutral");
  });

  it("of departure dump black before grey, switch the breaker off before unplugging and walk round last", () => {
    const { departure } = cardOf(reaching());
    const dump = departure.find(({ id }) => id === "dump")?.text ?? "";
    expect(dump.toLowerCase().indexOf("black")).toBeLessThan(dump.toLowerCase().indexOf("grey"));
    expect(powerOf(departure)).toEqual(["power-loads-off", "power-breaker-off", "power-stow"]);
    expect(departure.at(-1)?.id).toBe("walk");
    expect(departure.at(-1)?.text).toContain("before the engine starts");
  });

  it("are only those that this rig at this site needs", () => {
    const noSewer = reaching({ lines: [line("power", [], 5.1, 7.62, "reaches")] });
    expect(idsOf(cardOf(noSewer).arrival)).not.toContain("sewer");
    expect(words(cardOf(noSewer).rules)).toContain("dump station");
    expect(idsOf(cardOf(reaching()).arrival)).toContain("brake");
    expect(idsOf(cardOf(reaching(), trailer).arrival)).toContain("chock-trailer");
    expect(idsOf(cardOf(reaching(), trailer).departure)).toContain("hitch");
    expect(idsOf(cardOf(reaching({ cautions: [] })).arrival)).not.toContain("spotter");
    const filled = reaching({
      lines: [line("power", [], 5, 7, "reaches"), line("fill", [], 5, 7, "reaches", { need: "wanted" })],
    });
    expect(idsOf(cardOf(filled).arrival)).toContain("fill");
  });

  it("look at the fall first where nobody checked it", () => {
    const ids = idsOf(cardOf(reaching({ sewer: { ...makeFit().sewer, status: "fall not checked" } })).arrival);
    expect(ids.indexOf("sewer-look")).toBe(ids.indexOf("sewer") - 1);
  });
});

describe("services that a card joins", () => {
  const power = (more: Partial<Fit["power"]>): Fit =>
    reaching({ verdict: "fits", power: { ...reaching().power, ...more } });
  const drop = { volts: 20, ratio: 0.1, voltsAtRigFromNominal: 100, voltsAtRigFromLowest: 94.26, why: "LEAK" };
  const joined = (fit: Fit): Set<string> =>
    new Set(cardOf(wanted(fit)).arrival.flatMap(({ service }) => (service === null ? [] : [service])));
  /** Nothing is required, so that a card with steps remains. */
  const wanted = (fit: Fit): Fit => ({ ...fit, lines: fit.lines.map((one) => ({ ...one, need: "wanted" as const })) });
  const whyNot = (fit: Fit) => cardOf(wanted(fit)).notConnected.map(({ service, text }) => `${service}: ${text}`);

  it("leave out power that is refused, unknown or too low although its cord reaches", () => {
    expect(joined(reaching())).toEqual(new Set(["power", "water", "sewer"]));
    for (const mating of ["refused", "unknown", "none"] as const) {
      expect(joined(power({ mating })).has("power")).toBe(false);
      expect(whyNot(power({ mating }))).toHaveLength(1);
    }
    expect(whyNot(power({ mating: "refused" }))[0]).toMatch(/^power: No receptacle here may be used/);
    expect(joined(power({ drop: { ...drop, status: "stop" } })).has("power")).toBe(false);
    expect(whyNot(power({ drop: { ...drop, status: "stop" } }))).toEqual([
      "power: Voltage at the rig could fall to 94.2 V: too low.",
    ]);
    expect(joined(power({ drop: { ...drop, status: "low" } })).has("power")).toBe(true);
  });

  it("leave out a hose that would run uphill or falls too little, and a line that hangs", () => {
    const sewer = (more: Partial<Fit["sewer"]>) => reaching({ sewer: { ...makeFit().sewer, ...more } });
    expect(joined(sewer({ status: "uphill" })).has("sewer")).toBe(false);
    expect(whyNot(sewer({ status: "uphill" }))).toEqual(["sewer: The hose would run uphill."]);
    expect(whyNot(sewer({ status: "poor", slope: 0.0049 }))).toEqual([
      "sewer: The hose falls only 0.4 %, 2.1 % wanted.",
    ]);
    const hanging = reaching({ lines: [line("water", [], 8.1, 7.62, "tight", { why: "LEAK" })] });
    expect(joined(hanging).size).toBe(0);
    expect(whyNot(hanging)).toEqual([
      "water: Laid on the ground it is 1 ft 7 in short; it would have to hang: do not rely on it.",
    ]);
    expect(joined(reaching({ lines: [line("water", [], 7.5, 7.62, "tight")] })).has("water")).toBe(true);
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
      why: "LEAK",
    } as const;
    expect(joined(reaching({ checks: [check] })).has("water")).toBe(false);
    expect(whyNot(reaching({ checks: [check] }))).toEqual(["water: Drinking water: not met."]);
    expect(joined(reaching({ checks: [{ ...check, status: "pass" }] })).has("water")).toBe(true);
  });
});

describe("a card that approves nothing", () => {
  const bare = (fit: Fit) => {
    const card = cardOf(fit);
    expect(card.approves).toBe(false);
    const { arrival, departure, leaveFast, stop, kit, run, rules, checks } = card;
    expect({ arrival, departure, leaveFast, stop, kit, run, rules, checks }).toEqual({
      arrival: [],
      departure: [],
      leaveFast: [],
      stop: [],
      kit: [],
      run: null,
      rules: [],
      checks: [],
    });
    expect(Object.keys(card.planLabels)).not.toContain("window");
    return card;
  };

  it("is that of a site that does not fit, with what would mend it", () => {
    const fix = {
      kind: "longer line",
      title: "LEAK",
      change: { kit: [{ item: "sewer-hose", length: 6.096, where: "depot" }] },
      free: false,
      verdictAfter: "fits",
      why: "",
    } as const;
    const card = bare(reaching({ verdict: "does not fit", fixes: [fix] }));
    expect(card.banner?.text).toBe("This rig does not fit this site");
    expect(words(card.instead)).toBe("Bring: Drain hose, 20 ft: then “Fits”.");
  });

  it("is that of an unknown site, with what to measure and no pointers into records", () => {
    const unknowns = [
      { path: "/site/properties/pad/width", measure: "LEAK", decides: [], weight: null },
      { path: "/rig/connections/0/height", measure: "LEAK", decides: [], weight: null },
      { path: "/site/properties/services/cable", measure: "LEAK", decides: [], weight: null },
    ];
    const card = bare(reaching({ verdict: "unknown", unknowns }));
    expect(card.banner?.text).toBe("Not known whether this rig fits");
    expect(card.instead.map(({ text }) => text)).toEqual([
      "Find out: at the site, the width.",
      "Find out: on the rig, the height above the ground (Power).",
      "Find out: whether the site has: Television.",
    ]);
  });

  it("is that of a tight site whose required cord would hang", () => {
    const fit = reaching({ verdict: "tight", lines: [line("power", [], 8.4, 7.62, "tight")] });
    expect(bare(fit).banner?.text).toContain("cannot be relied on");
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
    why: "LEAK",
    exposure: null,
    azimuth: null,
    wind: null,
    hours: null,
  } as const;
  const card = (more: Partial<Fit["awning"][number]>) => cardOf(reaching({ awning: [{ ...awning, ...more }] }));

  it("comes out last where it may, and is said to be unjudged where nobody judged the wind", () => {
    expect(card({}).arrival.at(-1)?.id).toBe("awning");
    expect(words(card({}).rules)).toMatch(/wind rises.*nobody is awake.*latch.*handbook.*not judged/);
    expect(words(card({ exposure: "moderate" }).rules)).toContain("moderate");
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
    const said = (units: "us" | "metric") => words(cardOf(reaching({ awning: [open], exposureRose, units })).rules);
    expect(said("metric")).toMatch(
      /moderate\. Most open to wind from \w+, most sheltered from N\w*: hedge “Quickset” 14 m upwind\./,
    );
    expect(said("us")).toMatch(/“Quickset” 46 ft upwind/);
    const unknown = cardOf(reaching({ awning: [{ ...awning, exposure: "unknown" }], exposureRose }));
    expect(words(unknown.rules)).toMatch(/Exposure to wind at this site: unknown\./);
  });

  it("stays in without room, and is locked before leaving all the same", () => {
    for (const room of ["fail", "tight", "unknown"] as const) {
      const barred = { room };
      expect(idsOf(card(barred).arrival)).not.toContain("awning");
      expect(words(card(barred).rules)).toContain("stays in");
      expect(idsOf(card(barred).departure)).toContain("awning-in");
    }
  });
});

describe("kit of a card", () => {
  it("names what to bring first, and a tester when nothing aboard shows the wiring", () => {
    const without: CompletedRig = {
      ...coach,
      kit: coach.kit.filter(({ item }) => item !== "tester" && item !== "protector"),
    };
    const card = cardOf(reaching(), without);
    expect(card.kit[0]).toEqual({
      items: ["tester", "protector"],
      text: "Plug-in wiring tester or Plug-in surge and wiring protector",
      where: "to bring",
      whereText: "to bring",
    });
    expect(card.arrival.find(({ id }) => id === "power-test")?.text).toContain("bring one");
    expect(cardOf(reaching()).kit.every(({ where }) => where === "aboard")).toBe(true);
  });
});
