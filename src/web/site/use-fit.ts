/** The answer for one site, worked out anew when rig, question, units or applied fixes change. */
import { useEffect, useState } from "preact/hooks";
import { useTools } from "../context.ts";
import type { FitAnswer } from "../core/protocol.ts";
import { optionsOf } from "../state/session.ts";
import { type AppliedFix, useStore } from "../state/store.ts";

export interface FitState {
  readonly answer: FitAnswer | null;
  /** True while only the quick answer is there. */
  readonly partial: boolean;
  readonly trouble: string | null;
}

const NO_FIXES: readonly AppliedFix[] = [];
const NOTHING: FitState = { answer: null, partial: true, trouble: null };

export function useFixes(site: string): readonly AppliedFix[] {
  return useStore((state) => state.kept.fixes[site] ?? NO_FIXES);
}

export function useFit(site: string, planWidth: number): FitState {
  const { core } = useTools();
  const opened = useStore((state) => state.opened);
  const rig = useStore((state) => state.kept.rig);
  const units = useStore((state) => state.kept.units);
  const question = useStore((state) => state.kept.question);
  const fixes = useFixes(site);
  const [state, setState] = useState<FitState>(NOTHING);
  useEffect(() => {
    if (opened === null || planWidth === 0) return;
    let gone = false;
    const changes = fixes.map((one) => one.change);
    const asked = { rig, options: optionsOf({ question, units }), site, changes, planWidth };
    const running = core.fit(asked, (quick) => !gone && setState({ answer: quick, partial: true, trouble: null }));
    running.answer.then(
      (answer) => !gone && setState({ answer, partial: false, trouble: null }),
      (fault: Error) => !gone && setState({ answer: null, partial: false, trouble: fault.message }),
    );
    return () => {
      gone = true;
      running.stop();
    };
  }, [core, opened, rig, units, question, fixes, site, planWidth]);
  return state;
}
