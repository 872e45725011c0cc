/** Rules within one entry of `connections`. */
import { valueAt } from "../units/input-error.ts";
import { inUnit } from "../units/limits.ts";
import { beyondNose, type Findings, higherThanRig, offTheWall, type Path, SLACK } from "./findings.ts";
import { readLineRating } from "./line-rating.ts";
import { fieldAt, sizeAt, wordAt } from "./reader.ts";
import { rangedBases } from "./vocabulary.ts";

/** Place, basis and line of one connection. */
export function connectionRules(found: Findings, path: Path): void {
  const at = (...more: Path): Path => [...path, ...more];
  beyondNose(found, path, fieldAt(found.input, at("fromRear")), null, "a connection");
  higherThanRig(found, at("height"), "a connection");
  offTheWall(found, path);
  const basis = wordAt(found.input, at("basis"));
  const ranged = rangedBases.some((one) => one === basis);
  const accuracy = valueAt(found.input, at("accuracy"));
  if (ranged && accuracy !== undefined) {
    const message = `The basis "${basis}" is a range without a probability and has no accuracy: leave one of them out.`;
    found.add(at("accuracy"), "conflict", message, "no accuracy, or the basis measured, mapped or gps");
  }
  if ((basis === "mapped" || basis === "gps") && accuracy === undefined) {
    found.add(at("accuracy"), "missing", `The basis "${basis}" needs an accuracy.`, "a standard deviation as a length");
  }
  for (const field of ["fromRear", "left", "height"]) {
    const value = fieldAt(found.input, at(field));
    if (ranged && value && !value.range) {
      const message = `The basis "${basis}" is a range, and this is one value: write [low, high], or say how it was measured.`;
      found.add(at(field), "range", message, "[low, high]");
    }
  }
  lineRules(found, path);
}

const LINE_FIELDS = [
  { field: "gauge", services: ["power"] },
  { field: "diameter", services: ["water", "fill", "sewer"] },
  { field: "drinkingWater", services: ["water", "fill"] },
] as const;

function lineRules(found: Findings, path: Path): void {
  const service = wordAt(found.input, [...path, "service"]);
  if (service === null) return;
  if (valueAt(found.input, [...path, "plug"]) !== undefined && service !== "power") {
    found.add(
      [...path, "plug"],
      "conflict",
      `A ${service} connection has no plug.`,
      "a plug on a power connection only",
    );
  }
  for (const { field, services } of LINE_FIELDS) {
    const known: readonly string[] = services;
    if (valueAt(found.input, [...path, "line", field]) !== undefined && !known.includes(service)) {
      const message = `"${field}" does not belong to the line of a ${service} connection.`;
      found.add([...path, "line", field], "conflict", message, `${field} on ${services.join(", ")} only`);
    }
  }
  const raw = valueAt(found.input, [...path, "line", "rating"]);
  const rating = raw === undefined ? null : readLineRating(raw);
  if (rating && "value" in rating) {
    const wanted = service === "power" ? "current" : "pressure";
    if (rating.dimension !== null && rating.dimension !== wanted) {
      const message = `The rating of a ${service} line is a ${wanted}: write ${wanted === "current" ? "30 A" : "125 psi"}.`;
      found.add([...path, "line", "rating"], "wrong-dimension", message, `a ${wanted}`);
    }
  }
  const label = sizeAt(found.input, [...path, "line", "length"]);
  const working = sizeAt(found.input, [...path, "line", "workingLength"]);
  if (label && working && working.high > label.high + SLACK) {
    const message = `A line of ${inUnit(label.high, working.unit)} cannot be counted on for ${inUnit(working.high, working.unit)}.`;
    found.add([...path, "line", "workingLength"], "impossible", message, "at most the line's length");
  }
}
