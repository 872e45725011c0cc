/**
 * What would mend a fit: each change is applied to the request and the whole fit, power included, is solved again;
 * only changes that help are offered, those that cost nothing first.
 */
import kitData from "../../data/kit.json" with { type: "json" };
import type { KitItem, Service } from "../rig/completed.ts";
import type { AnswerLine, Fit, Fix, FixChange, KitAddition } from "./answer.ts";
import { type Arrangement, type FitInput, isParked } from "./arrange.ts";
import { powerSolution } from "./lines/candidates.ts";
import type { LineChoice } from "./lines/choice.ts";
import { isSolved } from "./park.ts";
import { type Say, sayer } from "./say.ts";
import { stanceProblem } from "./setup.ts";
import { solveStance } from "./stance/index.ts";
import { verdictRank } from "./verdict.ts";

/** Share of a drain hose's label that counts; assumed, as for the rig's own hose. */
const WORKING_SHARE = 0.9;

interface Proposal {
  readonly kind: Fix["kind"];
  readonly title: string;
  readonly free: boolean;
  readonly change: FixChange;
}

function kitItemOf(addition: KitAddition, index: number): KitItem {
  return {
    item: addition.item,
    plug: addition.plug ?? null,
    receptacle: addition.receptacle ?? null,
    rating: addition.rating ?? null,
    addsLength: addition.length ?? 0,
    length: addition.length ?? null,
    gauge: gaugeOf(addition.gauge),
    where: addition.where,
    path: `/kit/${index}`,
  };
}

function gaugeOf(text: string | undefined): KitItem["gauge"] {
  if (text === undefined) return null;
  const value = Number.parseFloat(text);
  return text.includes("mm") ? { squareMillimetres: value } : { awg: value };
}

/** The same question with the change made. */
export function applyFix(input: FitInput, change: FixChange): FitInput {
  const { options: set, kit } = change;
  const rig =
    kit === undefined
      ? input.rig
      : {
          ...input.rig,
          kit: [...input.rig.kit, ...kit.map((one, index) => kitItemOf(one, input.rig.kit.length + index))],
        };
  if (set === undefined) return { ...input, rig };
  const options = {
    ...input.options,
    ...(set.facings === undefined ? {} : { facings: set.facings }),
    ...(set.awning === undefined ? {} : { awning: set.awning }),
    ...(set.closeSlides === undefined ? {} : { closeSlides: set.closeSlides }),
    ...(set.needs === undefined ? {} : { needs: { ...input.options.needs, ...set.needs } }),
  };
  return { ...input, rig, options };
}

/** Exact extra length that this line alone would need with the others as they are; null when no length helps. */
export function extraAlone(arrangement: Arrangement, line: LineChoice): number | null {
  if (!isParked(arrangement.parking)) return null;
  const others = arrangement.parking.lines.filter((one) => one !== line);
  const problem = stanceProblem(arrangement.setup, arrangement.facing, [line, ...others]);
  const outcome = solveStance(problem, { floors: [null, ...others.map(() => 0)] });
  if (!isSolved(outcome) || !Number.isFinite(outcome.worst)) return null;
  return Math.max(0, -outcome.worst);
}

function soldAtLeast(lengths: readonly number[], least: number): number | null {
  return lengths.find((length) => length >= least) ?? null;
}

const HOSES: Partial<Record<Service, "drinking-hose" | "sewer-hose" | "cable">> = {
  water: "drinking-hose",
  fill: "drinking-hose",
  sewer: "sewer-hose",
  cable: "cable",
};

function longerHose(service: Service, extra: number, say: Say): Proposal | null {
  const item = HOSES[service];
  if (item === undefined) return null;
  const share = service === "sewer" ? WORKING_SHARE : 1;
  const length = soldAtLeast(kitData.items[item].soldLengths.any, extra / share);
  if (length === null) return null;
  const title = `${kitData.items[item].title}, ${say.length(length)} more (${say.needed(extra)} is missing)`;
  return { kind: "longer line", title, free: false, change: { kit: [{ item, length, where: "depot" }] } };
}

function longerCord(input: FitInput, line: LineChoice, extra: number, say: Say): Proposal | null {
  const solution = powerSolution(line.connection, input.rig, input.site, input.options, extra);
  const candidate = solution.candidates.find(
    (one) => one.usable && one.hookup === line.hookup.id && one.items.some((item) => item.item === "extension"),
  );
  const link = candidate?.chain.find((one) => one.item === "extension");
  if (link === undefined || link.length === null || link.amps === null) return null;
  const addition: KitAddition = {
    item: "extension",
    ...(link.from === null ? {} : { plug: link.from }),
    ...(link.to === null ? {} : { receptacle: link.to }),
    rating: link.amps,
    length: link.length,
    where: "depot",
  };
  const title = `Extension cord of ${link.amps} A, ${say.length(link.length)} (${say.needed(extra)} is missing)`;
  return { kind: "longer line", title, free: false, change: { kit: [addition] } };
}

