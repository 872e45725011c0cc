/** The wind at the site shown, asked of the core anew when answer or wind change; the forecast is asked of the server. */
import { useEffect, useState } from "preact/hooks";
import { useTools } from "../context.ts";
import type { FitAnswer, WindTold } from "../core/protocol.ts";
import { useStore } from "../state/store.ts";
import { type WindChoice, windText } from "./choice.ts";
import { replayed } from "./days.ts";

/** Width for which the rose is drawn, pixels: about the column beside the plan. */
const ROSE_WIDTH = 380;
/** A hand that types or turns through a list rests this long before the core is asked, milliseconds. */
const REST = 200;

/** The wind as a request has it; null to ask about the site alone. */
function whenOf(wind: WindChoice, units: "us" | "metric"): unknown {
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

interface WindState {
  readonly told: WindTold | null;
  readonly trouble: string | null;
}

export function useWind({ ticket }: FitAnswer, partial: boolean): WindState {
  const { core } = useTools();
  const wind = useStore((state) => state.kept.wind);
  const units = useStore((state) => state.kept.units);
  const [state, setState] = useState<WindState>({ told: null, trouble: null });
  useEffect(() => {
    if (partial) return;
    let gone = false;
    const ask = () =>
      core.wind({ ticket, when: whenOf(wind, units), roseWidth: ROSE_WIDTH }).then(
        // Another answer was given since: this question comes again with its ticket.
        (told) => !gone && told !== null && setState({ told, trouble: null }),
        (fault: Error) => !gone && setState((before) => ({ ...before, trouble: fault.message })),
      );
    const timer = setTimeout(ask, REST);
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [core, ticket, partial, wind, units]);
  return state;
}
