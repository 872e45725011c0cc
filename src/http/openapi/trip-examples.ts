/** Requests of trips and desks that the description shows and the tests send. Everything in them is invented. */
import { EXAMPLE_RIG } from "./examples.ts";

const STOPS = [
  { arrive: "2025-07-01", leave: "2025-07-03", site: { campground: "alder-flat", site: "A7" } },
  { arrive: "2025-07-03", leave: "2025-07-04", offGrid: true },
] as const;

export const EXAMPLE_TRIP_REQUEST = {
  rig: { ...EXAMPLE_RIG, tanks: { fresh: "38 gal", grey: "31 gal", black: "27 gal" } },
  stops: STOPS,
  party: { adults: 2, children: 1 },
  stock: [{ item: "sewer-hose", length: "10 ft", count: 2 }],
} as const;

export const EXAMPLE_DESK_REQUEST = {
  fleet: [
    { id: "unit-1", rig: EXAMPLE_RIG },
    { id: "unit-2", rig: { ...EXAMPLE_RIG, sewerHose: "20 ft" } },
  ],
  trips: [{ id: "booking-1", party: { adults: 2 }, stops: STOPS }],
  stock: [{ item: "water-regulator", count: 1 }],
} as const;
