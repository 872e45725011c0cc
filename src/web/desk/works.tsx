/** Whether a unit or a stop works: mark and word. */
import type { Works } from "../../trip/settle.ts";
import { VerdictMark } from "../shared/verdict-mark.tsx";
import { WORKS_MARK, WORKS_WORDS } from "./words.ts";

export function WorksMark({ works, size = 28 }: { readonly works: Works; readonly size?: number }) {
  return (
    <span class="works" data-works={works}>
      <VerdictMark verdict={WORKS_MARK[works]} size={size} />
      <span>{WORKS_WORDS[works]}</span>
    </span>
  );
}
