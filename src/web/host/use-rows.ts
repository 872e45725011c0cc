/** How a rig fits some sites, worked out in the workers site by site. */
import { useEffect, useState } from "preact/hooks";
import type { FitOptionsInput } from "../../fit/options.ts";
import { useTools } from "../context.ts";
import type { SiteRow } from "../core/protocol.ts";
import { useStore } from "../state/store.ts";

export interface RigRows {
  readonly rows: ReadonlyMap<string, SiteRow>;
  readonly done: boolean;
  readonly trouble: string | null;
}

const NOTHING: RigRows = { rows: new Map(), done: false, trouble: null };

/** Rows are shown in bunches, milliseconds. */
const BUNCH = 100;

/** @param rig Null while there is nothing to ask. `sites` best bets first. */
export function useRigRows(
  rig: Readonly<Record<string, unknown>> | null,
  options: FitOptionsInput,
  sites: readonly string[],
): RigRows {
  const { core } = useTools();
  const units = useStore((state) => state.kept.units);
  const [state, setState] = useState(NOTHING);
  const key = rig === null ? "" : JSON.stringify([rig, options, units, sites]);
  useEffect(() => {
    setState(NOTHING);
    if (rig === null) return;
    let gone = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const rows = new Map<string, SiteRow>();
    const show = (done: boolean) => {
      clearTimeout(timer);
      timer = undefined;
      if (!gone) setState({ rows: new Map(rows), done, trouble: null });
    };
    const running = core.rank({ rig, options: { ...options, units } }, sites, (ready) => {
      for (const row of ready) rows.set(row.id, row);
      timer ??= setTimeout(() => show(false), BUNCH);
    });
    running.answer.then(
      () => show(true),
      (fault: Error) => !gone && setState({ rows, done: true, trouble: fault.message }),
    );
    return () => {
      gone = true;
      clearTimeout(timer);
      running.stop();
    };
  }, [core, key]);
  return state;
}

/** The options of a fit that a stay brings with it. */
export function optionsOfStay(stay: {
  readonly needs?: Readonly<Record<string, string>>;
  readonly kitPolicy?: "any" | "aboard";
}): FitOptionsInput {
  const { needs, kitPolicy } = stay;
  return {
    ...(needs === undefined ? {} : { needs: needs as NonNullable<FitOptionsInput["needs"]> }),
    ...(kitPolicy === undefined ? {} : { kitPolicy }),
  };
}
