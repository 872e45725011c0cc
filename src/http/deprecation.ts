/** How a route that will go is told of: headers of RFC 9745 (Deprecation) and RFC 8594 (Sunset), both from memory. */

export interface Deprecation {
  /** Day from which the route should not be used in anything new, YYYY-MM-DD. */
  readonly since: string;
  /** Day on which it stops answering; at least half a year later. */
  readonly sunset: string;
  /** Path of what to use instead. */
  readonly successor: string;
}

const MILLISECONDS = 1000;

/** Adds the headers to a response; links that are there stay. */
export function tellDeprecation(headers: Headers, { since, sunset, successor }: Deprecation): void {
  headers.set("Deprecation", `@${Date.parse(`${since}T00:00:00Z`) / MILLISECONDS}`);
  headers.set("Sunset", new Date(`${sunset}T00:00:00Z`).toUTCString());
  headers.append("Link", '</docs#routes>; rel="deprecation"; type="text/html"');
  headers.append("Link", `<${successor}>; rel="successor-version"`);
}
