/** Broken rules of a record, and the rules about places on the rig that its parts share. */
import { type InputError, type InputFault, type PathSegment, pointer, shorten, valueAt } from "../units/input-error.ts";
import { inUnit } from "../units/limits.ts";
import { fieldAt, type ReadField, sizeAt, wordAt } from "./reader.ts";

export type Path = readonly PathSegment[];

/** Two spellings of one length may differ by the last bit; a millionth of a metre is no impossibility. */
export const SLACK = 1e-6;

/** The broken rules of one record, collected. */
export class Findings {
  readonly errors: InputError[] = [];
  readonly input: unknown;
  constructor(input: unknown) {
    this.input = input;
  }
  add(path: Path, code: InputFault, message: string, expected: string): void {
    this.errors.push({ path: pointer(path), code, message, expected, got: shorten(valueAt(this.input, path)) });
  }
}

/** The far end of something along a wall must not lie beyond the rig's foremost point. */
export function beyondNose(
  found: Findings,
  path: Path,
  start: ReadField | null,
  size: ReadField | null,
  what: string,
): void {
  const whole = sizeAt(found.input, ["length"]);
  if (!whole || !start) return;
  const end = start.high + (size?.high ?? 0);
  if (end <= whole.high + SLACK) return;
  const reach = size ? ` and ${inUnit(size.high, start.unit)} of length it ends at` : " it lies at";
  const from = size ? `From ${inUnit(start.high, start.unit)}${reach}` : `As written${reach}`;
  found.add(
    [...path, "fromRear"],
    "impossible",
    `${from} ${inUnit(end, start.unit)}, and the rig is ${inUnit(whole.high, start.unit)} long: ${what} cannot lie beyond its front.`,
    `a place within ${inUnit(whole.high, start.unit, "down")} of the rear`,
  );
}

export function higherThanRig(found: Findings, path: Path, what: string): void {
  const roof = sizeAt(found.input, ["height"]);
  const height = fieldAt(found.input, path);
  if (!roof || !height || height.high <= roof.high + SLACK) return;
  const message = `${inUnit(height.high, height.unit)} is above the rig's height of ${inUnit(roof.high, height.unit)}: ${what} cannot be there.`;
  found.add(path, "impossible", message, `at most ${inUnit(roof.high, height.unit, "down")}`);
}

export function offTheWall(found: Findings, path: Path): void {
  const left = fieldAt(found.input, [...path, "left"]);
  if (!left) return;
  const side = wordAt(found.input, [...path, "side"]);
  if ((side === "left" && left.high < 0) || (side === "right" && left.low > 0)) {
    const message = `It is on the ${side} wall, and "left" puts it on the other side of the centreline (negative is right).`;
    found.add([...path, "left"], "impossible", message, `a ${side === "left" ? "positive" : "negative"} offset`);
    return;
  }
  const width = sizeAt(found.input, ["width"]);
  const offset = Math.max(Math.abs(left.low), Math.abs(left.high));
  if (!width || offset <= width.high / 2 + SLACK) return;
  const half = inUnit(width.high / 2, left.unit, "down");
  found.add(
    [...path, "left"],
    "impossible",
    `The rig is ${half} wide from its centreline, and this lies beyond.`,
    `at most ${half}`,
  );
}

export function missingPlace(found: Findings, path: Path, what: string): void {
  const side = wordAt(found.input, [...path, "side"]);
  if ((side === "left" || side === "right") && valueAt(found.input, [...path, "fromRear"]) === undefined) {
    const message = `${what} on the ${side} wall needs "fromRear": measure from the rig's rearmost point forward.`;
    found.add([...path, "fromRear"], "missing", message, "a length or a range [low, high]");
  }
}

/** An awning without a place of its own must at least be no longer than the rig. */
export function longerThanRig(found: Findings, path: Path, what: string): void {
  const whole = sizeAt(found.input, ["length"]);
  const size = fieldAt(found.input, path);
  if (!whole || !size || size.high <= whole.high + SLACK) return;
  const message = `${what} of ${inUnit(size.high, size.unit)} is longer than the rig, ${inUnit(whole.high, size.unit)}.`;
  found.add(path, "impossible", message, `at most ${inUnit(whole.high, size.unit, "down")}`);
}
