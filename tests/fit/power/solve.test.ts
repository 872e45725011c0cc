import { describe, expect, it } from "vitest";
import { powerAnswer, solvePower } from "../../../src/fit/power/solve.ts";
import { appliance, cord, exactly, input, kit, offered } from "./case.ts";

const DOGBONE = kit({
  item: "adapter",
  plug: "nema-tt-30",
  receptacle: "nema-14-50",
  addsLength: 0.45,
  path: "/rig/kit/2",
});

describe("which receptacle", () => {
  it("prefers the rig's own rating", () => {
    const order = solvePower(
      input({
        plug: "nema-tt-30",
        receptacles: ["nema-5-20", "nema-14-50", "nema-tt-30"].map((type) => offered(type)),
      }),
    ).candidates.map((candidate) => [candidate.receptacle, candidate.mating, candidate.ownRating]);
    expect(order).toEqual([
      ["nema-tt-30", "direct", true],
      ["nema-14-50", "adapter with caution", true],
      ["nema-5-20", "adapter", false],
    ]);
  });

  it("prefers what is aboard to what is to bring at the same rating", () => {
    const kitItem = kit({ item: "adapter", plug: "nema-5-20", receptacle: "nema-14-50", where: "depot" });
    const solution = solvePower(
      input({
        plug: "nema-14-50",
        kit: [kitItem, DOGBONE],
        receptacles: [offered("nema-l5-30"), offered("nema-tt-30")],
      }),
    );
    expect(solution.candidates.map((each) => [each.receptacle, each.items[0]?.where])).toEqual([
      ["nema-tt-30", "aboard"],
      ["nema-l5-30", "to bring"],
    ]);
    expect(solution.best?.items[0]?.path).toBe("/rig/kit/2");
    expect(solution.best?.addedLength).toBe(0.45);
    expect(solution.best?.totalLength).toBeCloseTo(8.07, 9);
  });

  it("takes the adapter of more amperes among those aboard", () => {
    const adapters = ["nema-5-15", "nema-5-20"].map((plug) => kit({ item: "adapter", plug, receptacle: "nema-tt-30" }));
    const { best } = solvePower(input({ plug: "nema-tt-30", kit: adapters, receptacles: [offered("nema-5-20")] }));
    expect([best?.amps, best?.continuousAmps, best?.voltAmperes]).toEqual([20, 16, 2400]);
    expect(best?.cautions.map((caution) => caution.id)).not.toContain("fifteen-amp-plug");
  });

  it("bars a failed, a taken and another site's receptacle, each with its word", () => {
    const reason = (parts: Parameters<typeof offered>[1]): readonly unknown[] => {
      const { best, candidates } = solvePower(
        input({ plug: "nema-tt-30", receptacles: [offered("nema-tt-30", parts)] }),
      );
      return [best === null, candidates[0]?.reasonCode, candidates[0]?.mating];
    };
    expect(reason({ state: "failed" })).toEqual([true, "receptacle-failed", "refused"]);
    expect(reason({ state: "taken" })).toEqual([true, "receptacle-taken", "refused"]);
    expect(reason({ forSites: ["C-013"] })).toEqual([true, "other-site", "refused"]);
    expect(reason({ forSites: [] })).toEqual([true, "other-site", "refused"]);
    expect(reason({ forSites: ["C-014"] })).toEqual([false, "same-configuration", "direct"]);
  });

  it("marks an unallotted shared receptacle, and one allotted to two sites, as contested", () => {
    const contested = (parts: Parameters<typeof offered>[1]): boolean | undefined =>
      solvePower(input({ plug: "nema-tt-30", receptacles: [offered("nema-tt-30", parts)] })).best?.contested;
    expect(contested({ shared: true })).toBe(true);
    expect(contested({ shared: true, forSites: ["C-014"] })).toBe(false);
    expect(contested({ shared: true, forSites: ["C-014", "C-015"] })).toBe(true);
    expect(contested({})).toBe(false);
  });

  it("says when nobody recorded that it works, and where to look", () => {
    const { best } = solvePower(
      input({ plug: "nema-tt-30", receptacles: [offered("nema-tt-30", { state: "unknown" })] }),
    );
    expect(best?.stateKnown).toBe(false);
    expect(best?.unknowns.map((each) => each.path)).toEqual(["/site/hookups/0/receptacles/nema-tt-30/state"]);
    expect(best?.cautions.map((caution) => caution.id)).toContain("works-not-known");
  });

  it("refuses a TT-30 recorded at 240 V and accepts a 14-50 recorded so", () => {
    const at = (type: string, volts: number) =>
      solvePower(input({ plug: type, electricalSystem: null, receptacles: [offered(type, { volts })] })).candidates[0];
    expect(at("nema-tt-30", 240)).toMatchObject({ mating: "refused", reasonCode: "voltage-recorded", usable: false });
    expect(at("nema-14-50", 208)).toMatchObject({ mating: "direct", usable: true, voltsLegToLeg: 208 });
    expect(at("nema-14-50", 120)).toMatchObject({ mating: "direct", voltsLegToLeg: null });
  });

  it("knows nothing where the campground's volts and the receptacle contradict", () => {
    const { best, candidates } = solvePower(
      input({ plug: "nema-tt-30", electricalSystem: "230", receptacles: [offered("nema-tt-30")] }),
    );
    expect(best).toBeNull();
    expect(candidates[0]).toMatchObject({ mating: "unknown", reasonCode: "voltage-contradiction" });
  });

  it("refuses a breaker above its receptacle, and counts a smaller one", () => {
    const behind = (amps: number) =>
      solvePower(input({ plug: "nema-14-50", receptacles: [offered("nema-14-50", { amps, ampsGiven: true })] }))
        .candidates[0];
    expect(behind(60)).toMatchObject({ mating: "refused", reasonCode: "breaker-above-receptacle" });
    expect(behind(40)).toMatchObject({ amps: 40, voltAmperes: 9600, continuousAmps: 32, ownRating: false });
    expect(behind(40)?.weakestLink).toBe("the receptacle's breaker, 40 A");
    expect(behind(40)?.assumed.map((each) => each.path)).not.toContain("/site/hookups/0/receptacles/nema-14-50/amps");
  });

  it("is unknown with an unread plug, and asks for it where the connection stands", () => {
    const solution = solvePower(
      input({ plug: null, connectionPath: "/rig/connections/3", receptacles: [offered("nema-tt-30")] }),
    );
    expect(solution.best).toBeNull();
    expect(solution.candidates[0]?.unknowns[0]?.path).toBe("/rig/connections/3/plug");
  });

  it("warns of the dryer outlet that a TT-30 plug can be forced into, and of no other", () => {
    const ids = (plug: string, type: string) =>
      solvePower(input({ plug, receptacles: [offered(type)] })).candidates[0]?.cautions.map((caution) => caution.id);
    expect(ids("nema-tt-30", "nema-10-30")).toEqual(["near-fit"]);
    expect(ids("nema-14-50", "nema-10-30")).toEqual([]);
    expect(ids("nema-tt-30", "nema-10-50")).toEqual([]);
  });
});

