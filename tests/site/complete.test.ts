import { describe, expect, test } from "vitest";
import { padFrame } from "../../src/geo/pad-frame.ts";
import { signedArea } from "../../src/geo/polygon.ts";
import { degrees, radians } from "../../src/geo/tangent-plane.ts";
import { compileAround, completeSite } from "../../src/site/complete.ts";
import type { CompletedSite } from "../../src/site/completed.ts";
import type { CampgroundFeature, WireGeometry } from "../../src/site/feature.ts";
import { campground } from "../../src/site/schema.ts";

const ORIGIN = { longitude: -105.3, latitude: 40.2 };
/** An invented back-in pad, 15.2 m by 4.3 m, whose exit looks to the south-south-east. */
const HEADING = 160;
const LENGTH = 15.2;
const WIDTH = 4.3;
const frame = padFrame(ORIGIN, radians(HEADING));

function lonLat(along: number, left: number): [number, number] {
  const { longitude, latitude } = frame.toLonLat({ along, left });
  return [longitude, latitude];
}

function outline(length = LENGTH, width = WIDTH): WireGeometry {
  const half = width / 2;
  const ring = [lonLat(0, -half), lonLat(length, -half), lonLat(length, half), lonLat(0, half), lonLat(0, -half)];
  return { type: "Polygon", coordinates: [ring] };
}

function feature(
  properties: Record<string, unknown>,
  geometry: WireGeometry | null = null,
  id = "A7",
): CampgroundFeature {
  return { type: "Feature", id, geometry, properties: { kind: "site", layout: "back-in", ...properties } };
}

const TAPED = { heading: HEADING, pad: { length: LENGTH, width: WIDTH, accuracy: 0.02 } };
const park = (more: object = {}) => campground.parse({ id: "invented", drivesOn: "right", ...more });
const power = (site: CompletedSite) => site.hookups.find(({ service }) => service === "power");
const texts = (site: CompletedSite, code: string) =>
  site.warnings.filter((warning) => warning.code === code).map(({ text }) => text);

