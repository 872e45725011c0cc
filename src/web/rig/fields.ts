/** Every field of a rig record as the form shows it: label, kind, and the unit that a bare number gets. */

import kit from "../../../data/kit.json" with { type: "json" };
import receptacles from "../../../data/receptacles.json" with { type: "json" };
import type { Dimension } from "../../units/dimension.ts";
import type { Path } from "./wire.ts";

interface Base {
  /** Within the entry or the record. */
  readonly path: Path;
  readonly label: string;
  readonly hint?: string;
  /** Shown only where it means something. */
  readonly when?: (entry: Readonly<Record<string, unknown>>) => boolean;
}
export interface Choice {
  readonly value: string;
  readonly label: string;
}
export type Field = Base &
  (
    | {
        readonly kind: "quantity";
        readonly dimension: Dimension;
        readonly units: { readonly us: string; readonly metric: string };
        readonly ranged?: boolean;
      }
    | { readonly kind: "text" | "whole" }
    | { readonly kind: "choice"; readonly choices: readonly Choice[]; readonly needed?: boolean }
    | { readonly kind: "flag"; readonly yes: string; readonly no: string }
  );

const LONG = { us: "ft", metric: "m" } as const;
const SHORT = { us: "in", metric: "cm" } as const;
const quantity = (
  path: Path,
  label: string,
  dimension: Dimension,
  units: { us: string; metric: string },
  more: Partial<Base> & { ranged?: boolean } = {},
): Field => ({ kind: "quantity", path, label, dimension, units, ...more });
const long = (path: Path, label: string, more: Partial<Base> & { ranged?: boolean } = {}) =>
  quantity(path, label, "length", LONG, more);
const short = (path: Path, label: string, more: Partial<Base> & { ranged?: boolean } = {}) =>
  quantity(path, label, "length", SHORT, more);
const text = (path: Path, label: string, more: Partial<Base> = {}): Field => ({ kind: "text", path, label, ...more });
const words = (
  path: Path,
  label: string,
  values: readonly string[],
  more: Partial<Base> & { needed?: boolean } = {},
): Field => ({
  kind: "choice",
  path,
  label,
  choices: values.map((value) => ({ value, label: value.replaceAll("-", " ") })),
  ...more,
});

const PLUGS: readonly Choice[] = receptacles.devices.map(({ id, name }) => ({ value: id, label: name }));
const plug = (path: Path, label: string, more: Partial<Base> = {}): Field => ({
  kind: "choice",
  path,
  label,
  choices: PLUGS,
  ...more,
});
const ITEMS: readonly Choice[] = Object.entries(kit.items).map(([value, { title }]) => ({ value, label: title }));

const WALLS = ["left", "right", "rear", "front"];
const OPENING = ["left", "right", "rear"];
export const SERVICES = ["power", "water", "fill", "sewer", "cable"] as const;
const on =
  (...sides: string[]) =>
  (entry: Readonly<Record<string, unknown>>) =>
    sides.includes(String(entry["side"]));
const is =
  (...services: string[]) =>
  (entry: Readonly<Record<string, unknown>>) =>
    services.includes(String(entry["service"]));
const fromRear = (label = "From the rear") => long(["fromRear"], label, { ranged: true, when: on("left", "right") });
const ROAD_LEFT = "From the middle line; negative is right.";

export const CLASSES: readonly Choice[] = [
  ["van", "Van"],
  ["class-b", "Class B: camper in a van"],
  ["class-c", "Class C: motorhome with a cab"],
  ["class-a", "Class A: motorhome, flat front"],
  ["travel-trailer", "Travel trailer"],
  ["fifth-wheel", "Fifth wheel"],
  ["truck-camper", "Truck camper"],
  ["folding-trailer", "Folding trailer"],
].map(([value = "", label = ""]) => ({ value, label }));

export const START: readonly Field[] = [
  { kind: "choice", path: ["class"], label: "Kind of rig", choices: CLASSES, needed: true },
  long(["length"], "Length", { hint: "By tape: ladder, rack, spare wheel and tongue included." }),
  long(["height"], "Height", { hint: "To the highest point on the roof." }),
];
export const POWER_PLUG: Field = plug([], "Plug on the cord");
export const POWER_CORD: Field = long([], "Power cord");
export const SEWER_HOSE: Field = long([], "Drain hose", { hint: "As its label says." });