describe("a 30 A rig on a 50 A breaker", () => {
  const ask = (parts: Partial<Parameters<typeof solvePower>[0]>) =>
    solvePower(input({ plug: "nema-tt-30", receptacles: [offered("nema-14-50")], ...parts })).candidates[0];

  it("gets its own 30 A on one leg, with the caution", () => {
    const found = ask({});
    expect(found).toMatchObject({ mating: "adapter with caution", usable: true, amps: 30, legs: 1, voltAmperes: 3600 });
    expect(found?.cautions.map((caution) => caution.id)).toContain("larger-breaker");
    expect(found?.why).toContain("not the cord");
  });
  it("is refused by the campground's rule and by the caller's policy, with different words", () => {
    expect(ask({ rules: { largerBreaker: false } })).toMatchObject({
      mating: "refused",
      reasonCode: "larger-breaker-rule",
    });
    expect(ask({ policy: { largerBreaker: "refuse" } })).toMatchObject({
      mating: "refused",
      reasonCode: "larger-breaker-policy",
    });
    expect(ask({ rules: { largerBreaker: true }, policy: { largerBreaker: "allow" } })?.usable).toBe(true);
  });
  it("does not use an adapter whose label is below the rig's 30 A", () => {
    const weak = kit({ item: "adapter", plug: "nema-14-50", receptacle: "nema-tt-30", rating: 25 });
    expect(ask({ kit: [weak] })?.items[0]?.where).toBe("to bring");
    expect(ask({ kit: [weak], kitPolicy: "aboard" })).toMatchObject({ usable: false, reasonCode: "kit-not-aboard" });
    expect(ask({ kit: [{ ...weak, rating: 30 }], kitPolicy: "aboard" })?.usable).toBe(true);
  });
});

