/** Rules between the fields of a rig record: what contradicts itself or cannot be is refused. */
import { type InputError, valueAt } from "../units/input-error.ts";
import { inUnit } from "../units/limits.ts";
import { connectionRules } from "./connection-rules.ts";
import { beyondNose, Findings, higherThanRig, longerThanRig, missingPlace, type Path, SLACK } from "./findings.ts";
import { fieldAt, listAt, sizeAt, wordAt } from "./reader.ts";
import { rigListLimits } from "./schema.ts";

const SHORT_FORMS = [
  { key: "power", service: "power" },
  { key: "waterHose", service: "water" },
  { key: "sewerHose", service: "sewer" },
  { key: "cableCord", service: "cable" },
] as const;

function shortFormsBesideFull(found: Findings): void {
  const connections = listAt(found.input, "connections");
  for (const { key, service } of SHORT_FORMS) {
    if (valueAt(found.input, [key]) === undefined) continue;
    const index = connections.findIndex((_, at) => wordAt(found.input, ["connections", at, "service"]) === service);
    if (index >= 0) {
      const message = `"${key}" stands beside connections[${index}], which is a ${service} connection too: keep one of them.`;
      found.add([key], "conflict", message, `either "${key}" or a ${service} entry in connections`);
    }
  }
  if (valueAt(found.input, ["awning"]) !== undefined && valueAt(found.input, ["awnings"]) !== undefined) {
    const message = '"awning" stands beside "awnings": keep one of them.';
    found.add(["awning"], "conflict", message, 'either "awning" or "awnings"');
  }
}

const LISTS_WITH_IDS = ["connections", "slideouts", "doors", "hotOutlets", "awnings"] as const;

function duplicateIds(found: Findings): void {
  for (const list of LISTS_WITH_IDS) {
    const seen = new Map<string, number>();
    listAt(found.input, list).forEach((_, index) => {
      const id = wordAt(found.input, [list, index, "id"]);
      if (id === null) return;
      const earlier = seen.get(id);
      if (earlier === undefined) seen.set(id, index);
      else {
        const message = `The id "${id}" is also the id of ${list}[${earlier}].`;
        found.add([list, index, "id"], "duplicate", message, "an id of its own for every entry");
      }
    });
  }
}

function slideRules(found: Findings, path: Path): void {
  const side = wordAt(found.input, [...path, "side"]);
  missingPlace(found, path, "A slide");
  if (side === "rear") {
    acrossTheRear(found, path, "slide");
  } else {
    const size = sizeAt(found.input, [...path, "length"]);
    beyondNose(found, path, fieldAt(found.input, [...path, "fromRear"]), size, "a slide");
  }
  higherThanRig(found, [...path, "top"], "a slide's upper edge");
  const bottom = fieldAt(found.input, [...path, "bottom"]);
  const top = fieldAt(found.input, [...path, "top"]);
  if (bottom && top && top.high <= bottom.low) {
    found.add(
      [...path, "top"],
      "impossible",
      "The slide's upper edge is not above its lower edge.",
      "a height above bottom",
    );
  }
}

/** A slide or awning on the rear wall has its place across the rig, not along it. */
function acrossTheRear(found: Findings, path: Path, what: string): void {
  if (valueAt(found.input, [...path, "fromRear"]) !== undefined) {
    const message = `A ${what} on the rear wall has no "fromRear": give "left", its right edge from the centreline.`;
    found.add([...path, "fromRear"], "conflict", message, "left instead of fromRear");
  }
  const width = sizeAt(found.input, ["width"]);
  const size = sizeAt(found.input, [...path, "length"]);
  if (width && size && size.high > width.high + SLACK) {
    const message = `${inUnit(size.high, size.unit)} does not fit on a rear wall ${inUnit(width.high, size.unit)} wide.`;
    found.add([...path, "length"], "impossible", message, `at most ${inUnit(width.high, size.unit, "down")}`);
  }
}

function bodyRules(found: Findings): void {
  const whole = sizeAt(found.input, ["length"]);
  const wheelbase = sizeAt(found.input, ["wheelbase"]);
  const overhang = sizeAt(found.input, ["rearOverhang"]);
  const axles = (wheelbase?.high ?? 0) + (overhang?.high ?? 0);
  if (whole && axles > whole.high + SLACK) {
    const unit = (wheelbase ?? overhang ?? whole).unit;
    const message = `Wheelbase and rear overhang come to ${inUnit(axles, unit)}, and the rig is ${inUnit(whole.high, unit)} long.`;
    found.add([wheelbase ? "wheelbase" : "rearOverhang"], "impossible", message, "together at most the length");
  }
  higherThanRig(found, ["groundClearance"], "the underside");
}

/** Every broken rule, in the order of the record. Lists beyond their limit are not walked: the schema refuses them. */
export function brokenRules(input: unknown): InputError[] {
  const found = new Findings(input);
  const each = (list: keyof typeof rigListLimits, rule: (path: Path) => void): void => {
    const entries = listAt(input, list);
    if (entries.length > rigListLimits[list]) return;
    for (const index of entries.keys()) rule([list, index]);
  };
  bodyRules(found);
  shortFormsBesideFull(found);
  duplicateIds(found);
  beyondNose(found, ["power"], fieldAt(input, ["power", "fromRear"]), null, "a connection");
  higherThanRig(found, ["power", "height"], "a connection");
  higherThanRig(found, ["awning", "height"], "an awning's rail");
  longerThanRig(found, ["awning", "length"], "An awning");
  each("connections", (path) => connectionRules(found, path));
  each("slideouts", (path) => slideRules(found, path));
  each("doors", (path) => {
    missingPlace(found, path, "A door");
    beyondNose(found, path, fieldAt(input, [...path, "fromRear"]), sizeAt(input, [...path, "width"]), "a door");
  });
  each("hotOutlets", (path) => {
    missingPlace(found, path, "A hot outlet");
    beyondNose(found, path, fieldAt(input, [...path, "fromRear"]), null, "a hot outlet");
  });
  each("awnings", (path) => {
    if (wordAt(input, [...path, "side"]) === "rear") acrossTheRear(found, path, "awning");
    else
      beyondNose(found, path, fieldAt(input, [...path, "fromRear"]), sizeAt(input, [...path, "length"]), "an awning");
    higherThanRig(found, [...path, "height"], "an awning's rail");
  });
  return found.errors;
}
