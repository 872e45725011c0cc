/** How good an answer is for the purpose of packing: what a kit must bring a site up to. */
import type { Fit, SiteVerdict } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";

/** With everything packed, `fits with kit` is as good as `fits`. */
const LEVELS: Readonly<Record<SiteVerdict, number>> = {
  "does not fit": 0,
  unknown: 1,
  tight: 2,
  "fits with kit": 3,
  fits: 3,
};

export const levelOf = (verdict: SiteVerdict): number => LEVELS[verdict];
/** The level of a site that does not fit. */
export const NO = LEVELS["does not fit"];
/** The level from which a stop works. */
export const WORKS = LEVELS.fits;

export interface Worth {
  readonly level: number;
  /** Services whose line reaches and joins. */
  readonly served: readonly Service[];
}

const THREAD_CHECK = "water.thread";
export const THREAD_ADAPTER = "thread-adapter";

/** True when the hose does not screw onto the tap without an adapter. */
export function wantsThreadAdapter(fit: Fit): boolean {
  return fit.checks.some((check) => check.id === THREAD_CHECK && check.status === "pass with kit");
}

/** Worth of an answer that was solved with this kit aboard. */
export function worthOf(fit: Fit, kit: readonly { readonly item: string }[]): Worth {
  const joined = !wantsThreadAdapter(fit) || kit.some(({ item }) => item === THREAD_ADAPTER);
  const served = fit.lines
    .filter((line) => line.verdict === "reaches" && (line.service !== "water" || joined))
    .map((line) => line.service);
  return { level: levelOf(fit.verdict), served };
}

export function atLeast(worth: Worth, goal: Worth): boolean {
  return worth.level >= goal.level && goal.served.every((service) => worth.served.includes(service));
}

/** True when no kit can better it: it works and every line that is asked for reaches. */
export function isComplete(fit: Fit, worth: Worth): boolean {
  return (
    worth.level >= WORKS &&
    fit.lines.every(
      (line) =>
        line.need === "ignored" ||
        line.verdict === "absent" ||
        line.verdict === "not needed" ||
        worth.served.includes(line.service),
    )
  );
}
