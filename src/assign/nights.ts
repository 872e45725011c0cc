/**
 * Nights as day numbers. A night belongs to a calendar date of the campground; it is never worked out from timestamps,
 * because a day with a change of the clock has 23 or 25 hours.
 */

const MILLISECONDS_PER_DAY = 86_400_000;
const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Day number of a date "YYYY-MM-DD" (proleptic Gregorian, days since 1970-01-01); null when there is no such date. */
export function nightOfDate(date: string): number | null {
  const match = DATE.exec(date);
  if (match === null) return null;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const at = new Date(0);
  // Date.UTC takes years below 100 for the twentieth century; setUTCFullYear does not.
  at.setUTCFullYear(year, month - 1, day);
  const isSame = at.getUTCFullYear() === year && at.getUTCMonth() === month - 1 && at.getUTCDate() === day;
  return isSame ? at.getTime() / MILLISECONDS_PER_DAY : null;
}

/** "YYYY-MM-DD" of a day number. */
export function dateOfNight(night: number): string {
  return new Date(night * MILLISECONDS_PER_DAY).toISOString().slice(0, "YYYY-MM-DD".length);
}
