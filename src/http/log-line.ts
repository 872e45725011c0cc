/** One line of JSON for each request: what a collector of logs reads. */
import type { LogEntry } from "./route.ts";

/**
 * Names no body, no query, no id and no caller. Of a fault it keeps the name and where it arose; its words are left
 * out, because they may quote what was sent.
 *
 * @param now Milliseconds since 1970.
 */
export function logLine({ error, milliseconds, ...entry }: LogEntry, now: number): string {
  return JSON.stringify({
    time: new Date(now).toISOString(),
    level: error === undefined ? "info" : "error",
    event: "request",
    ...entry,
    milliseconds: Math.round(milliseconds * THOUSAND) / THOUSAND,
    ...(error === undefined ? {} : { error: faultOf(error) }),
  });
}

const THOUSAND = 1000;

function faultOf(fault: unknown): { readonly name: string; readonly at: readonly string[] } {
  if (!(fault instanceof Error)) return { name: typeof fault, at: [] };
  const frames = (fault.stack ?? "").split("\n").filter((line) => /^\s+at\s\S.*:\d+:\d+\)?$/.test(line));
  return { name: fault.name, at: frames.map((line) => line.trim()) };
}