export const BODY: readonly Field[] = [
  text(["name"], "Name"),
  long(["width"], "Width"),
  long(["modelLength"], "Length in the model's name", { hint: "Never used for clearance." }),
  long(["wheelbase"], "Wheelbase", { hint: "Trailer: coupling to the middle of its axles." }),
  long(["rearOverhang"], "Rear overhang", { hint: "Rear axle to the rearmost point." }),
  short(["groundClearance"], "Clear height beneath"),
  long(["waterHose"], "Water hose", { hint: "In short; or give the water connection its place below." }),
  long(["cableCord"], "Television cable", { hint: "In short; or give its connection a place below." }),
  quantity(["limits", "offLevel"], "Steepest ground that it may stand on", "slope", { us: "%", metric: "%" }),
];
export const TOWING: readonly Field[] = [
  text(["towing", "what"], "What is towed, or tows"),
  long(["towing", "length"], "Its length"),
  words(["towing", "coupling"], "How it couples", ["four-wheels-down", "dolly", "trailer", "ball", "fifth-wheel"]),
];
export const TANKS: readonly Field[] = (["fresh", "grey", "black", "propane"] as const).map((key) =>
  quantity(["tanks", key], `${key.charAt(0).toUpperCase()}${key.slice(1)}`, "volume", { us: "gal", metric: "L" }),
);
export const GENERATOR: readonly Field[] = [
  quantity(["generator", "watts"], "Continuous output", "power", { us: "W", metric: "W" }),
  {
    kind: "choice",
    path: ["generator", "suppliesThrough"],
    label: "Supplies through",
    choices: [
      { value: "transfer-switch", label: "a transfer switch" },
      { value: "cord-in-box", label: "the cord, plugged into its box" },
    ],
  },
];

export interface ListForm {
  readonly key: string;
  readonly title: string;
  readonly one: string;
  readonly fields: readonly Field[];
  readonly fresh: Readonly<Record<string, unknown>>;
  /** Fields that are seldom known, by pointer: folded away. */
  readonly rare: readonly string[];
  /** What an entry is called in the form. */
  readonly name: (entry: Readonly<Record<string, unknown>>) => string;
}

const said = (value: unknown): string => (typeof value === "string" ? value.replaceAll("-", " ") : "");
const named = (what: string) => (entry: Readonly<Record<string, unknown>>) =>
  [said(entry["id"]) || what, said(entry["side"])].filter(Boolean).join(", ");
const id = text(["id"], "Name");