describe("the pad frame", () => {
  test("an outline gives length, width, heading and origin; the exit is the end nearer to the road", () => {
    const road: CampgroundFeature = {
      type: "Feature",
      geometry: { type: "LineString", coordinates: [lonLat(20, -30), lonLat(20, 30)] },
      properties: { kind: "road", width: "18 ft" },
    };
    const site = completeSite(feature({}, outline()), park(), [road]);
    expect(degrees(site.pad.heading?.value as number)).toBeCloseTo(HEADING, 2);
    expect(site.pad.length?.value).toBeCloseTo(LENGTH, 3);
    expect(site.pad.width?.value).toBeCloseTo(WIDTH, 3);
    expect(site.pad.length?.basis).toBe("mapped");
    expect(site.pad.length?.sigma).toBeCloseTo(Math.SQRT2, 9);
    const origin = frame.toPad(site.pad.origin as { longitude: number; latitude: number });
    expect(Math.hypot(origin.along, origin.left)).toBeLessThan(0.001);
    expect(site.assumed.some(({ value }) => value.includes("nearer to a road"))).toBe(true);
    // The same road behind the other end turns the pad round.
    const behind = {
      ...road,
      geometry: { type: "LineString" as const, coordinates: [lonLat(-5, -30), lonLat(-5, 30)] },
    };
    const turned = completeSite(feature({}, outline()), park(), [behind]);
    expect(degrees(turned.pad.heading?.value as number)).toBeCloseTo(HEADING + 180, 2);
  });

  test("entry tells the exit of a back-in pad and the rear edge of a pull-through", () => {
    const entry = { position: lonLat(22, 3) };
    const back = completeSite(feature({ entry }, outline()), park());
    expect(degrees(back.pad.heading?.value as number)).toBeCloseTo(HEADING, 2);
    const through = completeSite(feature({ entry, layout: "pull-through" }, outline()), park());
    expect(degrees(through.pad.heading?.value as number)).toBeCloseTo(HEADING + 180, 2);
    const bearing = completeSite(feature({ entry: { bearing: 150 }, layout: "pull-through" }, outline()), park());
    expect(degrees(bearing.pad.heading?.value as number)).toBeCloseTo(HEADING + 180, 2);
  });

  test("without heading, entry and road no direction is claimed", () => {
    const site = completeSite(feature({}, outline()), park());
    expect(site.pad.heading).toBeNull();
    expect(site.pad.origin).toBeNull();
    expect(texts(site, "ignored")[0]).toContain("heading");
  });

  test("a stated size wins; beyond three sigma it is asked about", () => {
    const close = completeSite(feature({ heading: HEADING, pad: { length: "52 ft" } }, outline()), park());
    expect(close.pad.length?.value).toBeCloseTo(15.8496, 6);
    expect(texts(close, "contradiction")).toEqual([]);
    const far = completeSite(feature({ heading: HEADING, pad: { length: "80 ft" } }, outline()), park());
    expect(far.pad.length?.value).toBeCloseTo(24.384, 6);
    expect(texts(far, "contradiction")[0]).toContain("length");
    const turned = completeSite(feature({ heading: HEADING + 40, headingAccuracy: 1 }, outline()), park());
    expect(texts(turned, "contradiction")[0]).toContain("40 degrees");
    expect(degrees(turned.pad.heading?.value as number)).toBeCloseTo(200, 6);
  });

  test("a point is the centre", () => {
    const centre = { type: "Point" as const, coordinates: lonLat(LENGTH / 2, 0) };
    const site = completeSite(feature({ heading: HEADING, pad: { length: LENGTH, width: WIDTH } }, centre), park());
    const origin = frame.toPad(site.pad.origin as { longitude: number; latitude: number });
    expect(Math.hypot(origin.along, origin.left)).toBeLessThan(0.001);
    expect(site.pad.origin?.sigma).toBe(5);
    const known = { heading: HEADING, pad: { length: LENGTH, width: WIDTH, place: { basis: "gps", accuracy: 3.3 } } };
    expect(completeSite(feature(known, centre), park()).pad.origin?.sigma).toBe(3.3);
  });

  test("a pad cut at the antimeridian measures the same as elsewhere", () => {
    const base = { longitude: 179.99995, latitude: -16.7 };
    const over = padFrame(base, radians(75));
    const at = (along: number, left: number): [number, number] => {
      const { longitude, latitude } = over.toLonLat({ along, left });
      return [longitude, latitude];
    };
    const half = WIDTH / 2;
    const corners = [at(0, -half), at(LENGTH, -half), at(LENGTH, half), at(0, half)];
    const east = corners.filter(([longitude]) => longitude > 0);
    const west = corners.filter(([longitude]) => longitude < 0);
    expect([east.length, west.length]).toEqual([2, 2]);
    // Where the long sides meet 180 degrees east.
    const cut = [half, -half].map((left) => {
      let [low, high] = [0, LENGTH];
      for (let step = 0; step < 60; step += 1) {
        const middle = (low + high) / 2;
        if (at(middle, left)[0] > 0) low = middle;
        else high = middle;
      }
      return at(low, left)[1];
    }) as [number, number];
    const [a, b, c, d] = corners as [number, number][];
    const geometry = {
      type: "MultiPolygon",
      coordinates: [[[a, [180, cut[1]], [180, cut[0]], d, a]], [[b, c, [-180, cut[0]], [-180, cut[1]], b]]],
    } as unknown as WireGeometry;
    const site = completeSite(feature({ heading: 75 }, geometry), park());
    expect(site.pad.length?.value).toBeCloseTo(LENGTH, 3);
    expect(site.pad.width?.value).toBeCloseTo(WIDTH, 3);
  });

  test("an unusual size is kept and asked about", () => {
    const site = completeSite(feature({ heading: 10, pad: { length: 50, width: 14 } }), park());
    expect(site.pad.length?.value).toBe(50);
    expect(texts(site, "implausible")[0]).toContain("length of 50 m");
  });
});

