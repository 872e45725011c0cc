/**
 * A plan at once: the stays that are hardest to place first, each at the open site that adds most. "Hardest" is the
 * number of sites it may have, for each of its nights; long stays with few sites come first.
 */
import type { Compiled } from "./compile.ts";
import type { PlanState } from "./plan-state.ts";

function hardestFirst({ stays, optionStart, arrival, departure, problem }: Compiled): number[] {
  const ease = (stay: number) =>
    (optionStart[stay + 1]! - optionStart[stay]!) /
    ((departure[stay]! - arrival[stay]!) * (1 + problem.stays[stay]!.priority));
  return Array.from({ length: stays }, (_, stay) => stay).sort((one, other) => ease(one) - ease(other) || one - other);
}

/** Places every stay that is still without a site and for which one is open. */
export function fillGreedily(state: PlanState): void {
  const { compiled } = state;
  for (const stay of hardestFirst(compiled)) {
    if (state.chosen[stay]! >= 0) continue;
    const option = state.bestOpen(stay);
    if (option >= 0 && state.gain(option) > 0) state.place(option);
  }
}

/** Keeps of the accepted plan what can be kept. */
export function keepAccepted(state: PlanState): void {
  const { stays, accepted, optionStart, optionSite } = state.compiled;
  for (let stay = 0; stay < stays; stay++) {
    if (state.chosen[stay]! >= 0 || accepted[stay]! < 0) continue;
    for (let option = optionStart[stay]!; option < optionStart[stay + 1]!; option++) {
      if (optionSite[option] === accepted[stay] && state.isOpen(option)) {
        state.place(option);
        break;
      }
    }
  }
}
