/** The rig at another place than the one worked out: asked of the core, the newest place only. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { Place } from "../../fit/try-stance.ts";
import { useTools } from "../context.ts";
import type { FitAnswer, TriedAnswer } from "../core/protocol.ts";

export interface Trial {
  /** Where the rig is dragged to; null at the place worked out. */
  readonly place: Place | null;
  /** The answer for a place, which may lag behind a quick hand. */
  readonly tried: TriedAnswer | null;
  readonly move: (place: Place) => void;
  readonly back: () => void;
}

export function useTrial(answer: FitAnswer | null, planWidth: number): Trial {
  const { core } = useTools();
  const [place, setPlace] = useState<Place | null>(null);
  const [tried, setTried] = useState<TriedAnswer | null>(null);
  const asking = useRef(false);
  const wanted = useRef<Place | null>(null);
  const ticket = answer?.ticket ?? null;
  const current = useRef(ticket);
  current.current = ticket;

  const ask = async (): Promise<void> => {
    if (asking.current) return;
    asking.current = true;
    while (wanted.current !== null && current.current !== null) {
      const next = wanted.current;
      wanted.current = null;
      const told = await core.try({ ticket: current.current, ...next, planWidth }).catch(() => null);
      if (told !== null) setTried(told);
    }
    asking.current = false;
  };
  const move = (next: Place): void => {
    setPlace(next);
    wanted.current = next;
    ask();
  };
  const back = (): void => {
    wanted.current = null;
    setPlace(null);
    setTried(null);
  };
  // The same stance answered anew (more fully, or in other units) is asked for the same place again; another stance
  // belongs to another question, and the rig goes back to the place worked out.
  const stance = JSON.stringify(answer?.fit.stance ?? null);
  const before = useRef(stance);
  useEffect(() => {
    const same = before.current === stance;
    before.current = stance;
    if (place === null) return;
    if (!same) back();
    else {
      wanted.current = place;
      ask();
    }
  }, [ticket]);
  return { place, tried: place === null ? null : tried, move, back };
}