describe("hookups", () => {
  const at = (more: object) => feature({ ...TAPED, hookups: [{ service: "power", ...more }] });

  test("a place in the pad frame without a basis is measured to 0.05 m, and that is listed", () => {
    const site = completeSite(at({ at: { along: "6 ft", left: "9 ft", height: "38 in" } }), park());
    expect(power(site)?.along).toMatchObject({ value: 1.8288, sigma: 0.05, basis: "measured" });
    expect(power(site)?.left?.value).toBeCloseTo(2.7432, 9);
    expect(power(site)?.height?.value).toBeCloseTo(0.9652, 9);
    expect(power(site)?.along?.path).toBe("/properties/hookups/0/at/along");
    expect(site.assumed.find(({ path }) => path === "/properties/hookups/0/at/along")?.value).toContain("0.05 m");
  });

  test("a stated accuracy of 0 is exact and nothing is assumed of it", () => {
    const site = completeSite(at({ accuracy: 0, at: { along: 2, left: 3, height: 1 } }), park());
    expect(power(site)?.along?.sigma).toBe(0);
    expect(site.assumed.filter(({ path }) => path.startsWith("/properties/hookups"))).toEqual([]);
  });

  test("a position comes into the pad frame with the error of hookup, pad and heading", () => {
    const geometry = outline();
    const site = completeSite(
      feature(
        { ...TAPED, hookups: [{ service: "water", at: { position: lonLat(3.25, -2.75), height: 0.6 } }] },
        geometry,
      ),
      park(),
    );
    const water = site.hookups[0];
    expect(water?.along?.value).toBeCloseTo(3.25, 3);
    expect(water?.left?.value).toBeCloseTo(-2.75, 3);
    expect(water?.along?.basis).toBe("mapped");
    expect(water?.along?.sigma).toBe(1);
    const turned = Math.hypot(3.25, 2.75) * radians(2);
    expect(water?.along?.sigmaShared).toBeCloseTo(Math.hypot(1, turned), 3);
    expect(water?.left?.survey).toBe(water?.along?.survey);
  });

  test("what pad and hookup share of one survey cancels", () => {
    const survey = { basis: "gps", accuracy: 0.02, accuracyShared: 1.5, survey: "s1" };
    const pad = { length: LENGTH, width: WIDTH, place: survey };
    const hookup = (name: string) => ({ service: "water", ...survey, survey: name, at: { position: lonLat(3, 2) } });
    const make = (name: string) =>
      completeSite(feature({ heading: HEADING, headingAccuracy: 0, pad, hookups: [hookup(name)] }, outline()), park());
    expect(make("s1").hookups[0]?.along?.sigmaShared).toBeCloseTo(0.02, 6);
    expect(make("s2").hookups[0]?.along?.sigmaShared).toBeCloseTo(Math.hypot(1.5, 1.5, 0.02), 6);
  });

  test("lengths are measured on the surface: a slope stretches what comes from the map", () => {
    const pad = { length: LENGTH, width: WIDTH, grade: 0.05 };
    const site = completeSite(
      feature({ heading: HEADING, pad, hookups: [{ service: "water", at: { position: lonLat(12, 2) } }] }, outline()),
      park(),
    );
    expect(site.hookups[0]?.along?.value).toBeCloseTo(12 * Math.hypot(1, 0.05), 3);
    expect(site.hookups[0]?.left?.value).toBeCloseTo(2, 3);
  });

  test("a position without a frame places nothing and says so", () => {
    const site = completeSite(feature({ hookups: [{ service: "water", at: { position: lonLat(3, 2) } }] }), park());
    expect(site.hookups[0]?.along).toBeNull();
    expect(texts(site, "ignored").some((text) => text.includes("position"))).toBe(true);
  });

  test("age widens a place only when a date is given to count to", () => {
    const old = at({ accuracy: 0.03, observedAt: "2016-05-04", at: { along: 2, left: 3 } });
    expect(power(completeSite(old, park()))?.along?.sigma).toBe(0.03);
    const aged = completeSite(old, park(), [], { asOf: "2026-05-04" });
    expect(power(aged)?.along?.sigma).toBeCloseTo(Math.hypot(0.03, 0.2), 4);
    expect(aged.assumed.some(({ value }) => value.includes("age"))).toBe(true);
  });

  test("words give a region by the side on which people drive, never a point", () => {
    const words = at({ place: { side: "driver", third: "rear" } });
    const right = power(completeSite(words, park()));
    expect(right?.left).toMatchObject({ low: WIDTH / 2, high: WIDTH / 2 + 3, sigma: 0, basis: "described" });
    expect(right?.along?.low).toBe(0);
    expect(right?.along?.high).toBeCloseTo(LENGTH / 3, 9);
    const left = power(completeSite(words, park({ drivesOn: "left" })));
    expect(left?.left?.high).toBeCloseTo(-WIDTH / 2, 9);
    const noseIn = feature({ ...TAPED, facings: ["in"], hookups: [{ service: "power", place: { side: "driver" } }] });
    expect(power(completeSite(noseIn, park()))?.left?.high).toBeCloseTo(-WIDTH / 2, 9);
    const unknown = power(completeSite(words, null));
    expect(unknown?.left?.low).toBeCloseTo(-WIDTH / 2 - 3, 9);
    expect(unknown?.left?.high).toBeCloseTo(WIDTH / 2 + 3, 9);
  });

  test("a hookup 70 m away is left out with a question", () => {
    const site = completeSite(at({ at: { along: 3, left: 73 } }), park());
    expect(site.hookups).toEqual([]);
    expect(texts(site, "implausible")[0]).toContain("left out");
  });

  test("a receptacle without a breaker has its own rating, and says that it was not given", () => {
    const site = completeSite(
      at({
        at: { along: 2, left: 3 },
        receptacles: [{ type: "nema-tt-30" }, { type: "nema-14-50", amps: "40 A" }, { type: "odd" }],
      }),
      park(),
    );
    expect(power(site)?.receptacles.map(({ amps, ampsGiven }) => [amps, ampsGiven])).toEqual([
      [30, false],
      [40, true],
      [null, false],
    ]);
  });

  test("a pedestal that a neighbour names too is shared", () => {
    const own = at({ pedestal: "P3", at: { along: 2, left: 3 } });
    const neighbour = feature({ hookups: [{ service: "power", pedestal: "P3" }] }, null, "A8");
    expect(power(completeSite(own, park(), [neighbour]))?.shared).toBe(true);
    expect(power(completeSite(own, park(), [own]))?.shared).toBe(false);
  });

  test("a hookup says that its service is there; what nobody says is unknown", () => {
    const site = completeSite(
      feature({ ...TAPED, services: { sewer: "no" }, hookups: [{ service: "power" }] }),
      park(),
    );
    expect(site.services).toEqual({ power: "yes", water: "unknown", fill: "unknown", sewer: "no", cable: "unknown" });
  });
});

