/** What a stop gives, read from its fit: which services are joined, and whether the tank may be filled there. */
import type { Known } from "../../site/completed.ts";
import type { AnswerLine, Fit } from "../answer.ts";
import type { SupplyHookups } from "./types.ts";

const NOTHING: SupplyHookups = { water: "no", sewer: "no", power: "no", tankFill: "no" };

/** A line that lies on the ground joins, also with little to spare; one that would hang joins for nobody who is sure. */
function joined(line: AnswerLine | undefined): Known {
  if (line === undefined) return "no";
  switch (line.verdict) {
    case "reaches":
      return "yes";
    case "tight":
      return line.margin !== null && line.margin >= 0 ? "yes" : "unknown";
    case "unknown":
      return "unknown";
    case "short":
    case "absent":
    case "not needed":
      return "no";
  }
}

function bothKnown(one: Known, other: Known): Known {
  if (one === "no" || other === "no") return "no";
  return one === "yes" && other === "yes" ? "yes" : "unknown";
}

function checkAs(fit: Pick<Fit, "checks">, id: string, pass: Known, fail: Known): Known {
  const status = fit.checks.find((check) => check.id === id)?.status;
  if (status === "unknown") return "unknown";
  return status === "fail" ? fail : pass;
}

function powered(fit: Pick<Fit, "lines" | "power">): Known {
  const line = joined(fit.lines.find((one) => one.service === "power"));
  const mating: Known =
    fit.power.mating === "unknown"
      ? "unknown"
      : fit.power.mating === "refused" || fit.power.mating === "none"
        ? "no"
        : "yes";
  return bothKnown(line, mating);
}

/** A drain that runs uphill is no connection, whatever its hose reaches; a fall that nobody checked leaves it open. */
function drained(fit: Pick<Fit, "lines" | "sewer">): Known {
  const line = joined(fit.lines.find((one) => one.service === "sewer"));
  const fall: Record<Fit["sewer"]["status"], Known> = {
    drains: "yes",
    marginal: "yes",
    poor: "yes",
    uphill: "no",
    "fall not checked": "unknown",
    none: "no",
  };
  return bothKnown(line, fall[fit.sewer.status]);
}

/** Services of a stop; a night without a site has none. A seasonal tap is unknown until somebody asks whether it is on. */
export function hookupsOfFit(fit: Pick<Fit, "lines" | "power" | "sewer" | "checks"> | null): SupplyHookups {
  if (fit === null) return NOTHING;
  const season = checkAs(fit, "water.season", "yes", "no");
  const drinkable = checkAs(fit, "water.drinkable", "yes", "no");
  const tap = bothKnown(joined(fit.lines.find((line) => line.service === "water")), season);
  const fill = bothKnown(joined(fit.lines.find((line) => line.service === "fill")), season);
  const either: Known = tap === "yes" || fill === "yes" ? "yes" : tap === "no" && fill === "no" ? "no" : "unknown";
  return {
    // Water that is not fit to drink is not let into the rig's pipes at all.
    water: drinkable === "no" ? "no" : tap,
    sewer: drained(fit),
    power: powered(fit),
    tankFill: bothKnown(either, drinkable),
  };
}
