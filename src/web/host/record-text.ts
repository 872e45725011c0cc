/** The campground's record as text: the server's when it can be reached, else what this device kept. */
import { keptCampground } from "../state/device.ts";
import { campgroundPath } from "./api.ts";

export async function recordText(campground: string): Promise<string | null> {
  try {
    const response = await fetch(`./v1${campgroundPath(campground)}`, { headers: { Accept: "application/geo+json" } });
    if (response.ok) return await response.text();
  } catch {
    // Without signal: the kept one.
  }
  return (await keptCampground(campground))?.text ?? null;
}

/** The time zone that a record states; null when it states none. */
export function timeZoneOf(text: string): string | null {
  const { campground } = JSON.parse(text) as { readonly campground?: { readonly timeZone?: unknown } };
  return typeof campground?.timeZone === "string" ? campground.timeZone : null;
}