describe("tape lists", () => {
  test("hookups and the pad come from the tapes", () => {
    const d = (a: [number, number], b: [number, number]) => Math.hypot(a[0] - b[0], a[1] - b[1]);
    const rearLeft: [number, number] = [0, WIDTH / 2];
    const rearRight: [number, number] = [0, -WIDTH / 2];
    const exitLeft: [number, number] = [LENGTH, WIDTH / 2];
    const pedestal: [number, number] = [2.2, 3.4];
    const measurements = [
      { from: "rear-left", to: "rear-right", distance: WIDTH },
      { from: "rear-left", to: "exit-left", distance: LENGTH },
      { from: "power", to: "rear-left", distance: d(pedestal, rearLeft) },
      { from: "power", to: "exit-left", distance: d(pedestal, exitLeft) },
      { from: "power", to: "rear-right", distance: d(pedestal, rearRight) },
    ];
    const site = completeSite(feature({ measurements, hookups: [{ service: "power" }] }), park());
    expect(site.pad.length?.value).toBeCloseTo(LENGTH, 6);
    expect(power(site)?.along?.value).toBeCloseTo(2.2, 6);
    expect(power(site)?.left?.value).toBeCloseTo(3.4, 6);
    expect(power(site)?.along?.basis).toBe("measured");
    expect(power(site)?.along?.sigma).toBeGreaterThan(0.005);
    const wrong = measurements.map((one, index) => (index === 4 ? { ...one, distance: one.distance + 0.6 } : one));
    const doubted = completeSite(feature({ measurements: wrong, hookups: [{ service: "power" }] }), park());
    // One spare tape shows that something is wrong, not which tape: all that could be it are named.
    expect(texts(doubted, "contradiction").some((text) => text.includes('"power" to "rear-right"'))).toBe(true);
    expect(
      texts(completeSite(feature({ measurements, hookups: [{ service: "power" }] }), park()), "contradiction"),
    ).toEqual([]);
  });
});