export const LISTS: readonly ListForm[] = [
  {
    key: "connections",
    rare: [
      "/left",
      "/line/workingLength",
      "/line/gauge",
      "/line/diameter",
      "/line/rating",
      "/line/drinkingWater",
      "/line/fittings",
      "/mayRunBeneath",
      "/accuracy",
      "/basis",
      "/accuracyShared",
      "/observedAt",
      "/id",
    ],
    title: "Connections",
    one: "connection",
    fresh: { service: "water", side: "left" },
    name: (entry) => `${said(entry["service"])}, ${said(entry["side"])}`,
    fields: [
      words(["service"], "Service", SERVICES, { needed: true }),
      words(["side"], "Wall", WALLS, { needed: true }),
      fromRear(),
      short(["left"], "Across", { ranged: true, hint: ROAD_LEFT }),
      short(["height"], "Height above the ground", { ranged: true }),
      plug(["plug"], "Plug", { when: is("power") }),
      long(["line", "length"], "Its cord or hose"),
      long(["line", "workingLength"], "Length that can be used", { when: is("sewer") }),
      text(["line", "gauge"], "Conductor", { when: is("power"), hint: "10 AWG, 2.5 mm2" }),
      short(["line", "diameter"], "Inside diameter", { when: is("water", "fill", "sewer") }),
      text(["line", "rating"], "Rating", {
        when: is("power", "water", "fill"),
        hint: "30 A of a cord, 125 psi of a hose",
      }),
      {
        kind: "flag",
        path: ["line", "drinkingWater"],
        label: "Made for drinking water",
        yes: "yes",
        no: "no",
        when: is("water", "fill"),
      },
      short(["line", "fittings"], "Run that fittings take", { when: is("sewer") }),
      { kind: "flag", path: ["mayRunBeneath"], label: "May lie under the rig", yes: "yes", no: "no" },
      short(["accuracy"], "Good to", { hint: "Standard deviation of the place." }),
      words(["basis"], "How the place was come by", ["measured", "mapped", "gps", "described", "code", "assumed"]),
      short(["accuracyShared"], "Error common to the whole survey"),
      text(["observedAt"], "When", { hint: "2026-05-17" }),
      id,
    ],
  },
  {
    key: "slideouts",
    rare: ["/bottom", "/top", "/id"],
    title: "Slides",
    one: "slide",
    fresh: { side: "left", length: "", depth: "" },
    name: named("slide"),
    fields: [
      words(["side"], "Wall", OPENING, { needed: true }),
      fromRear("Rear edge, from the rear"),
      long(["left"], "Right edge, from the middle line", { ranged: true, when: on("rear") }),
      long(["length"], "Length along the wall"),
      long(["depth"], "How far it comes out"),
      long(["bottom"], "Lower edge", { ranged: true }),
      long(["top"], "Upper edge", { ranged: true }),
      { kind: "flag", path: ["required"], label: "Must be out to live in", yes: "yes", no: "no, it may stay closed" },
      id,
    ],
  },
  {
    key: "doors",
    rare: ["/id"],
    title: "Doors",
    one: "door",
    fresh: { side: "right" },
    name: named("door"),
    fields: [
      words(["side"], "Wall", WALLS, { needed: true }),
      fromRear("Rear edge, from the rear"),
      short(["width"], "Width"),
      id,
    ],
  },
  {
    key: "hotOutlets",
    rare: ["/id"],
    title: "Hot outlets",
    one: "hot outlet",
    fresh: { what: "furnace", side: "right" },
    name: (entry) => `${said(entry["what"])}, ${said(entry["side"])}`,
    fields: [
      words(["what"], "What", ["furnace", "water-heater", "generator-exhaust", "refrigerator"], { needed: true }),
      words(["side"], "Wall", WALLS, { needed: true }),
      fromRear(),
      id,
    ],
  },
  {
    key: "awnings",
    rare: ["/pitch", "/windClass", "/id"],
    title: "Awnings",
    one: "awning",
    fresh: { side: "right", projection: "" },
    name: named("awning"),
    fields: [
      words(["side"], "Wall", OPENING, { needed: true }),
      fromRear("Rear end, from the rear"),
      long(["left"], "Right end, from the middle line", { ranged: true, when: on("rear") }),
      long(["length"], "Length along the wall"),
      long(["projection"], "How far it reaches out"),
      long(["height"], "Height of its rail", { ranged: true }),
      quantity(["pitch"], "Fall of the fabric", "angle", { us: "deg", metric: "deg" }),
      { kind: "whole", path: ["windClass"], label: "Wind class", hint: "EN 13561, 0 to 6, when its maker states one." },
      id,
    ],
  },
  {
    key: "appliances",
    rare: ["/bothLegs"],
    title: "Appliances",
    one: "appliance",
    fresh: { name: "", watts: "" },
    name: (entry) => said(entry["name"]) || "appliance",
    fields: [
      text(["name"], "Name"),
      quantity(["watts"], "Running", "power", { us: "W", metric: "W" }),
      quantity(["starts"], "Starting", "power", { us: "W", metric: "W" }),
      words(["fuel"], "Runs on", ["electric", "gas", "either"]),
      { kind: "flag", path: ["bothLegs"], label: "Needs both legs (240 V)", yes: "yes", no: "no" },
    ],
  },
  {
    key: "kit",
    rare: ["/addsLength", "/gauge"],
    title: "Kit",
    one: "thing",
    fresh: { item: "adapter", where: "aboard" },
    name: (entry) => ITEMS.find(({ value }) => value === entry["item"])?.label ?? said(entry["item"]),
    fields: [
      { kind: "choice", path: ["item"], label: "What", choices: ITEMS, needed: true },
      words(["where"], "Where", ["aboard", "depot"]),
      plug(["plug"], "Plug, to the site", { when: (entry) => ELECTRIC.includes(String(entry["item"])) }),
      plug(["receptacle"], "Receptacle, to the rig", { when: (entry) => ELECTRIC.includes(String(entry["item"])) }),
      quantity(
        ["rating"],
        "Rating",
        "current",
        { us: "A", metric: "A" },
        { when: (entry) => ELECTRIC.includes(String(entry["item"])) },
      ),
      long(["length"], "Length"),
      short(["addsLength"], "Adds to the line"),
      text(["gauge"], "Conductor", {
        when: (entry) => ELECTRIC.includes(String(entry["item"])),
        hint: "10 AWG, 2.5 mm2",
      }),
    ],
  },
];
const ELECTRIC = ["adapter", "extension", "protector"];
