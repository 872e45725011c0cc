import { describe, expect, it } from "vitest";
import { readDirection } from "../../src/geo/compass.ts";
import { exposureLevel } from "../../src/wind/exposure.ts";
import { exposureRose, type Rose, roseAt, roseKey } from "../../src/wind/rose.ts";
import { bearingOfDegrees, compassWord, SECTOR_STEP, sectorsAround } from "../../src/wind/sector.ts";
import { compileSurroundings } from "../../src/wind/surroundings.ts";
import { gustRatio } from "../../src/wind/terrain.ts";
import { area, areas, box, CENTRE, compiled, HERE, line, type Properties, type Spot, spot, turned } from "./places.ts";

const trees = (more: Properties = {}): Properties => ({
  kind: "shelter",
  what: "trees",
  height: 10,
  porosity: 0.5,
  ...more,
});
const ground = (what: string, more: Properties = {}): Properties => ({ kind: "ground", what, ...more });
const SUMMER = { date: "2026-07-04", hemisphere: "north" } as const;

function from(rose: Rose, word: string) {
  return rose.sectors[Math.round(readDirection(word)! / SECTOR_STEP)]!;
}

describe("directions", () => {
  it("names sixteen and takes those within one step", () => {
    expect(["N", "WSW", "nnw "].map((word) => readDirection(word))).toEqual([0, 11 * SECTOR_STEP, 15 * SECTOR_STEP]);
    expect(compassWord(bearingOfDegrees(349))).toBe("N");
    expect(sectorsAround(bearingOfDegrees(10))).toEqual([0, 1]);
    expect(sectorsAround(bearingOfDegrees(355))).toEqual([15, 0]);
    expect(sectorsAround(0)).toEqual([15, 0, 1]);
  });
});

