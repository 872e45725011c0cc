/**
 * Chooses the size of the card's text so that it prints on one sheet, A4 or Letter alike: the sheet is as narrow as
 * A4 and as low as Letter. It is measured as printed, at once after drawing, and the size is handed to the style sheet.
 */
import { useLayoutEffect, useRef } from "preact/hooks";

/** Points. Below the smallest nobody reads it at arm's length: then the card takes a second sheet instead. */
const LARGEST = 10.5;
const SMALLEST = 7;
const STEP = 0.1;
/** Height that both papers leave within their margins, CSS pixels: 11 in less two margins of 7 mm, and a little air. */
const ROOM = 995;
const PRINT_SIZE = "--card-size";

/** The largest size at which `heightAt` stays within the room, or the smallest of all. */
export function largestSize(heightAt: (size: number) => number): number {
  const steps = Math.round((LARGEST - SMALLEST) / STEP);
  let low = 0;
  let high = steps;
  const sizeOf = (step: number) => SMALLEST + step * STEP;
  if (heightAt(sizeOf(high)) <= ROOM) return sizeOf(high);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (heightAt(sizeOf(middle)) <= ROOM) low = middle;
    else high = middle;
  }
  return sizeOf(low);
}

export function useOneSheet(what: readonly unknown[]) {
  const sheet = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const element = sheet.current;
    if (element === null) return;
    element.classList.add("as-printed");
    const size = largestSize((points) => {
      element.style.setProperty(PRINT_SIZE, `${points.toFixed(1)}pt`);
      return element.scrollHeight;
    });
    element.style.setProperty(PRINT_SIZE, `${size.toFixed(1)}pt`);
    element.classList.remove("as-printed");
  }, what);
  return sheet;
}
