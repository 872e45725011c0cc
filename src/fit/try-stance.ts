/**
 * The lines as they would lie if the rig stood somewhere else than the answer says: for a driver who cannot or will
 * not stop there, and for a picture in which the rig is dragged along its pad. What is joined to what, the facing, the
 * kit and the awnings stay as the answer chose them.
 */
import type { AnswerLine, Fit, LineVerdict } from "./answer.ts";
import { type Arrangement, arrange, type FitInput, isParked } from "./arrange.ts";
import type { LineChoice } from "./lines/choice.ts";
import { laidNumbers, NAMES, routeWords } from "./lines/report.ts";
import { type Say, sayer } from "./say.ts";
import { makeScene } from "./scene.ts";
import { stanceProblem } from "./setup.ts";
import { evaluateStance } from "./stance/index.ts";
import type { Contact, LineRoute, Stance } from "./stance/problem.ts";

/** A place on the pad, metres, at the facing and yaw of the answer. */
export interface Place {
  readonly along: number;
  readonly left: number;
}

/** What a part of the rig touches when it stands there. */
export interface Touch {
  readonly part: string;
  /** What it touches, in words. */
  readonly against: string;
  /** Metres by which it would have to move out. */
  readonly depth: number;
}

export interface TriedStance {
  readonly stance: Stance;
  /**
   * The answer's lines with the numbers of this place. The verdict of a line goes by these numbers: how sure they are
   * was judged for the answer's own stance only, and a line that was unknown there stays unknown.
   */
  readonly lines: readonly AnswerLine[];
  /** Empty when the rig can stand there. */
  readonly contacts: readonly Touch[];
  /** The answer with this stance, these lines and this scene, for a picture of it; verdict and checks are the answer's. */
  readonly drawn: Fit;
}

interface Tried {
  readonly before: AnswerLine;
  readonly margin: number;
  readonly neededLeast: number;
  readonly available: number;
  readonly comfort: number;
}

function verdictAt({ before, margin, neededLeast, available, comfort }: Tried): LineVerdict {
  if (before.verdict === "unknown") return "unknown";
  if (margin < 0) return neededLeast <= available ? "tight" : "short";
  return before.verdict === "reaches" || margin >= comfort ? "reaches" : "tight";
}

function words(line: LineChoice, route: LineRoute, numbers: ReturnType<typeof laidNumbers>, say: Say): string {
  const needs = say.needed(numbers.needed + line.added);
  const has = say.available(numbers.available + line.added);
  const rest =
    numbers.margin >= 0 ? `${say.available(numbers.margin)} to spare` : `short by ${say.needed(-numbers.margin)}`;
  return `${NAMES[line.service]}: ${needs} needed ${routeWords(route)}, ${has} available; ${rest} here.`;
}

function lineAt(arrangement: Arrangement, line: LineChoice, before: AnswerLine, stance: Stance, say: Say): AnswerLine {
  const { setup, facing } = arrangement;
  const routeOf = (manner: "laid" | "least") =>
    evaluateStance(stanceProblem(setup, facing, [line], manner), stance).lines[0]!;
  const laid = routeOf("laid");
  if (!Number.isFinite(laid.run)) {
    const why = `${NAMES[line.service]}: no permitted way along the ground from the rig to the hookup.`;
    return { ...before, route: null, path: [], needed: null, neededLeast: null, margin: null, verdict: "short", why };
  }
  const numbers = laidNumbers(line, setup.groundAt(facing), laid, routeOf("least"));
  const { needed, neededLeast, available, margin } = numbers;
  const comfort = setup.options.comfort;
  const verdict =
    line.service === "sewer" && laid.fall <= 0
      ? "short"
      : verdictAt({ before, margin, neededLeast, available, comfort });
  const { sigma: _, marginLow: __, marginHigh: ___, probability: ____, ...plain } = before;
  const why = words(line, laid, numbers, say);
  return { ...plain, route: laid.route, path: laid.path, needed, neededLeast, available, margin, verdict, why };
}

/** Places to try for one answer; what does not depend on the place is made ready once. */
export interface StanceTrial {
  /** Null when the answer has no stance, because then nothing stands anywhere. */
  at(place: Place): TriedStance | null;
}

/** `fit` must be the answer to `input`. */
export function stanceTrial(input: FitInput, fit: Fit): StanceTrial {
  const { stance: shown } = fit;
  if (shown === null) return { at: () => null };
  const arrangement = arrange(input);
  if (!isParked(arrangement.parking)) return { at: () => null };
  const say = sayer(input.options.units);
  const choices = arrangement.chosen.map((candidate) => candidate.choice);
  const bare = stanceProblem(arrangement.setup, arrangement.facing, []);
  const named = new Map(bare.obstacles.map((obstacle) => [obstacle.id, obstacle.what]));
  const touch = ({ part, against, depth }: Contact): Touch => ({ part, against: named.get(against) ?? against, depth });
  return {
    at({ along, left }) {
      const stance: Stance = { ...shown, along, left };
      const lines = fit.lines.map((before) => {
        const choice = choices.find((one) => one.service === before.service);
        const joined = choice !== undefined && before.hookup !== null;
        return joined ? lineAt(arrangement, choice, before, stance, say) : before;
      });
      const { openAwnings } = arrangement;
      const scene = makeScene({ ...input, stance, openAwnings, closedSlides: input.options.closeSlides });
      const contacts = evaluateStance(bare, stance).contacts.map(touch);
      return { stance, lines, contacts, drawn: { ...fit, stance, window: null, lines, scene } };
    },
  };
}

/** One place tried once; for many places of one answer make a `stanceTrial`. */
export function tryStance(input: FitInput, fit: Fit, place: Place): TriedStance | null {
  return stanceTrial(input, fit).at(place);
}
