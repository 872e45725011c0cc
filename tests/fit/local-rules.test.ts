/** Named local rules in a fit: judged only where one is named, and only by what somebody measured. */
import { describe, expect, it } from "vitest";
import { localRules } from "../../src/fit/local-rules.ts";
import { sayer } from "../../src/fit/say.ts";
import type { CompletedSite } from "../../src/site/completed.ts";
import { between, type HookupSpec, site } from "./core/builders.ts";

const say = sayer("metric");
const FOOT = 0.3048;
const HOOKUPS: readonly HookupSpec[] = [
  { service: "sewer", along: 3.1, left: 2.6, height: 0.1 },
  { service: "water", along: 5.5, left: 2.4, height: 0.6 },
];
/** Nose out, rear bumper 0.4 m from the edge; the left wall stands at 1.2 m. */
const STANDING = { stance: { facing: "out", along: 0.4, left: 0, yaw: 0 }, length: 7.6, width: 2.4 } as const;

function judge(
  sitingCode: string | null,
  hookups: readonly HookupSpec[] = HOOKUPS,
  standing: typeof STANDING | null = STANDING,
) {
  return localRules(wide(site({ hookups }, { sitingCode })), standing, say);
}

/** The same site with an inlet of 4.2 in. */
function wide(made: CompletedSite): CompletedSite {
  const hookups = made.hookups.map((one) =>
    one.sewer === null ? one : { ...one, sewer: { ...one.sewer, diameter: 0.107 } },
  );
  return { ...made, hookups };
}

describe("without a named rule", () => {
  it("nothing is judged, and both checks stand", () => {
    for (const code of [null, "NEC-551.77"]) {
      expect(judge(code).map((check) => [check.id, check.status])).toEqual([
        ["drain-rule", "not applicable"],
        ["water-rule", "not applicable"],
      ]);
    }
  });
});

describe("a named rule on drains", () => {
  it("judges the rim: 0.1 m lies between 3 and 6 in of Louisiana's rule and above California's 3 in", () => {
    expect(judge("la-51-xiv-1515")[0]).toMatchObject({ status: "pass", deciding: false, family: "may-not" });
    expect(judge("ca-25-ccr-1254")[0]!.status).toBe("fail");
  });

  it("judges how far the inlet lies outside the wall at the stance: 1.4 m, where 4 ft are allowed", () => {
    const low: readonly HookupSpec[] = [{ service: "sewer", along: 3.1, left: 2.6, height: 0.05 }];
    const why = judge("ca-25-ccr-1254", low)[0]!;
    expect(1.4).toBeGreaterThan(4 * FOOT);
    expect(why.status).toBe("fail");
    const nearer: readonly HookupSpec[] = [{ service: "sewer", along: 3.1, left: 2.3, height: 0.05 }];
    expect(judge("ca-25-ccr-1254", nearer)[0]!.status).toBe("pass");
    expect(judge("ca-25-ccr-1254", nearer, null)[0]!.status).toBe("unknown");
    // Under the rig, 0.5 m from its wall: beyond 18 in.
    const under: readonly HookupSpec[] = [{ service: "sewer", along: 3.1, left: 0.7, height: 0.05 }];
    expect(judge("ca-25-ccr-1254", under)[0]!.status).toBe("fail");
  });

  it("says nothing of a site by a rule on dump stations but the diameter", () => {
    const [drain] = judge("ms-15-18-77-3-2-9");
    expect(drain!.why).not.toContain("driven through");
  });

  it("leaves a range unknown", () => {
    const made = wide(site({ hookups: HOOKUPS }, { sitingCode: "la-51-xiv-1515" }));
    const vague = made.hookups.map((one) => (one.service === "sewer" ? { ...one, height: between(0, 0.3) } : one));
    expect(localRules({ ...made, hookups: vague }, STANDING, say)[0]!.status).toBe("unknown");
  });
});

describe("a named rule on water", () => {
  it("judges the distance to the riser: 2.4 m, where Minnesota asks for 10 ft; Rhode Island groups them", () => {
    const [, minnesota] = judge("mn-4630-0600");
    expect(minnesota!.status).toBe("fail");
    expect(minnesota!.why).toContain("distance from water to sewer riser");
    const [, island] = judge("ri-32-7-8");
    expect(island!.status).toBe("not applicable");
    const apart: readonly HookupSpec[] = [HOOKUPS[0]!, { service: "water", along: 6.6, left: 2.4, height: 0.6 }];
    // Pressure and pipe are still not on record.
    expect(judge("mn-4630-0600", apart)[1]!.status).toBe("unknown");
  });
});