describe("siting codes", () => {
  const bare = (more: object = {}) => feature({ ...TAPED, services: { power: "yes", sewer: "yes" }, ...more });

  test("NEC 551.77 puts an unmeasured pedestal 5 to 7 ft left of the stand, up to 15 ft from its rear", () => {
    const site = completeSite(bare(), park({ sitingCode: "NEC-551.77" }));
    expect(power(site)?.left?.basis).toBe("code");
    expect(power(site)?.left?.low).toBeCloseTo(WIDTH / 2 + 1.524, 9);
    expect(power(site)?.left?.high).toBeCloseTo(WIDTH / 2 + 2.1336, 9);
    expect(power(site)?.along?.low).toBe(0);
    expect(power(site)?.along?.high).toBeCloseTo(4.572, 9);
    expect(power(site)?.height).toMatchObject({ low: 0.6096, high: 1.9812, basis: "code" });
    expect(site.assumed.some(({ source }) => source.includes("551.77(A)"))).toBe(true);
    // No rule places the sewer inlet.
    expect(site.hookups.some(({ service }) => service === "sewer")).toBe(false);
  });

  test("seen from a rig that stands nose in, left and rear are the other way round", () => {
    const site = completeSite(bare({ facings: ["in"] }), park({ sitingCode: "NEC-551.77" }));
    expect(power(site)?.left?.high).toBeCloseTo(-WIDTH / 2 - 1.524, 9);
    expect(power(site)?.along?.high).toBeCloseTo(LENGTH, 9);
    expect(power(site)?.along?.low).toBeCloseTo(LENGTH - 4.572, 9);
  });

  test("pull-through: from 16 ft to the middle", () => {
    const site = completeSite(bare({ layout: "pull-through" }), park({ sitingCode: "nec-551.77" }));
    expect(power(site)?.along?.low).toBeCloseTo(4.8768, 9);
    expect(power(site)?.along?.high).toBeCloseTo(LENGTH / 2, 9);
  });

  test("IEC 60364-7-708: within 20 m, 0.5 m to 1.5 m high", () => {
    const site = completeSite(bare(), park({ sitingCode: "IEC-60364-7-708", drivesOn: "left" }));
    expect(power(site)?.along?.low).toBe(-20);
    expect(power(site)?.along?.high).toBeCloseTo(LENGTH + 20, 9);
    expect(power(site)?.left?.low).toBeCloseTo(-WIDTH / 2 - 20, 9);
    expect(power(site)?.height?.high).toBe(1.5);
  });

  test("no code, no place", () => {
    expect(completeSite(bare(), park()).hookups).toEqual([]);
    const hookup = completeSite(
      feature({ ...TAPED, hookups: [{ service: "sewer" }] }),
      park({ sitingCode: "NEC-551.77" }),
    );
    expect(hookup.hookups[0]?.along).toBeNull();
  });
});