describe("barriers", () => {
  it("names the one that shelters most, never adds them up", () => {
    const far = line(
      "far",
      [
        [-900, 200],
        [900, 200],
      ],
      trees(),
    );
    const near = line(
      "near",
      [
        [-900, 80],
        [900, 80],
      ],
      trees({ name: "spruce belt" }),
    );
    const both = from(roseAt(compiled(far, near), HERE), "N");
    const alone = from(roseAt(compiled(near), HERE), "N");
    expect(both.shelter).toBe(alone.shelter);
    expect(both.by).toMatchObject({ id: "near", name: "spruce belt", kind: "trees", height: 10 });
    expect(both.by?.distance).toBeCloseTo(80, 3);
    expect(both.confidence).toBe("high");
  });

  it("shelters from its own side alone", () => {
    const rose = roseAt(
      compiled(
        line(
          "belt",
          [
            [-900, 80],
            [900, 80],
          ],
          trees(),
        ),
      ),
      HERE,
    );
    expect(from(rose, "N").shelter).toBeGreaterThan(0.2);
    for (const word of ["E", "SE", "S", "SW", "W"]) expect(from(rose, word).shelter).toBeLessThan(0.001);
    expect(from(rose, "S").by).toBeNull();
  });

  it("an opening towards the wind is no shelter although arms stand on both sides", () => {
    const horseshoe: readonly Spot[] = [
      [-40, 90],
      [-40, -30],
      [40, -30],
      [40, 90],
      [60, 90],
      [60, -50],
      [-60, -50],
      [-60, 90],
    ];
    const rose = roseAt(compiled(area("horseshoe", [horseshoe], trees())), HERE);
    expect(from(rose, "N").shelter).toBeLessThan(0.02);
    expect(from(rose, "S").shelter).toBeGreaterThan(0.2);
  });

  it("two woods of one feature shelter where they stand and not between", () => {
    const woods = areas("woods", [[box(-400, -60, 90, 130)], [box(60, 400, 90, 130)]], trees());
    const rose = roseAt(compiled(woods), HERE);
    expect(from(rose, "N").shelter).toBeLessThan(0.01);
    expect(from(rose, "NE").shelter).toBeGreaterThan(0.05);
    expect(from(rose, "NW").shelter).toBeGreaterThan(0.05);
  });

  it("a long wood beside the line is not taken at its nearest corner", () => {
    const slanting = line(
      "slanting",
      [
        [-300, 60],
        [-4, 280],
      ],
      trees(),
    );
    const short = line(
      "short",
      [
        [-300, 60],
        [-200, 134],
      ],
      trees(),
    );
    const rose = roseAt(compiled(slanting), HERE);
    expect(from(rose, "N").by === null || from(rose, "N").by!.distance > 60).toBe(true);
    expect(from(rose, "N").shelter).toBeLessThan(0.1);
    expect(from(roseAt(compiled(short), HERE), "N").shelter).toBeLessThanOrEqual(from(rose, "N").shelter);
  });

  it("a place among trees has one guessed shelter all round; in a clearing it has the edges'", () => {
    const wood = box(-200, 260, -200, 300);
    const inside = roseAt(compiled(area("wood", [wood], ground("wood"))), HERE);
    expect(inside.flags).toContain("among-trees");
    expect(inside.sectors.map(({ shelter }) => shelter)).toEqual(inside.sectors.map(() => 0.4));
    expect(inside.sectors[5]).toMatchObject({ confidence: "low", shelterSound: 0, category: "II" });
    const clearing = roseAt(compiled(area("wood", [wood, box(-60, 60, -90, 60)], ground("wood"))), HERE);
    expect(clearing.flags).not.toContain("among-trees");
    expect(from(clearing, "N").by?.distance).toBeCloseTo(60, 3);
    expect(from(clearing, "S").by?.distance).toBeCloseTo(90, 3);
    expect(from(clearing, "N").shelter).not.toBe(0.4);
  });

  it("gives nothing for a building or a crown that holds the place", () => {
    const hall = area("hall", [box(-20, 30, -25, 20)], { kind: "shelter", what: "building", height: 5 });
    expect(roseAt(compiled(hall), HERE).sectors.every(({ shelter }) => shelter === 0)).toBe(true);
    const crown = roseAt(compiled(spot("oak", [1, 1], trees({ radius: 5 }))), HERE);
    expect(crown.sectors.every(({ shelter }) => shelter === 0)).toBe(true);
    expect(crown.flags).toContain("under-crown");
  });

  it("trusts a guessed height and near trees little", () => {
    const guessed = from(
      roseAt(
        compiled(
          line(
            "belt",
            [
              [-900, 80],
              [900, 80],
            ],
            { kind: "shelter", what: "trees" },
          ),
        ),
        HERE,
      ),
      "N",
    );
    expect(guessed).toMatchObject({ confidence: "low", shelterSound: 0 });
    expect(guessed.by).toMatchObject({ height: 8, heightGiven: false });
    const near = from(
      roseAt(
        compiled(
          line(
            "belt",
            [
              [-900, 19],
              [900, 19],
            ],
            trees(),
          ),
        ),
        HERE,
      ),
      "N",
    );
    const lessNear = from(
      roseAt(
        compiled(
          line(
            "belt",
            [
              [-900, 21],
              [900, 21],
            ],
            trees(),
          ),
        ),
        HERE,
      ),
      "N",
    );
    expect(near.confidence).toBe("low");
    expect(near.shelter).toBeCloseTo(lessNear.shelter / 2, 6);
  });

  it("a deep wood shelters as if it stood half as far again", () => {
    const thin = from(roseAt(compiled(area("w", [box(-900, 900, 80, 95)], trees())), HERE), "N");
    const deep = from(roseAt(compiled(area("w", [box(-900, 900, 80, 120)], trees())), HERE), "N");
    const farther = from(roseAt(compiled(area("w", [box(-900, 900, 120, 135)], trees())), HERE), "N");
    expect(deep.shelter).toBeCloseTo(farther.shelter, 6);
    expect(deep.shelter).toBeLessThan(thin.shelter);
  });

  it("knows the season by date and hemisphere", () => {
    const belt = compiled(
      line(
        "belt",
        [
          [-900, 80],
          [900, 80],
        ],
        { kind: "shelter", what: "trees", height: 10, leaf: "deciduous" },
      ),
    );
    const share = (options: Parameters<typeof roseAt>[2]) => from(roseAt(belt, HERE, options), "N").shelter;
    const leafy = share(SUMMER);
    expect(share({ date: "2026-01-04", hemisphere: "north" })).toBeCloseTo(leafy / 2, 6);
    expect(share({ date: "2026-01-04", hemisphere: "south" })).toBe(leafy);
    expect(share({})).toBeCloseTo(leafy / 2, 6);
    expect(share({ date: "2026-07-04" })).toBeCloseTo(leafy / 2, 6);
    expect(roseAt(belt, HERE).flags).toContain("leaf-season-unknown");
    expect(roseAt(belt, HERE, SUMMER).flags).not.toContain("leaf-season-unknown");
  });

  it("has an optimistic end for belts of trees alone", () => {
    const belt = from(
      roseAt(
        compiled(
          line(
            "belt",
            [
              [-900, 100],
              [900, 100],
            ],
            trees({ porosity: 0.4 }),
          ),
        ),
        HERE,
      ),
      "N",
    );
    expect(belt.shelterHigh).toBeCloseTo(0.66, 2);
    const open = from(
      roseAt(
        compiled(
          line(
            "belt",
            [
              [-900, 100],
              [900, 100],
            ],
            trees({ porosity: 0.6 }),
          ),
        ),
        HERE,
      ),
      "N",
    );
    expect(open.shelterHigh).toBe(open.shelter);
  });

  it("reads heights with units, and leaves out what is too low or of no known height", () => {
    const wall = (more: Properties) =>
      from(
        roseAt(
          compiled(
            line(
              "wall",
              [
                [-90, 12],
                [90, 12],
              ],
              { kind: "shelter", what: "wall", ...more },
            ),
          ),
          HERE,
        ),
        "N",
      );
    expect(wall({ height: "6 ft" }).by?.height).toBeCloseTo(1.8288, 9);
    expect(wall({ height: 0.9 }).shelter).toBe(0);
    expect(wall({}).shelter).toBe(0);
    const fence = (more: Properties) =>
      from(
        roseAt(
          compiled(
            line(
              "f",
              [
                [-90, 12],
                [90, 12],
              ],
              { kind: "shelter", what: "fence", height: 2, ...more },
            ),
          ),
          HERE,
        ),
        "N",
      );
    expect(fence({}).shelter).toBe(0);
    expect(fence({ porosity: 0.5 }).shelter).toBeGreaterThan(0.1);
    const solid = line(
      "o",
      [
        [-90, 12],
        [90, 12],
      ],
      { kind: "obstacle", what: "wall", to: 2 },
    );
    expect(from(roseAt(compiled(solid), HERE), "N").shelter).toBeGreaterThan(0.3);
    const raised = line(
      "o",
      [
        [-90, 12],
        [90, 12],
      ],
      { kind: "obstacle", what: "wall", from: 1, to: 3 },
    );
    expect(from(roseAt(compiled(raised), HERE), "N").shelter).toBe(0);
  });

  it("tells a long building from a narrow one", () => {
    const building = (half: number) =>
      from(
        roseAt(compiled(area("b", [box(-half, half, 30, 40)], { kind: "shelter", what: "building", height: 4 })), HERE),
        "N",
      ).shelter;
    expect(building(8.01) / building(7.99)).toBeGreaterThan(1.19);
  });
});

