/** What the marks mean. */
import type { SiteVerdict } from "../../fit/answer.ts";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";

const ORDER: readonly SiteVerdict[] = ["fits", "fits with kit", "tight", "unknown", "does not fit"];

export function MapKey() {
  return (
    <ul class="map-key" aria-label="Marks">
      {ORDER.map((verdict) => (
        <li key={verdict}>
          <VerdictMark verdict={verdict} size={18} /> {verdictWords(verdict)}
        </li>
      ))}
    </ul>
  );
}