describe("obstacles", () => {
  const around = (properties: Record<string, unknown>, geometry: WireGeometry, id = "x"): CampgroundFeature => ({
    type: "Feature",
    id,
    geometry,
    properties,
  });
  const site = (others: CampgroundFeature[], more: object = {}) =>
    completeSite(feature({ ...TAPED, ...more }, outline()), park(), others);

  test("own obstacles: convex, counter-clockwise, and an unknown top has no end", () => {
    const l = [
      [8, 3],
      [11, 3],
      [11, 4],
      [9, 4],
      [9, 6],
      [8, 6],
    ].map(([along, left]) => ({ along, left }));
    const own = site([], {
      obstacles: [
        { what: "wall", outline: l.reverse(), to: "6 ft" },
        { what: "branch", at: { along: 4, left: 1 }, radius: 1, from: 3.1 },
        { what: "fire-ring", at: { along: 5, left: -5 }, radius: 0.5 },
        {
          what: "walkway",
          outline: [
            { along: 0, left: -4 },
            { along: 9, left: -4 },
            { along: 9, left: -3 },
          ],
        },
      ],
    }).obstacles;
    expect(own.every(({ outline: ring }) => signedArea(ring) > 0)).toBe(true);
    const wall = own.filter(({ what }) => what === "wall");
    expect(wall).toHaveLength(2);
    expect(wall.reduce((sum, { outline: ring }) => sum + signedArea(ring), 0)).toBeCloseTo(5, 9);
    expect(wall[0]).toMatchObject({ to: 1.8288, heightGiven: true, bars: "both" });
    expect(own.find(({ what }) => what === "branch")).toMatchObject({
      from: 3.1,
      to: Infinity,
      heightGiven: false,
      bars: "rig",
    });
    expect(own.find(({ what }) => what === "fire-ring")?.bars).toBe("both");
    expect(own.find(({ what }) => what === "walkway")?.bars).toBe("line");
  });

  test("a mapped tree comes to its place; one 60 m off does not", () => {
    const tree = (along: number, id: string) =>
      around(
        { kind: "obstacle", what: "tree", radius: "1 ft", to: 9 },
        { type: "Point", coordinates: lonLat(along, 5) },
        id,
      );
    const { obstacles } = site([tree(7, "near"), tree(-60, "far")]);
    expect(obstacles.map(({ id }) => id)).toEqual(["near"]);
    const along = obstacles[0]?.outline.map((point) => point.along) ?? [];
    expect(Math.max(...along)).toBeCloseTo(7.3048, 1);
    expect((Math.max(...along) + Math.min(...along)) / 2).toBeCloseTo(7, 3);
    expect(obstacles[0]).toMatchObject({ bars: "both", sigma: 1, path: "/features/0" });
  });

  test("roads and other pads bar lines only; a neighbour's post bars the rig", () => {
    const road = around(
      { kind: "road", width: 5 },
      { type: "LineString", coordinates: [lonLat(18, -40), lonLat(18, 40)] },
      "r",
    );
    const next = padFrame(frame.toLonLat({ along: 0, left: 9 }), radians(HEADING));
    const corner = (along: number, left: number) => {
      const { longitude, latitude } = next.toLonLat({ along, left });
      return [longitude, latitude];
    };
    const neighbour = feature(
      {
        heading: HEADING,
        pad: { origin: corner(0, 0), length: 14, width: 4 },
        hookups: [{ service: "power", at: { along: 2, left: 3 } }],
      },
      { type: "Polygon", coordinates: [[corner(0, -2), corner(14, -2), corner(14, 2), corner(0, 2), corner(0, -2)]] },
      "A8",
    );
    const { obstacles } = site([road, neighbour]);
    const bars = Object.fromEntries(obstacles.map(({ what, bars: kind }) => [what, kind]));
    expect(bars).toEqual({ road: "line", site: "line", pedestal: "rig" });
    const post = obstacles.find(({ what }) => what === "pedestal");
    expect(post?.outline[0]?.along).toBeCloseTo(1.85, 2);
    expect(post?.outline[0]?.left).toBeCloseTo(11.85, 2);
    expect(post).toMatchObject({ to: 1.2, heightGiven: false });
  });

  test("a barrier on the map that covers an own hookup is left out and asked about", () => {
    const path = around(
      { kind: "obstacle", what: "walkway", width: 2 },
      { type: "LineString", coordinates: [lonLat(2, 2.6), lonLat(9, 2.6)] },
    );
    const hookups = [{ service: "power", at: { along: 4, left: 3 } }];
    const done = site([path], { hookups });
    expect(done.obstacles).toEqual([]);
    expect(texts(done, "contradiction")[0]).toContain("covers a hookup");
    expect(site([path]).obstacles).toHaveLength(1);
  });

  test("walls, hedges and buildings are solid, trees of a shelter are not", () => {
    const line: WireGeometry = { type: "LineString", coordinates: [lonLat(0, 8), lonLat(12, 8)] };
    const hedge = around({ kind: "shelter", what: "hedge", height: "5 ft", width: 1 }, line, "h");
    const trees = around({ kind: "shelter", what: "trees", height: 12 }, line, "t");
    const { obstacles } = site([hedge, trees]);
    expect(obstacles.map(({ id, to }) => [id, to])).toEqual([["h", 1.524]]);
  });

  test("the clear height is that of the nearest road or of the record, whichever is lower", () => {
    const road = around(
      { kind: "road", clearHeight: "11 ft 6 in" },
      { type: "LineString", coordinates: [lonLat(19, -40), lonLat(19, 40)] },
    );
    expect(site([road]).access.clearHeight).toBeCloseTo(3.5052, 9);
    expect(site([road], { access: { clearHeight: 3.2 } }).access.clearHeight).toBe(3.2);
    expect(site([]).access.clearHeight).toBeNull();
  });

  test("a second vehicle's outline bars both, and nothing is there without a frame", () => {
    const vehicle = [
      { along: 16, left: -1 },
      { along: 21, left: -1 },
      { along: 21, left: 1 },
      { along: 16, left: 1 },
    ];
    const own = site([], { extraVehicle: { outline: vehicle } });
    expect(own.extraVehicle).toBe("outline");
    expect(own.obstacles[0]).toMatchObject({ what: "second-vehicle", bars: "both" });
  });
});