describe("kit policy", () => {
  it("at the gate at night only what is aboard counts, and the answer still names the adapter", () => {
    const ask = (where: "aboard" | "depot") =>
      solvePower(
        input({
          plug: "nema-14-50",
          kit: [{ ...DOGBONE, where }],
          kitPolicy: "aboard",
          receptacles: [offered("nema-tt-30")],
        }),
      );
    expect(ask("depot").best).toBeNull();
    expect(ask("depot").candidates[0]?.items[0]?.where).toBe("depot");
    expect(ask("aboard").best?.amps).toBe(30);
  });
  it("never joins two receptacles, whatever the item is called", () => {
    const combiner = kit({ item: "two-plug adapter combiner", plug: "nema-tt-30", receptacle: "nema-14-50" });
    const { best } = solvePower(
      input({ plug: "nema-14-50", kit: [combiner], receptacles: [offered("nema-tt-30"), offered("nema-5-20")] }),
    );
    expect(best?.items[0]?.where).toBe("to bring");
    expect(best?.legs).toBe(1);
  });
});

describe("the cord", () => {
  const ask = (awg: number, type: string, electricalSystem = "120/240") =>
    solvePower(
      input({ plug: "nema-tt-30", cord: cord({ gauge: { awg } }), electricalSystem, receptacles: [offered(type)] }),
    ).candidates[0];

  it("12 AWG behind 30 A is refused, behind 20 A it serves", () => {
    expect(ask(12, "nema-tt-30")).toMatchObject({ mating: "refused", reasonCode: "cord-below-supply" });
    expect(ask(12, "nema-tt-30")?.why).toContain("25 A");
    expect(ask(12, "nema-5-20")).toMatchObject({ mating: "adapter", usable: true, amps: 15 });
    expect(ask(10, "nema-tt-30")?.usable).toBe(true);
  });
  it("a label below the supply is refused too", () => {
    const found = solvePower(
      input({ plug: "nema-tt-30", cord: cord({ rating: 20 }), receptacles: [offered("nema-tt-30")] }),
    ).candidates[0];
    expect(found?.reasonCode).toBe("cord-below-supply");
  });
  it("two legs of 120/208 V warn that 6 AWG has 45 A by column A, and do not refuse", () => {
    const ids = (system: string) =>
      solvePower(
        input({
          plug: "nema-14-50",
          cord: cord({ gauge: { awg: 6 } }),
          electricalSystem: system,
          receptacles: [offered("nema-14-50")],
        }),
      ).best;
    expect(ids("120/208")?.cautions.map((caution) => caution.id)).toContain("cord-208");
    expect(ids("120/208")).toMatchObject({ amps: 50, voltsLegToLeg: 208 });
    expect(ids("120/240")?.cautions.map((caution) => caution.id)).not.toContain("cord-208");
    expect(ids("120/240")?.voltsLegToLeg).toBe(240);
  });
  it("without a cord no length and no drop is claimed", () => {
    const { best } = solvePower(input({ plug: "nema-tt-30", cord: null, receptacles: [offered("nema-tt-30")] }));
    expect([best?.totalLength, best?.drop]).toEqual([null, null]);
    expect(best?.unknowns[0]?.path).toBe("/rig/power/line");
  });
  it("an AS/NZS lead of 1.5 mm² may be 25 m and no longer, and is never joined", () => {
    const ask15 = (metres: number) =>
      solvePower(
        input({
          plug: "as-3112-15",
          cord: cord({ metres, gauge: { squareMillimetres: 1.5 } }),
          electricalSystem: "230",
          units: "metric",
          extraLength: 3,
          kit: [kit({ item: "extension", plug: "as-3112-15", receptacle: "as-3112-15", rating: 15, length: 10 })],
          receptacles: [offered("as-3112-15")],
        }),
      ).candidates;
    expect(ask15(25).map((each) => [each.usable, each.amps, each.continuousAmps])).toEqual([[true, 15, 15]]);
    expect(ask15(26)[0]).toMatchObject({ mating: "refused", reasonCode: "lead-too-long" });
    expect(ask15(26)[0]?.why).toContain("25.00 m");
  });
});

