/**
 * Three invented days of wind at the invented campground, in the form in which a request gives a forecast by hand.
 * Speeds are metres per second at 10 m over open country, directions are true degrees that the wind comes from.
 */

const HOURS = 24;
/** The campground's time in summer. */
const OFFSET = "-06:00";

interface Moment {
  /** Mean over ten minutes. */
  readonly mean: number;
  /** Highest gust over the mean. */
  readonly gustFactor: number;
  readonly from: number;
  readonly hazards?: readonly string[];
}

interface Day {
  readonly id: string;
  readonly name: string;
  /** Local date. */
  readonly date: string;
  /** The wind of a local hour. */
  readonly at: (hour: number) => Moment;
}

/** A swell from 0 to 1 and back within so many hours about its middle. */
function swell(hour: number, middle: number, half: number): number {
  const off = Math.abs(hour - middle) / half;
  return off >= 1 ? 0 : (1 + Math.cos(Math.PI * off)) / 2;
}

/** A light air that goes round with the sun. */
function calm(hour: number): Moment {
  return { mean: 0.8 + 1.1 * swell(hour, 15, 8), gustFactor: 1.7, from: 70 + 9 * hour };
}

/** The valley's wind from the west: strong in the afternoon, gone by nightfall. */
function breeze(hour: number): Moment {
  return { mean: 1.6 + 5.9 * swell(hour, 16, 7), gustFactor: 1.55, from: 262 + 3 * Math.sin(hour) };
}

const FRONT_PASSES = 16;

/** South-westerlies that grow, a front with thunder at four in the afternoon, and gusts from the north-west behind it. */
function front(hour: number): Moment {
  if (hour < FRONT_PASSES) return { mean: 2.2 + 4.6 * (hour / FRONT_PASSES) ** 2, gustFactor: 1.55, from: 205 + hour };
  const since = hour - FRONT_PASSES;
  const moment = { mean: 2.4 + 9.2 * Math.exp(-since / 4), gustFactor: 1.7, from: 305 + since };
  return since < 2 ? { ...moment, hazards: ["thunderstorm"] } : moment;
}

export const WIND_DAYS: readonly Day[] = [
  { id: "calm", name: "Invented calm day", date: "2026-07-10", at: calm },
  { id: "afternoon-breeze", name: "Invented afternoon breeze", date: "2026-07-11", at: breeze },
  { id: "front", name: "Invented front passage", date: "2026-07-12", at: front },
];

const tenths = (value: number): number => Number(value.toFixed(1));

function stamp(day: Day, hour: number): string {
  return `${day.date}T${String(hour).padStart(2, "0")}:00:00${OFFSET}`;
}

/** The `when` of a request: a forecast handed in, the one day that it is for, and the moment it is replayed from. */
export function windDay(day: Day) {
  const hours = Array.from({ length: HOURS }, (_, hour) => {
    const { mean, gustFactor, from, hazards } = day.at(hour);
    return {
      start: stamp(day, hour),
      mean: tenths(mean),
      gust: tenths(mean * gustFactor),
      from: Math.round(from),
      ...(hazards === undefined ? {} : { hazards }),
    };
  });
  const source = `${day.name} (made up for trying things out)`;
  const attribution = `${day.name}: made up for trying things out, this weather was never forecast anywhere.`;
  return { forecast: { source, attribution, issuedAt: stamp(day, 0), hours }, from: day.date, to: day.date, asOf: stamp(day, 0) };
}