describe("ground upwind", () => {
  const category = (rose: Rose, word: string) => from(rose, word).category;

  it("takes the smoother category within a kilometre, sea within two", () => {
    const lake = roseAt(compiled(area("lake", [box(-3000, 3500, 880, 4000)], ground("water"))), HERE);
    expect(category(lake, "N")).toBe("I");
    expect(category(lake, "S")).toBe("II");
    expect(category(roseAt(compiled(area("lake", [box(-3000, 3500, 1050, 4000)], ground("water"))), HERE), "N")).toBe(
      "II",
    );
    const sea = (near: number) =>
      roseAt(compiled(area("sea", [box(-3000, 3500, near, 4000)], ground("water", { water: "sea" }))), HERE);
    expect(category(sea(1700), "N")).toBe("0");
    expect(category(sea(1900), "N")).toBe("II");
    expect(from(lake, "N").ratio).toBeCloseTo(gustRatio("I", 2.5), 12);
  });

  it("ignores patches below a tenth, but adds up smooth ones", () => {
    const town = area("town", [box(-3000, 3500, -2500, 3000)], ground("built"));
    const pond = (near: number, far: number, id = "pond") => area(id, [box(-500, 600, near, far)], ground("water"));
    expect(category(roseAt(compiled(town, pond(300, 380)), HERE), "N")).toBe("III");
    expect(category(roseAt(compiled(town, pond(300, 420)), HERE), "N")).toBe("I");
    expect(category(roseAt(compiled(town, pond(300, 360), pond(500, 560, "other")), HERE), "N")).toBe("I");
    const meadow = area("meadow", [box(-500, 600, 600, 660)], ground("open"));
    expect(category(roseAt(compiled(town, pond(300, 360), meadow), HERE), "N")).toBe("II");
  });

  it("does not count an island's wood as lake, nor a lake under a wood as wood", () => {
    const island = areas("lake", [[box(-3000, 3500, -2500, 3000), box(-1500, 1600, -1400, 1700)]], ground("water"));
    expect(category(roseAt(compiled(island), HERE), "N")).toBe("II");
    const both = [
      area("wood", [box(-3000, 3500, -2500, 3000)], ground("wood")),
      area("lake", [box(-900, 950, 40, 800)], ground("water")),
    ];
    expect(category(roseAt(compiled(...both), HERE), "N")).toBe("I");
    expect(category(roseAt(compiled(...both.reverse()), HERE), "S")).toBe("III");
  });
});

