/** The hookup card of a rig that is not the one kept on this device: of a late arrival or of a stay. */
import "../card/card.css";
import { useEffect, useState } from "preact/hooks";
import type { Fit } from "../../fit/answer.ts";
import type { FitOptionsInput } from "../../fit/options.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import { hookupCard } from "../../trip/card/hookup-card.ts";
import { CardSheet } from "../card/card-sheet.tsx";
import { useCatalogue } from "../card/languages.ts";
import { useTools } from "../context.ts";
import { useStore } from "../state/store.ts";

/** Width for which the answer's own plan is drawn, pixels; the card draws its own. */
const PLAN_WIDTH = 380;

interface SiteCardProps {
  readonly rig: Readonly<Record<string, unknown>>;
  readonly options: FitOptionsInput;
  readonly site: string;
}

interface Worked {
  readonly fit: Fit;
  readonly rig: CompletedRig;
}

export function SiteCardSheet({ rig, options, site }: SiteCardProps) {
  const { core } = useTools();
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const { catalogue, failed } = useCatalogue(useStore((state) => state.kept.cardLanguage));
  const [worked, setWorked] = useState<Worked | string | null>(null);
  const key = JSON.stringify([rig, options, units, site]);
  useEffect(() => {
    setWorked(null);
    let gone = false;
    const running = core.fit({ rig, options: { ...options, units }, site, changes: [], planWidth: PLAN_WIDTH });
    Promise.all([running.answer, core.checkRig(rig, units)]).then(
      ([{ fit }, check]) => {
        if (!gone)
          setWorked(check.ok ? { fit, rig: check.completed } : (check.errors[0]?.message ?? "The rig cannot be read."));
      },
      (fault: Error) => !gone && setWorked(fault.message),
    );
    return () => {
      gone = true;
      running.stop();
    };
  }, [core, key]);
  if (typeof worked === "string" || failed) {
    return (
      <p class="trouble" role="alert">
        {failed ? "The words of this language could not be loaded. Try again with a signal." : worked}
      </p>
    );
  }
  if (worked === null || catalogue === null) {
    return (
      <p class="quiet" role="status">
        The card is being worked out.
      </p>
    );
  }
  return <CardSheet fit={worked.fit} card={hookupCard({ ...worked, campground: opened?.name ?? null }, catalogue)} />;
}
