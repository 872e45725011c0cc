/** Directions as people write them: compass words and degrees, true, clockwise from north. */
import * as z from "zod";
import { tidyText } from "../units/tidy.ts";
import { normaliseBearing, radians } from "./tangent-plane.ts";

/** North first, clockwise. */
export const COMPASS_WORDS: readonly string[] = "N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split(" ");
const FULL_TURN_DEGREES = 360;
const LETTER_OF: Readonly<Record<string, string>> = { north: "N", east: "E", south: "S", west: "W" };
const DEGREES = /^(\d{1,3}(?:\.\d+)?) ?(?:°|deg|degrees?)?$/i;

/** What to write, for messages. */
export const DIRECTION_FORM = "a compass word such as SW, or degrees from 0 to 360";

/** `SW`, `south-west`, `west southwest`; null for another text. Radians. */
function bearingOfName(text: string): number | null {
  const letters = text
    .toLowerCase()
    .replace(/north|east|south|west/g, (name) => LETTER_OF[name] ?? "")
    .replace(/[ -]/g, "")
    .toUpperCase();
  const index = COMPASS_WORDS.indexOf(letters);
  return index < 0 ? null : (index * 2 * Math.PI) / COMPASS_WORDS.length;
}

/** A direction from a compass word or from degrees, as a number or a text; radians in one turn, or null. */
export function readDirection(written: string | number): number | null {
  if (typeof written === "number") return ofDegrees(written);
  const text = tidyText(written);
  const match = DEGREES.exec(text);
  return match === null ? bearingOfName(text) : ofDegrees(Number(match[1]));
}

function ofDegrees(value: number): number | null {
  return value >= 0 && value <= FULL_TURN_DEGREES ? normaliseBearing(radians(value)) : null;
}

/** A direction on the wire: a compass word, or degrees as number or text. Gives radians. */
export function direction(description: string) {
  const message = `This must be ${DIRECTION_FORM}.`;
  return z
    .union(
      [
        z
          .number()
          .meta({ description: "Degrees, true, clockwise from north.", minimum: 0, maximum: FULL_TURN_DEGREES }),
        z.string().meta({ description: "A compass word or degrees.", examples: ["SW", "south-west", "225 deg"] }),
      ],
      { error: message },
    )
    .meta({ description, examples: ["SW", 225] })
    .transform((input, context): number => {
      const read = readDirection(input);
      if (read !== null) return read;
      context.addIssue({ code: "custom", message, params: { fault: "bad-form", expected: DIRECTION_FORM } });
      return z.NEVER;
    })
    .pipe(z.number());
}