function lineProposals(input: FitInput, arrangement: Arrangement, lines: readonly AnswerLine[], say: Say): Proposal[] {
  return arrangement.chosen.flatMap(({ choice }) => {
    const line = lines.find((one) => one.service === choice.service);
    if (line === undefined || line.margin === null || line.verdict === "reaches" || line.verdict === "unknown")
      return [];
    const extra = extraAlone(arrangement, choice);
    if (extra === null || extra === 0) return [];
    const proposal =
      choice.service === "power" ? longerCord(input, choice, extra, say) : longerHose(choice.service, extra, say);
    return proposal === null ? [] : [proposal];
  });
}

function facingProposals(input: FitInput, arrangement: Arrangement): Proposal[] {
  const { site, options } = input;
  if (options.facings !== null || site.facingsStated || !site.facings.includes("in")) return [];
  if (arrangement.facing === "in") return [];
  const title = "Park nose in: ask the host first; door and awning turn to the other side";
  return [{ kind: "facing", title, free: true, change: { options: { facings: ["in"] } } }];
}

function slideProposals(input: FitInput): Proposal[] {
  const { rig, options } = input;
  const open = rig.slideouts.filter((slide) => !options.closeSlides.includes(slide.id) && !slide.required);
  const each = open.map(
    (slide): Proposal => ({
      kind: "close slide",
      title: `Keep ${slide.id} closed`,
      free: true,
      change: { options: { closeSlides: [...options.closeSlides, slide.id] } },
    }),
  );
  if (open.length < 2) return each;
  const closeSlides = [...options.closeSlides, ...open.map((slide) => slide.id)];
  return [
    ...each,
    { kind: "close slide", title: "Keep all of these slides closed", free: true, change: { options: { closeSlides } } },
  ];
}

function awningProposals(input: FitInput): Proposal[] {
  if (input.options.awning !== "required") return [];
  return [{ kind: "awning in", title: "Leave the awning in", free: true, change: { options: { awning: "in" } } }];
}

/** Adapters that would do if they were aboard. */
function itemProposals(arrangement: Arrangement): Proposal[] {
  const power = arrangement.services.find((entry) => entry.service === "power")?.power;
  const missing = (power?.candidates ?? []).filter((one) => !one.usable && one.reasonCode === "kit-not-aboard");
  return missing.flatMap((candidate): Proposal[] => {
    const link = candidate.chain.find((one) => one.item === "adapter");
    if (link === undefined || link.from === null || link.to === null) return [];
    const addition: KitAddition = {
      item: "adapter",
      plug: link.from,
      receptacle: link.to,
      ...(link.amps === null ? {} : { rating: link.amps }),
      where: "aboard",
    };
    return [{ kind: "item", title: `Take aboard: ${link.description}`, free: false, change: { kit: [addition] } }];
  });
}

/** How good an answer is: verdict first, then how many lines are served. */
function worth(fit: Fit): number {
  const served = fit.lines.filter((line) => line.verdict === "reaches").length;
  return verdictRank(fit.verdict) * (fit.lines.length + 1) + served;
}

/** Changes that help, solved again by `solve`; free ones first, then by what they lead to. */
export function findFixes(
  input: FitInput,
  arrangement: Arrangement,
  before: Fit,
  solve: (input: FitInput) => Fit,
): Fix[] {
  const say = sayer(input.options.units);
  const single = [
    ...awningProposals(input),
    ...slideProposals(input),
    ...facingProposals(input, arrangement),
    ...itemProposals(arrangement),
    ...lineProposals(input, arrangement, before.lines, say),
  ];
  const longer = single.filter((proposal) => proposal.kind === "longer line");
  const together: Proposal[] =
    longer.length < 2
      ? []
      : [
          {
            kind: "longer line",
            title: longer.map((proposal) => proposal.title).join(" and "),
            free: false,
            change: { kit: longer.flatMap((proposal) => proposal.change.kit ?? []) },
          },
        ];
  const least = worth(before);
  return [...single, ...together]
    .map((proposal) => ({ proposal, after: solve(applyFix(input, proposal.change)) }))
    .filter(({ after }) => worth(after) > least)
    .sort((a, b) => Number(b.proposal.free) - Number(a.proposal.free) || worth(b.after) - worth(a.after))
    .map(({ proposal, after }) => ({ ...proposal, verdictAfter: after.verdict, why: after.headline }));
}