describe("a conductor at the edge of the tables", () => {
  it("an American gauge thinner than the table is below every supply", () => {
    const ask = (awg: number) =>
      solvePower(input({ plug: "nema-5-15", cord: cord({ gauge: { awg } }), receptacles: [offered("nema-5-15")] }))
        .candidates[0];
    expect(ask(18)).toMatchObject({ mating: "refused", reasonCode: "cord-below-supply" });
    expect(ask(14)?.usable).toBe(true);
  });
  it("a metric lead thinner than the table is used with a caution", () => {
    const ids = (squareMillimetres: number) =>
      solvePower(
        input({
          plug: "iec-60309-2p-e-16",
          cord: cord({ gauge: { squareMillimetres } }),
          electricalSystem: "230",
          receptacles: [offered("iec-60309-2p-e-16")],
        }),
      ).best?.cautions.map((caution) => caution.id);
    expect(ids(1.5)).toContain("cord-thin");
    expect(ids(2.5)).not.toContain("cord-thin");
  });
  it("a lead whose limit depends on an unrecorded conductor is told, not refused", () => {
    const ask = (metres: number) =>
      solvePower(
        input({
          plug: "as-3112-15",
          cord: cord({ metres }),
          electricalSystem: "230",
          receptacles: [offered("as-3112-15")],
        }),
      ).candidates[0];
    expect(ask(24)?.cautions.map((caution) => caution.id)).not.toContain("lead-length");
    expect(ask(30)?.cautions.map((caution) => caution.id)).toContain("lead-length");
    expect(ask(66)).toMatchObject({ mating: "refused", reasonCode: "lead-too-long" });
  });
});