describe("many sites", () => {
  test("features compiled once give the same as the list", () => {
    const tree: CampgroundFeature = {
      type: "Feature",
      id: "oak",
      geometry: { type: "Point", coordinates: lonLat(6, 6) },
      properties: { kind: "obstacle", what: "tree", radius: 0.4 },
    };
    const own = feature(TAPED, outline());
    const list = [own, tree];
    const compiled = compileAround(list);
    const first = completeSite(own, park(), compiled);
    expect(first).toEqual(completeSite(own, park(), list));
    expect(completeSite(own, park(), compiled)).toEqual(first);
    expect(first.obstacles[0]).toMatchObject({ id: "oak", path: "/features/1" });
  });
});

describe("facings, stop and limits", () => {
  test("a back-in pad without a word allows both, unstated; a pull-through faces out", () => {
    const facings = (more: object) => {
      const done = completeSite(feature({ ...TAPED, ...more }), park());
      return [done.facings, done.facingsStated];
    };
    expect(facings({})).toEqual([["out", "in"], false]);
    expect(facings({ facings: ["in"] })).toEqual([["in"], true]);
    expect(facings({ rules: { noseIn: "no" } })).toEqual([["out"], true]);
    expect(facings({ layout: "pull-through" })).toEqual([["out"], true]);
  });

  test("a stop without a height is a range, without a place no stop", () => {
    const done = completeSite(feature({ ...TAPED, stop: { kind: "kerb", along: "2 ft", clearBehind: 1.1 } }), park());
    expect(done.stop?.along.value).toBeCloseTo(0.6096, 9);
    expect(done.stop?.height).toMatchObject({ low: 0.1, high: 0.2, basis: "assumed" });
    expect(done.stop?.clearBehind?.value).toBe(1.1);
    expect(completeSite(feature({ ...TAPED, stop: { height: 0.1 } }), park()).stop).toBeNull();
  });

  test("a limit is a rule: the number without an error", () => {
    const done = completeSite(feature({ ...TAPED, limits: { length: "35 ft", height: 4 } }), park());
    expect(done.limits.length).toMatchObject({ sigma: 0, path: "/properties/limits/length" });
    expect(done.limits.length?.value).toBeCloseTo(10.668, 9);
    expect(done.limits.width).toBeNull();
  });

  test("the caller's base stands before every path", () => {
    const done = completeSite(
      feature({ ...TAPED, hookups: [{ service: "power", at: { along: 1, left: 3 } }] }),
      park(),
      [],
      { base: "/site" },
    );
    expect(power(done)?.path).toBe("/site/properties/hookups/0");
    expect(done.assumed.every(({ path }) => path.startsWith("/site/"))).toBe(true);
  });
});
