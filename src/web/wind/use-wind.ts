/** The wind at the site shown, asked anew when answer or wind change: of the core, for a forecast of the server too. */
import { useEffect, useState } from "preact/hooks";
import { useTools } from "../context.ts";
import type { Core } from "../core/client.ts";
import type { FitAnswer, WindTold } from "../core/protocol.ts";
import { type Units, useStore } from "../state/store.ts";
import { type WindChoice, windText } from "./choice.ts";
import { replayed } from "./days.ts";
import { askStay } from "./server.ts";

/** Width for which the rose is drawn, pixels: about the column beside the plan. */
const ROSE_WIDTH = 380;
/** A hand that types or turns through a list rests this long before anybody is asked, milliseconds. */
const REST = 200;

/** The wind as a request has it; null to ask about the site alone. */
function whenOf(wind: WindChoice, units: Units): unknown {
  switch (wind.kind) {
    case "none":
      return null;
    case "hand":
      return { wind: windText(wind.speed, wind.from, units) };
    case "day":
      return replayed(wind.id)?.when ?? null;
    case "dates":
      return wind.from === "" || wind.to === "" ? null : { from: wind.from, to: wind.to };
  }
}

interface Asked {
  readonly core: Core;
  readonly ticket: number;
  readonly wind: WindChoice;
  readonly units: Units;
  readonly campground: string;
  readonly site: string;
}

interface WindState {
  readonly told: WindTold | null;
  readonly trouble: string | null;
}

/** Null when another answer was given since: then the question comes again with its ticket. */
async function ask({ core, ticket, wind, units, campground, site }: Asked): Promise<WindState | null> {
  const when = whenOf(wind, units);
  const question = { ticket, roseWidth: ROSE_WIDTH };
  const told = await core.wind({ ...question, when });
  if (told === null || wind.kind !== "dates" || when === null) return told && { told, trouble: null };
  try {
    const { marked, ...stay } = await askStay({ campground, site, from: wind.from, to: wind.to, units }, told.awnings);
    const drawn = await core.wind({ ...question, when: null, marked });
    return drawn && { told: { ...drawn, ...stay }, trouble: null };
  } catch (fault) {
    const why = fault instanceof TypeError ? "the server is out of reach" : String((fault as Error).message);
    return { told, trouble: `The forecast cannot be had: ${why}` };
  }
}

export function useWind({ ticket, fit }: FitAnswer, partial: boolean): WindState {
  const { core } = useTools();
  const wind = useStore((state) => state.kept.wind);
  const units = useStore((state) => state.kept.units);
  const campground = useStore((state) => state.opened?.id ?? "");
  const [state, setState] = useState<WindState>({ told: null, trouble: null });
  useEffect(() => {
    if (partial) return;
    let gone = false;
    const timer = setTimeout(() => {
      ask({ core, ticket, wind, units, campground, site: fit.site.id }).then(
        (next) => !gone && next !== null && setState(next),
        (fault: Error) => !gone && setState((before) => ({ ...before, trouble: fault.message })),
      );
    }, REST);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [core, ticket, partial, wind, units]);
  return state;
}
