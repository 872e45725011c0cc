/**
 * The rig while it is edited. The draft may hold errors; the store gets it as soon as it can be read, so that every
 * answer follows, and a draft that cannot be read survives a look at another view.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import type { CompletedRig } from "../../rig/completed.ts";
import type { Assumption, Warning } from "../../units/estimate.ts";
import type { InputError } from "../../units/input-error.ts";
import { useTools } from "../context.ts";
import { keep, useStore, type WireRig } from "../state/store.ts";

/** Milliseconds of rest before a draft is read. */
const REST = 120;

/** A draft that could not be read when its view was left, and the kept rig that it came from. */
let unread: { readonly draft: WireRig; readonly from: WireRig } | null = null;

export interface Draft {
  readonly rig: WireRig;
  readonly errors: readonly InputError[];
  readonly warnings: readonly Warning[];
  /** The last completion that could be made; null before the first. */
  readonly completed: CompletedRig | null;
  readonly assumed: readonly Assumption[];
  readonly edit: (change: (rig: WireRig) => WireRig) => void;
}

interface Judged {
  readonly errors: readonly InputError[];
  readonly warnings: readonly Warning[];
  readonly completed: CompletedRig | null;
}

const NOTHING: Judged = { errors: [], warnings: [], completed: null };

export function useDraft(): Draft {
  const { core } = useTools();
  const kept = useStore((state) => state.kept.rig);
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const [rig, setRig] = useState<WireRig>(() => (unread?.from === kept ? unread.draft : kept));
  const [judged, setJudged] = useState<Judged>(NOTHING);
  const own = useRef<WireRig>(kept);
  // Somebody else changed the kept rig: a link, a file, another view.
  useEffect(() => {
    if (kept !== own.current) {
      own.current = kept;
      setRig(kept);
    }
  }, [kept]);
  useEffect(() => {
    let gone = false;
    const timer = setTimeout(() => {
      core.checkRig(rig, units).then(
        (check) => {
          if (gone) return;
          unread = check.ok ? null : { draft: rig, from: own.current };
          setJudged((before) =>
            check.ok
              ? { errors: [], warnings: check.warnings, completed: check.completed }
              : { ...before, errors: check.errors, warnings: [] },
          );
          if (check.ok && rig !== own.current) {
            own.current = rig;
            keep({ rig });
          }
        },
        () => {
          // The worker is gone; the frame of the page says so.
        },
      );
    }, REST);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [core, rig, units, opened]);
  return { rig, ...judged, assumed: judged.completed?.assumed ?? [], edit: (change) => setRig((now) => change(now)) };
}
