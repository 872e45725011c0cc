/** Check records: margin = limit - value for what must not exceed, value - limit for what must reach. */
import type { Check, CheckFamily, CheckStatus } from "../answer.ts";
import type { Judgement } from "./compare.ts";

export interface CheckInit {
  readonly id: string;
  readonly family: CheckFamily;
  readonly deciding: boolean;
  readonly status: CheckStatus | Judgement;
  readonly value: number | null;
  readonly limit: number | null;
  /** Given for a least value (the clear distance must reach the limit); else the value must not exceed the limit. */
  readonly least?: true;
  readonly unit: Check["unit"];
  readonly source: string;
  readonly why: string;
  readonly change?: string;
}

/** A check with its margin, positive when there is room. */
export function check(init: CheckInit): Check {
  const { least, change, ...rest } = init;
  const margin =
    init.value === null || init.limit === null ? null : least ? init.value - init.limit : init.limit - init.value;
  return { ...rest, margin, ...(change === undefined ? {} : { change }) };
}

/** A check that does not concern this rig at this site. */
export function notApplicable(id: string, why: string, source = "the records"): Check {
  return {
    id,
    family: "cannot",
    deciding: false,
    status: "not applicable",
    value: null,
    limit: null,
    margin: null,
    unit: null,
    source,
    why,
  };
}

/** A check that waits for a value. `measure` says in words what to find out, `path` where it belongs. */
export function unknownCheck(
  init: Pick<CheckInit, "id" | "family" | "deciding" | "unit" | "source" | "why"> & {
    readonly value?: number | null;
    readonly limit?: number | null;
  },
  measure: string,
  path: string,
): Check {
  return check({
    ...init,
    value: init.value ?? null,
    limit: init.limit ?? null,
    status: "unknown",
    change: `${measure} (${path}).`,
  });
}
