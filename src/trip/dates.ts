/** Local calendar dates, YYYY-MM-DD, as days: no clock, no time zone, no leap second enters. */

const MONTHS_OF_YEAR = 12;
const FEBRUARY = 2;
const DAYS_OF_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const DAYS_OF_YEAR = 365;
/** Every 4th year is a leap year, but every 100th is not, but every 400th is (Gregorian calendar). */
const [LEAP, CENTURY, CYCLE] = [4, 100, 400] as const;

function isLeapYear(year: number): boolean {
  return year % LEAP === 0 && (year % CENTURY !== 0 || year % CYCLE === 0);
}

function daysOfMonth(year: number, month: number): number {
  return (DAYS_OF_MONTH[month - 1] ?? 0) + (month === FEBRUARY && isLeapYear(year) ? 1 : 0);
}

/** Days from the first day of year 1 to this date; null when there is no such day in the calendar. */
export function dayNumber(date: string): number | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (match === null) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < 1 || month < 1 || month > MONTHS_OF_YEAR || day < 1 || day > daysOfMonth(year, month)) return null;
  const before = year - 1;
  let days = before * DAYS_OF_YEAR + Math.floor(before / LEAP) - Math.floor(before / CENTURY);
  days += Math.floor(before / CYCLE);
  for (let one = 1; one < month; one++) days += daysOfMonth(year, one);
  return days + day - 1;
}

const YEAR_DIGITS = 4;

/** The date of a day number. */
export function dateOf(days: number): string {
  let year = 1 + Math.floor(days / (DAYS_OF_YEAR + 1));
  const firstOf = (one: number) => dayNumber(`${String(one).padStart(YEAR_DIGITS, "0")}-01-01`) ?? 0;
  while (firstOf(year + 1) <= days) year += 1;
  let left = days - firstOf(year);
  let month = 1;
  while (left >= daysOfMonth(year, month)) {
    left -= daysOfMonth(year, month);
    month += 1;
  }
  const two = (value: number) => String(value).padStart(2, "0");
  return `${String(year).padStart(YEAR_DIGITS, "0")}-${two(month)}-${two(left + 1)}`;
}

/** Nights from one date to another; both must be dates of the calendar. */
export function nightsBetween(arrive: string, leave: string): number {
  return (dayNumber(leave) ?? 0) - (dayNumber(arrive) ?? 0);
}