describe("extensions and protectors", () => {
  const extension = (parts: Partial<Parameters<typeof kit>[0]> = {}) =>
    kit({
      item: "extension",
      plug: "nema-tt-30",
      receptacle: "nema-tt-30",
      rating: 30,
      length: 15.24,
      // What a completed rig gives: an extension adds its own length.
      addsLength: parts.length ?? 15.24,
      gauge: { awg: 10 },
      ...parts,
    });
  const ask = (items: readonly ReturnType<typeof kit>[], parts: Partial<Parameters<typeof solvePower>[0]> = {}) =>
    solvePower(
      input({
        plug: "nema-tt-30",
        cord: cord({ gauge: { awg: 10 } }),
        kit: items,
        receptacles: [offered("nema-tt-30")],
        ...parts,
      }),
    ).candidates;

  it("offers the line without an extension first, then with the one aboard", () => {
    const found = ask([extension()]);
    expect(found.map((each) => [each.addedLength, each.totalLength])).toEqual([
      [0, 7.62],
      [15.24, 22.86],
    ]);
    // 75 ft of 10 AWG at 24 A: 2 x 75 x 1.24/1000 x 24.
    expect(found[1]?.drop?.volts).toBeCloseTo(4.464, 6);
    expect(found[0]?.drop?.volts).toBeCloseTo(1.488, 6);
  });
  it("does not count one of too thin a conductor, of unknown rating or of other ends", () => {
    expect(ask([extension({ gauge: { awg: 12 } })])).toHaveLength(1);
    expect(ask([extension({ gauge: null, rating: null })])).toHaveLength(1);
    expect(ask([extension({ plug: "nema-5-15", receptacle: "nema-5-15" })])).toHaveLength(1);
    expect(ask([extension({ length: null })])).toHaveLength(1);
  });
  it("counts a 12 AWG one where the supply is 15 A", () => {
    const found = ask([extension({ gauge: { awg: 12 }, rating: null })], { receptacles: [offered("nema-5-15")] });
    expect(found.map((each) => [each.mating, each.addedLength])).toEqual([
      ["adapter", 0],
      ["adapter with caution", 15.24],
    ]);
    expect(found[1]?.cautions.map((caution) => caution.id)).toContain("adapter-and-extension");
    expect(found[0]?.cautions.map((caution) => caution.id)).not.toContain("adapter-and-extension");
  });
  it("never lays two extensions or stacks two adapters", () => {
    const items = [
      extension(),
      extension({ length: 7.62 }),
      kit({ item: "adapter", plug: "nema-5-15", receptacle: "nema-tt-30" }),
    ];
    for (const candidate of ask(items, { receptacles: [offered("nema-5-20"), offered("nema-tt-30")] })) {
      expect(candidate.chain.filter((link) => link.item === "extension").length).toBeLessThanOrEqual(1);
      expect(candidate.chain.filter((link) => link.item === "adapter").length).toBeLessThanOrEqual(1);
    }
  });
  it("offers the shortest sold extension that makes up a shortfall", () => {
    const bring = (extraLength: number, kitPolicy: "any" | "aboard" = "any") =>
      ask([], { extraLength, kitPolicy }).map((each) => each.addedLength);
    expect(bring(1.2)).toEqual([0, 7.62]);
    expect(bring(7.7)).toEqual([0, 15.24]);
    expect(bring(16)).toEqual([0]);
    expect(bring(1.2, "aboard")).toEqual([0]);
  });
  it("puts the links in order from the receptacle to the rig and adds what each adds", () => {
    const items = [
      extension(),
      kit({ item: "protector", plug: "nema-tt-30", receptacle: "nema-tt-30", rating: 30, addsLength: 0.31 }),
      kit({ item: "adapter", plug: "nema-5-15", receptacle: "nema-tt-30", rating: 15, addsLength: 0.4 }),
    ];
    const found = ask(items, { receptacles: [offered("nema-5-20")] })[1];
    expect(found?.chain.map((link) => [link.item, link.from, link.to])).toEqual([
      ["adapter", "nema-5-15", "nema-tt-30"],
      ["protector", "nema-tt-30", "nema-tt-30"],
      ["extension", "nema-tt-30", "nema-tt-30"],
      ["cord", "nema-tt-30", null],
    ]);
    expect(found?.addedLength).toBeCloseTo(15.95, 9);
  });
  it("leaves out a protector rated below the supply", () => {
    const weak = kit({ item: "protector", plug: "nema-tt-30", receptacle: "nema-tt-30", rating: 15 });
    expect(ask([weak])[0]?.chain.map((link) => link.item)).toEqual(["cord"]);
    expect(ask([weak])[0]?.amps).toBe(30);
  });
});

