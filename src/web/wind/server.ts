/** What only the server can do: it has a forecast, where one is set up. */
import type { AwningHourAnswer, AwningWindAnswer, WindAnswer } from "../../fit/wind/answer.ts";
import { RADIANS_PER_DEGREE } from "../../units/factors.ts";
import type { WindAwning } from "../core/protocol.ts";
import type { Units } from "../state/store.ts";

/** True when the server is within reach and has a forecast feed. */
export async function hasForecasts(): Promise<boolean> {
  try {
    const response = await fetch("./v1/limits", { headers: { Accept: "application/json" } });
    if (!response.ok) return false;
    const { forecastFeeds } = (await response.json()) as { readonly forecastFeeds?: readonly string[] };
    return (forecastFeeds?.length ?? 0) > 0;
  } catch {
    return false;
  }
}

interface StayAsked {
  readonly campground: string;
  readonly site: string;
  readonly from: string;
  readonly to: string;
  readonly units: Units;
}

interface Report {
  readonly awning: { readonly wind: AwningWindAnswer | null; readonly hours: readonly AwningHourAnswer[] | null };
  readonly wind: WindAnswer | null;
}

interface StayTold {
  readonly wind: WindAnswer | null;
  readonly awnings: readonly WindAwning[];
  /** Bearings that the worst hour's wind comes from, radians. */
  readonly marked: readonly number[];
}

/** The stay at each awning; rejects with words when the server does not answer for it. */
export async function askStay(stay: StayAsked, awnings: readonly WindAwning[]): Promise<StayTold> {
  const reports = await Promise.all(awnings.map((awning) => askOne(stay, awning)));
  return {
    wind: reports[0]?.wind ?? null,
    awnings: awnings.map((awning, index) => ({ ...awning, ...reports[index]!.awning })),
    // The server writes degrees.
    marked: reports.flatMap(({ awning }) => awning.wind?.from.map((degrees) => degrees * RADIANS_PER_DEGREE) ?? []),
  };
}

async function askOne({ campground, site, from, to, units }: StayAsked, awning: WindAwning): Promise<Report> {
  const body = { site: { campground, site }, awning: awning.asked, when: { from, to }, options: { units } };
  const headers = { "Content-Type": "application/json", Accept: "application/json" };
  const response = await fetch("./v1/wind", { method: "POST", headers, body: JSON.stringify(body) });
  if (response.ok) return (await response.json()) as Report;
  const problem = (await response.json().catch(() => null)) as { readonly detail?: string } | null;
  throw new Error(problem?.detail ?? `The server answered ${response.status}.`);
}
