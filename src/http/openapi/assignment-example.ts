/** The example of an assignment; its answer in the description is computed by the engine. */
import { EXAMPLE_COLLECTION, EXAMPLE_FIT_REQUEST } from "./examples.ts";

export const EXAMPLE_ASSIGNMENT_REQUEST = {
  campground: EXAMPLE_COLLECTION,
  firstNight: "2027-06-04",
  stays: [
    { id: "early", arrival: "2027-06-04", departure: "2027-06-06", rig: EXAMPLE_FIT_REQUEST.rig, tight: true },
    { id: "late", arrival: "2027-06-05", departure: "2027-06-07", rig: EXAMPLE_FIT_REQUEST.rig, tight: true },
  ],
  options: { effort: "quick", seed: 1 },
} as const;