describe("what is kept", () => {
  const belt = line(
    "belt",
    [
      [-900, 80],
      [900, 80],
    ],
    trees(),
  );
  const lake = area("lake", [box(-300, 200, -900, -100)], ground("water"));

  it("has a key by content: order does not matter, everything else does", () => {
    const key = compiled(belt, lake).key;
    expect(key).toMatch(/^[0-9a-f]{16}$/);
    expect(compiled(lake, belt).key).toBe(key);
    expect(compiled(lake, { ...belt, properties: { ...belt.properties, height: 10.1 } }).key).not.toBe(key);
    expect(compiled(belt).key).not.toBe(key);
    expect(compileSurroundings([belt, lake], { ...CENTRE, latitude: 40.0201 }).key).not.toBe(key);
    const site = { type: "Feature", id: "s", geometry: null, properties: { kind: "site", name: "12" } } as const;
    expect(compiled(belt, lake, site).key).toBe(key);
  });

  it("keys a rose by place, height and season", () => {
    const around = compiled(belt, lake);
    const key = roseKey(around, HERE, SUMMER);
    expect(roseAt(around, HERE, { date: "2026-08-30", hemisphere: "north" }).key).toBe(key);
    expect(roseKey(around, HERE, { ...SUMMER, height: 3 })).not.toBe(key);
    expect(roseKey(around, { east: 0.5, north: 0 }, SUMMER)).not.toBe(key);
    expect(roseKey(around, HERE)).not.toBe(key);
  });

  it("takes a place by longitude and latitude", () => {
    const around = compiled(belt, lake);
    const place = around.plane.toLonLat({ east: 35, north: -20 });
    const rose = exposureRose(around, place);
    expect(from(rose, "N").by?.distance).toBeCloseTo(100, 3);
  });

  it("leaves out what lies beyond the plane", () => {
    const antipode = { ...lake, id: "far", geometry: { type: "Point", coordinates: [74.73, -40.02] } } as const;
    const around = compiled(belt, { ...antipode, properties: trees() });
    expect(around.barriers).toHaveLength(1);
    expect(around.leftOut.map(({ id }) => id)).toEqual(["far"]);
  });

  it("works across the antimeridian", () => {
    const centre = { longitude: 179.9999, latitude: -17.5 };
    const east = {
      type: "LineString",
      coordinates: [
        [-179.999, -17.501],
        [-179.999, -17.499],
      ],
    } as const;
    const around = compileSurroundings([{ type: "Feature", id: "belt", geometry: east, properties: trees() }], centre);
    expect(from(exposureRose(around, centre), "E").by?.distance).toBeCloseTo(116.8, 0);
  });
});

describe("exposure without a forecast", () => {
  const north = line(
    "belt",
    [
      [-900, 50],
      [900, 50],
    ],
    trees({ porosity: 0 }),
  );

  it("is low behind a dense belt, high over water, and says by what", () => {
    const lake = area("lake", [box(-3000, 3500, -3000, -30)], ground("water"));
    const rose = roseAt(compiled(north, lake), HERE);
    const sheltered = exposureLevel(rose, { prevailing: 0 });
    expect(sheltered.level).toBe("low");
    expect(sheltered.why).toMatch(/prevailing wind from N: .*"belt" 5\d m upwind takes/);
    const open = exposureLevel(rose, { prevailing: Math.PI, units: "us" });
    expect(open.level).toBe("high");
    expect(open.why).toMatch(/open water/);
    const all = exposureLevel(rose);
    expect(all.ratio).toBeGreaterThan(sheltered.ratio);
    expect(all.ratio).toBeLessThan(open.ratio);
  });

  it("is not put below moderate by a guess, and is unknown where nothing is recorded", () => {
    const inside = roseAt(compiled(area("wood", [box(-2000, 2100, -2200, 2300)], ground("wood"))), HERE);
    expect(exposureLevel(inside)).toMatchObject({ level: "moderate" });
    expect(exposureLevel(inside).ratio).toBeLessThan(0.5);
    expect(exposureLevel(roseAt(compiled(), HERE)).level).toBe("unknown");
  });

  it("turns with the map", () => {
    const turn = 3 * SECTOR_STEP;
    const belt = line("belt", [turned([-900, 50], turn), turned([900, 50], turn)], trees({ porosity: 0 }));
    const a = exposureLevel(roseAt(compiled(north), HERE), { prevailing: 0 });
    const b = exposureLevel(roseAt(compiled(belt), HERE), { prevailing: turn });
    expect(b.ratio).toBeCloseTo(a.ratio, 6);
  });
});
