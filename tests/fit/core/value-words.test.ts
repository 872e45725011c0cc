import { expect, test } from "vitest";
import { valueWords } from "../../../src/fit/value-words.ts";

const PLACES = [
  { path: "/waterHose", service: "water" },
  { path: "/connections/1", service: "sewer" },
  { path: "/site/properties/hookups/2", service: "power" },
];

test.each([
  ["/rig/waterHose/fromRear", "the distance of the rig's water connection from the rear bumper"],
  ["/rig/connections/1/height", "the height of the rig's sewer connection above the ground"],
  ["/site/properties/hookups/2/at/height", "the height of the site's power hookup above the ground"],
  ["/site/properties/hookups/0/at/left", "the place of the site's hookup 1 sideways from the pad's middle line"],
  ["/site/properties/pad/crossfall", "the slope of the pad across it"],
  ["/groundClearance", "the ground clearance of the rig"],
])("%s is %s", (path, words) => {
  expect(valueWords(path, PLACES)).toBe(words);
});
