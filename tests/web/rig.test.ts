/** The pure part of the rig's view: texts and wire values, short and full forms, places, links. */
import { deflateRawSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import rentalCoach from "../../data/demo/rigs/rental-coach.json" with { type: "json" };
import { parseRig } from "../../src/rig/parse.ts";
import { Engine } from "../../src/web/core/engine.ts";
import { moved, targetOnSide, targetOnTop, typed } from "../../src/web/rig/places.ts";
import { reads, textOf, wireOf } from "../../src/web/rig/quantity-text.ts";
import { decodeRig, encodeRig, MOST_CHARACTERS, sharedIn, shareHash } from "../../src/web/rig/share.ts";
import { asAwnings, asConnection, startPaths } from "../../src/web/rig/short-forms.ts";
import { pointerOf, valueAt, withValue } from "../../src/web/rig/wire.ts";

const SHORT = {
  class: "class-c",
  length: "25 ft",
  height: "11 ft",
  power: { plug: "nema-tt-30", cord: "25 ft", height: "31 in" },
  sewerHose: "10 ft",
  awning: { projection: "8 ft" },
};

const completed = (rig: unknown) => {
  const check = new Engine().checkRig(rig, "us");
  if (!check.ok) throw new Error(JSON.stringify(check.errors));
  return check.completed;
};

describe("a record by path", () => {
  it("changes nothing in place and takes emptied objects out", () => {
    const before = JSON.stringify(SHORT);
    expect(withValue(SHORT, ["power", "cord"], "50 ft")).toMatchObject({
      power: { cord: "50 ft", plug: "nema-tt-30" },
    });
    expect(withValue({ tanks: { grey: 4 } }, ["tanks", "grey"], undefined)).toEqual({});
    expect(withValue({ doors: [{ side: "left" }, { side: "right" }] }, ["doors", 0], undefined)).toEqual({
      doors: [{ side: "right" }],
    });
    expect(withValue({ doors: [{ side: "left" }] }, ["doors", 0, "side"], undefined)).toEqual({ doors: [{}] });
    expect(withValue({}, ["connections", 0, "line", "length"], "3 m")).toEqual({
      connections: [{ line: { length: "3 m" } }],
    });
    expect(JSON.stringify(SHORT)).toBe(before);
    expect(pointerOf(["connections", 2, "line"])).toBe("/connections/2/line");
    expect(valueAt(SHORT, ["constructor"])).toBeUndefined();
  });
});

describe("texts and wire values", () => {
  it("keep what was typed, unit and all, and give a bare number the unit of its field", () => {
    expect(wireOf(" 11' 2\" ", "ft", false)).toBe("11' 2\"");
    expect(wireOf("25", "ft", false)).toBe("25 ft");
    expect(wireOf("2.5", "m", false)).toBe("2.5 m");
    expect(wireOf("", "m", true)).toBeUndefined();
    expect(wireOf("7.6m", "ft", false)).toBe("7.6m");
  });

  it("read a range only where the field takes one, its first end in the unit of its second", () => {
    expect(wireOf("2 to 3 ft", "in", true)).toEqual(["2 ft", "3 ft"]);
    expect(wireOf("20 to 30", "in", true)).toEqual(["20 in", "30 in"]);
    expect(wireOf("2 to 3 ft", "in", false)).toBe("2 to 3 ft");
    expect(textOf(["2 ft", 1.5], "length")).toBe("2 ft to 1.5 m");
  });

  it("show a bare wire number in the unit that it is in", () => {
    expect(textOf(1500, "power")).toBe("1500 W");
    expect(textOf(0.02, "slope")).toBe("2 %");
    expect(textOf("25 ft", "length")).toBe("25 ft");
    expect(reads("25 f", "length")).toBe(false);
    expect(reads(["2 ft", "3 ft"], "length")).toBe(true);
  });
});

describe("short and full forms", () => {
  it("are edited where they stand", () => {
    expect(startPaths(SHORT)).toEqual({ plug: ["power", "plug"], cord: ["power", "cord"], hose: ["sewerHose"] });
    expect(startPaths(rentalCoach)).toEqual({
      plug: ["connections", 0, "plug"],
      cord: ["connections", 0, "line", "length"],
      hose: ["connections", 3, "line", "length"],
    });
  });

  it("say the same after a short form was given an entry of its own", () => {
    const power = asConnection(SHORT, "power", "left");
    expect(power).toMatchObject({
      connections: [{ service: "power", side: "left", height: "31 in", plug: "nema-tt-30", line: { length: "25 ft" } }],
    });
    const all = asAwnings(asConnection(power, "sewerHose", "right"), "right");
    const read = parseRig(all);
    expect(read.ok).toBe(true);
    const cord = (rig: unknown) =>
      completed(rig).connections.find((one) => one.service === "power")?.line?.length.value;
    expect(cord(all)).toBe(cord(SHORT));
    expect(completed(all).connections.find((one) => one.service === "sewer")?.wall).toBe("right");
  });
});

describe("places on the drawing", () => {
  const rig = completed(rentalCoach);
  const inlet = rig.connections.find((one) => one.service === "power")!;

  it("stay on their wall along it, and go over to a wall that is clearly nearer", () => {
    expect(targetOnTop(rig, inlet, { fromRear: 3, left: 0.9 })).toEqual({ side: "left", fromRear: 3 });
    expect(targetOnTop(rig, inlet, { fromRear: 3, left: -1.1 })).toEqual({ side: "right", fromRear: 3 });
    expect(targetOnTop(rig, inlet, { fromRear: -0.2, left: 0.3 })).toEqual({ side: "rear", left: 0.3 });
    expect(targetOnTop(rig, inlet, { fromRear: 7.9, left: 0.2 })).toEqual({ side: "front", left: 0.2 });
    expect(targetOnSide(rig, inlet, 2, -1)).toEqual({ side: "left", fromRear: 2, height: 0 });
  });

  it("are written in the reader's units, as set by eye, until one is typed", () => {
    const { rig: next } = moved(rentalCoach, "/connections/0", { side: "left", fromRear: 1.8288 }, "us");
    expect(valueAt(next, ["connections", 0])).toMatchObject({
      fromRear: "6 ft",
      accuracy: "6 in",
      height: "2 ft 7 in",
    });
    expect(parseRig(next).ok).toBe(true);
    const tape = typed(next, ["connections", 0, "fromRear"], "6 ft 1 in");
    expect(valueAt(tape, ["connections", 0, "accuracy"])).toBeUndefined();
    expect(valueAt(typed(next, ["connections", 0, "plug"], "nema-14-50"), ["connections", 0, "accuracy"])).toBe("6 in");
  });

  it("drop what belonged to the wall that was left", () => {
    const { rig: next } = moved(rentalCoach, "/connections/3", { side: "rear", left: -0.4 }, "metric");
    const entry = valueAt(next, ["connections", 3]);
    expect(entry).toMatchObject({ side: "rear", left: "-0.40 m" });
    expect(entry).not.toHaveProperty("fromRear");
    expect(parseRig(next).ok).toBe(true);
  });

  it("turn a short form into a connection", () => {
    const { rig: next, pointer } = moved(SHORT, "/sewerHose", { side: "left", fromRear: 2 }, "metric");
    expect(pointer).toBe("/connections/0");
    expect(next).not.toHaveProperty("sewerHose");
    expect(valueAt(next, ["connections", 0])).toMatchObject({
      service: "sewer",
      fromRear: "2.00 m",
      line: { length: "10 ft" },
    });
    expect(parseRig(next).ok).toBe(true);
  });
});

describe("a link", () => {
  it("brings back the record exactly", async () => {
    const value = (await encodeRig(rentalCoach)) ?? "";
    expect(value.length).toBeLessThan(JSON.stringify(rentalCoach).length);
    expect(sharedIn(shareHash(value))).toBe(value);
    expect(await decodeRig(value)).toEqual(rentalCoach);
    expect(sharedIn("#/rig")).toBeNull();
  });

  it("is refused when damaged, cut off, too long, or no record", async () => {
    const value = (await encodeRig(rentalCoach)) ?? "";
    const plain = (text: string) => `j${Buffer.from(text).toString("base64url")}`;
    for (const bad of [
      value.slice(0, 90),
      `x${value}`,
      `${value}!`,
      "",
      `j${"A".repeat(MOST_CHARACTERS)}`,
      plain("[1]"),
      plain("null"),
      plain("{"),
    ]) {
      await expect(decodeRig(bad)).rejects.toThrow(/link|rig/);
    }
  });

  it("is not unpacked beyond what a rig can be", async () => {
    const bomb = `z${deflateRawSync(Buffer.alloc(3_000_000, 32)).toString("base64url")}`;
    expect(bomb.length).toBeLessThan(MOST_CHARACTERS);
    await expect(decodeRig(bomb)).rejects.toThrow("more than a rig can be");
  });

  it("is not written for a record that is too long for one", async () => {
    const noise = Array.from({ length: 4000 }, (_, index) => Math.sin(index).toString(36)).join("");
    expect(await encodeRig({ name: noise })).toBeNull();
  });
});
