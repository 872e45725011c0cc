/** The walk of one site, kept on the device after every reading, so that a phone that sleeps loses nothing. */
import { useEffect, useState } from "preact/hooks";
import { newWalk, type Walk } from "./walk.ts";

const KEY = "padwright-walk";

const nameOf = (campground: string, site: string): string => `${KEY} ${campground} ${site}`;

function isWalk(value: unknown): value is Walk {
  if (typeof value !== "object" || value === null) return false;
  const { marks, readings, offsets, choices } = value as Partial<Walk>;
  return Array.isArray(marks) && Array.isArray(readings) && Array.isArray(offsets) && typeof choices === "object";
}

export function readWalk(campground: string, site: string): Walk | null {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(nameOf(campground, site)) ?? "null");
    return isWalk(read) ? read : null;
  } catch {
    return null;
  }
}

function keepWalk(campground: string, site: string, walk: Walk): void {
  try {
    localStorage.setItem(nameOf(campground, site), JSON.stringify(walk));
  } catch {
    // A full or forbidden store: the walk goes on, but only on this visit.
  }
}

export interface WalkState {
  readonly walk: Walk;
  readonly change: (how: (walk: Walk) => Walk) => void;
  readonly restart: () => void;
}

/** @param hookups Hookups of the recorded site; a walk that was begun keeps its own marks. */
export function useWalk(campground: string, site: string, hookups: Parameters<typeof newWalk>[0]): WalkState {
  const [walk, setWalk] = useState<Walk>(() => readWalk(campground, site) ?? newWalk(hookups));
  useEffect(() => {
    if (walk.readings.length + walk.offsets.length > 0 || readWalk(campground, site) !== null)
      keepWalk(campground, site, walk);
  }, [walk]);
  return { walk, change: (how) => setWalk((now) => how(now)), restart: () => setWalk(newWalk(hookups)) };
}