describe("the drop", () => {
  it("stands with an assumed gauge when the thinnest is fine already", () => {
    const { best } = solvePower(input({ plug: "nema-tt-30", receptacles: [offered("nema-tt-30")] }));
    expect(best?.drop?.status).toBe("fine");
    expect(best?.drop?.why).toContain("10 AWG is assumed");
    expect(best?.assumed.map((each) => each.value)).toContain("10 AWG");
  });
  it("is unknown with its range when the unrecorded gauge decides", () => {
    const { best } = solvePower(
      input({ plug: "nema-5-15", cord: cord({ metres: 30.48 }), receptacles: [offered("nema-5-15")] }),
    );
    // 14 AWG: 2 x 100 x 3.14/1000 x 12 = 7.536 V; 4 AWG: 0.7392 V.
    expect(best?.drop?.status).toBe("unknown");
    expect(best?.drop?.range?.low).toBeCloseTo(106.464, 6);
    expect(best?.drop?.range?.high).toBeCloseTo(113.2608, 6);
    expect(best?.unknowns.map((each) => each.path)).toContain("/rig/power/line/gauge");
  });
  it("counts the longest length of a cord that is only described", () => {
    const length = { ...exactly(9), low: 7.62, high: 11 };
    const { best } = solvePower(
      input({ plug: "nema-tt-30", cord: cord({ length, gauge: { awg: 10 } }), receptacles: [offered("nema-tt-30")] }),
    );
    expect(best?.totalLength).toBe(9);
    expect(best?.drop?.volts).toBeCloseTo((2 * 11 * 24 * 1.24) / 304.8, 6);
  });
  it("halves on two balanced legs", () => {
    const { best } = solvePower(input({ plug: "nema-14-50", receptacles: [offered("nema-14-50")] }));
    expect((best?.drop?.volts ?? 0) / (best?.drop?.balancedVolts ?? 1)).toBeCloseTo(2, 12);
  });
  it("takes a metric lead hot: 25 m of 2.5 mm² at 16 A", () => {
    const { best } = solvePower(
      input({
        plug: "iec-60309-2p-e-16",
        cord: cord({ metres: 25, gauge: { squareMillimetres: 2.5 } }),
        electricalSystem: "230",
        receptacles: [offered("iec-60309-2p-e-16")],
      }),
    );
    expect(best?.drop?.volts).toBeCloseTo(6.384 / 0.833, 6);
    expect(best).toMatchObject({ amps: 16, continuousAmps: 16, voltAmperes: 3680 });
  });
});

describe("what may run", () => {
  it("names what is dead on one leg and what starts hard", () => {
    const appliances = [
      appliance("dryer", 4000, { bothLegs: true }),
      appliance("air conditioner", 1400, { starts: 2800 }),
    ];
    const { best } = solvePower(
      input({ plug: "nema-14-50", kit: [DOGBONE], appliances, receptacles: [offered("nema-tt-30")] }),
    );
    expect(best?.load?.dead).toEqual(["dryer"]);
    expect(best?.load?.canRun.map((set) => set.appliances)).toEqual([["air conditioner"]]);
    expect(best?.load?.notes.join(" ")).toContain("2,800 W");
  });
});

describe("the answer", () => {
  it("has the test of volts, polarity and ground first on every usable candidate, and none on a refusal", () => {
    const { candidates } = solvePower(
      input({
        plug: "nema-tt-30",
        receptacles: ["nema-tt-30", "nema-5-20", "nema-14-50", "nema-6-50"].map((type) => offered(type)),
      }),
    );
    expect(candidates.map((each) => each.cautions[0]?.id)).toEqual([
      "test-first",
      "test-first",
      "test-first",
      undefined,
    ]);
  });
  it("lists every receptacle once, in order, beside the chosen one", () => {
    const solution = solvePower(
      input({ plug: "nema-tt-30", extraLength: 2, receptacles: [offered("nema-6-50"), offered("nema-tt-30")] }),
    );
    const answer = powerAnswer(solution, solution.candidates[1] ?? null);
    expect(answer.alternatives.map((each) => [each.type, each.mating])).toEqual([
      ["nema-tt-30", "direct"],
      ["nema-6-50", "refused"],
    ]);
    expect(answer.chain.map((link) => [link.item, link.where])).toEqual([
      ["extension", "to bring"],
      ["cord", "rig"],
    ]);
    expect([answer.hookup, answer.amps, answer.drop?.status]).toEqual(["pedestal-7", 30, "fine"]);
  });
  it("says none where the record names no receptacle", () => {
    const answer = powerAnswer(solvePower(input({ plug: "nema-tt-30", receptacles: [] })), null);
    expect([answer.mating, answer.receptacle, answer.drop]).toEqual(["none", null, null]);
  });
});
