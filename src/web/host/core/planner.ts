/**
 * Small changes of the plan, worked out in the page. Only stays that meet the nights in question may move; every other
 * stay counts as a closure of its site, so that nothing is fitted that cannot matter. Fits are kept by content.
 */
import { editPlan } from "../../../assign/edit.ts";
import { type AssignmentProblem, boundSite } from "../../../assign/problem.ts";
import type { WayFit } from "../../../assign/score.ts";
import { explainStay, movesToWire, planFromWire } from "../../../http/assignment/answer.ts";
import { scoreStays } from "../../../http/assignment/propose.ts";
import { askedProblem, type CampgroundParts, type ReadClosure } from "../../../http/assignment/read.ts";
import type { AssignmentStayWire } from "../../../http/schemas/assignment.ts";
import { readCampground } from "../../../records/geojson.ts";
import { parseRig } from "../../../rig/parse.ts";
import { compileAround } from "../../../site/complete.ts";
import { type HostStay, meets, type Span } from "../book.ts";
import type { Edit, EditTold, PlanBook, StayTold } from "./protocol.ts";

const FIRST_DATE = "1970-01-01";
const LAST_DATE = "9999-12-31";

export interface PlannerPorts {
  readonly breathe: () => Promise<void>;
  /** Hears the share of fits that are made. */
  readonly progress: (done: number) => void;
}

interface Changed {
  readonly book: PlanBook;
  /** Stays that want a site; null for those that cannot keep theirs. */
  readonly wanted: readonly string[] | null;
  /** Nights in question. */
  readonly spans: readonly Span[];
}

/** The first arrival to the last departure. */
function hull(spans: readonly Span[]): Span {
  const arrivals = spans.map(({ arrival }) => arrival).sort();
  const departures = spans.map(({ departure }) => departure).sort();
  return { arrival: arrivals[0] ?? FIRST_DATE, departure: departures.at(-1) ?? FIRST_DATE };
}

const withStay = (book: PlanBook, stay: HostStay): PlanBook => ({
  ...book,
  stays: [...book.stays.filter(({ id }) => id !== stay.id), stay],
});

/** The book as it would be, before anybody moves. */
function changedBook(book: PlanBook, edit: Edit, keepsSite: boolean): Changed {
  switch (edit.kind) {
    case "place":
      return { book: withStay(book, { ...edit.stay, place: null }), wanted: [edit.stay.id], spans: [edit.stay] };
    case "closure": {
      const { closure, sites } = edit;
      const span = { arrival: closure.firstNight, departure: closure.until ?? LAST_DATE };
      const met = book.stays.filter((one) => one.place !== null && sites.includes(one.place.site) && meets(one, span));
      return { book: { ...book, closures: [...book.closures, closure] }, wanted: null, spans: met };
    }
    case "later": {
      const stay = book.stays.find(({ id }) => id === edit.stay);
      if (stay === undefined) return { book, wanted: [], spans: [] };
      const place = stay.place === null ? null : { ...stay.place, locked: keepsSite };
      const longer: HostStay = { ...stay, departure: edit.departure, place };
      const met = book.stays.filter((one) => one.place?.site === place?.site && meets(one, longer));
      return { book: withStay(book, longer), wanted: null, spans: [longer, ...met] };
    }
  }
}

/** A stay as a site that is closed, with the outlets that it holds. */
function asClosures({ place, arrival, departure, id }: HostStay): ReadClosure[] {
  if (place === null) return [];
  const span = { firstNight: arrival, until: departure, why: id };
  return [{ ...span, site: place.site }, ...place.outlets.map((outlet) => ({ ...span, outlet }))];
}

function closureOf({ site, outlet, firstNight, until, why }: PlanBook["closures"][number]): ReadClosure {
  return {
    ...(site === null ? {} : { site }),
    ...(outlet === null ? {} : { outlet }),
    firstNight,
    until,
    ...(why === null ? {} : { why }),
  };
}

function wireOf(stay: HostStay): AssignmentStayWire {
  const { id, arrival, departure, status, needs, kitPolicy, accessible, tight, mustHave, wishes, group, priority } =
    stay;
  const asks = { needs, kitPolicy, accessible, tight, mustHave, wishes, group, priority };
  const place = stay.place === null ? {} : { site: stay.place.site, locked: stay.place.locked };
  return { id, arrival, departure, status, rig: stay.rig, ...asks, ...place } as AssignmentStayWire;
}

interface Problem {
  readonly problem: AssignmentProblem;
  readonly plan: ReturnType<typeof planFromWire>["plan"];
}

export class Planner {
  private parts: CampgroundParts | null = null;
  private readonly memory = new Map<string, readonly WayFit[]>();

  /** Reads the record. Throws with words when it is none. */
  async open(text: string): Promise<null> {
    const { campground, features, report } = readCampground(text);
    if (campground === null) throw new Error(report.refused[0]?.message ?? "This is no campground.");
    this.parts = { campground, features, around: compileAround(features, campground.patterns) };
    return null;
  }

  async edit(book: PlanBook, edit: Edit, ports: PlannerPorts): Promise<EditTold> {
    const told = await this.tryEdit(changedBook(book, edit, true), ports);
    if (edit.kind !== "later" || told.options.length > 0 || told.nothingToDo) return told;
    // Nobody gives way: then the guests who stay longer may move themselves, if they are not on their site yet.
    return this.tryEdit(changedBook(book, edit, false), ports);
  }

  private async tryEdit(changed: Changed, ports: PlannerPorts): Promise<EditTold> {
    const { problem, plan } = await this.problemOf(changed.book, changed.spans, ports);
    const at = (id: string) => problem.stays.findIndex((stay) => stay.id === id);
    const wanted = changed.wanted === null ? null : changed.wanted.map(at).filter((index) => index >= 0);
    const { options, unplaced, complete } = editPlan(problem, plan, wanted);
    const told = options.map(({ moved, moves, gain }) => ({ moved, gain, moves: movesToWire(problem, moves) }));
    const isMoved = told.some(({ moves }) => moves.length > 0);
    const bound = problem.stays.filter((stay, index) => boundSite(stay) !== null && cannotStay(problem, index));
    return {
      bound: bound.map(({ id }) => id),
      options: isMoved ? told.filter(({ moves }) => moves.length > 0) : [],
      nothingToDo: !isMoved && unplaced.length === 0 && bound.length === 0,
      unplaced: unplaced.map((stay) => problem.stays[stay]!.id),
      complete,
    };
  }

  /** Makes the fits that a change of the next nights will want. */
  async warm(book: PlanBook, until: string, ports: PlannerPorts): Promise<null> {
    await this.problemOf(book, [{ arrival: book.today, departure: until }], ports);
    return null;
  }

  /** Why the stay stands where it stands, or why it has no site and the smallest change that would help. */
  async explain(book: PlanBook, id: string, ports: PlannerPorts): Promise<StayTold> {
    const stay = book.stays.find((one) => one.id === id);
    if (stay === undefined) return null;
    const { problem, plan } = await this.problemOf(book, [stay], ports);
    return explainStay(problem, plan, id);
  }

  private async problemOf(book: PlanBook, spans: readonly Span[], ports: PlannerPorts): Promise<Problem> {
    const { parts } = this;
    if (parts === null) throw new Error("No campground is open.");
    const window = hull(spans);
    const near = book.stays.filter((stay) => meets(stay, window));
    const far = book.stays.filter((stay) => !meets(stay, window));
    const read = near.flatMap((stay) => {
      const rig = parseRig(stay.rig);
      return rig.ok ? [{ wire: wireOf(stay), rig: rig.rig }] : [];
    });
    const holds = book.holds.map(({ site, arrival, departure, why }) => ({
      site,
      firstNight: arrival,
      until: departure,
      ...(why === null ? {} : { why }),
    }));
    const closures: ReadClosure[] = [...holds, ...book.closures.map(closureOf), ...far.flatMap(asClosures)];
    const asked = await askedProblem(parts, read, closures, { firstNight: book.today });
    const problem = await scoreStays(asked, {
      clock: () => 0,
      breathe: ports.breathe,
      memory: this.memory,
      progress: (told) => told.phase === "fits" && ports.progress(told.done),
    });
    if (problem === null) throw new Error("This was stopped.");
    return { problem: withHostsWord(problem), plan: standing(problem, near) };
  }
}

/** True when the site on which the stay is bound is closed on one of its nights. */
function cannotStay({ sites, stays }: AssignmentProblem, index: number): boolean {
  const { arrival, departure, ...stay } = stays[index]!;
  const site = boundSite({ arrival, departure, ...stay });
  return site !== null && sites[site]!.closures.some(({ from, until }) => from < departure && arrival < until);
}

/** Who stands where the fit says no is there by the host's word, and stays there while others are moved. */
function withHostsWord(problem: AssignmentProblem): AssignmentProblem {
  const stays = problem.stays.map((stay, index) => {
    const { accepted, profile } = stay;
    if (accepted === null || (problem.options[profile]?.[accepted]?.ways.length ?? 0) > 0) return stay;
    const there = { ...stay, locked: accepted };
    return cannotStay({ ...problem, stays: problem.stays.with(index, there) }, index) ? stay : there;
  });
  return { ...problem, stays };
}

/** Where the stays of the problem stand now. A way is chosen by the outlets that are held, where any are. */
function standing(problem: AssignmentProblem, stays: readonly HostStay[]): Problem["plan"] {
  const known = new Set(problem.stays.map(({ id }) => id));
  const places = new Set(problem.sites.map(({ id }) => id));
  const placed = stays.filter(({ id, place }) => place !== null && known.has(id) && places.has(place.site));
  const { plan } = planFromWire(
    problem,
    placed.map(({ id, place }) => ({
      stay: id,
      site: place!.site,
      ...(place!.outlets.length === 0 ? {} : { outlets: place!.outlets }),
    })),
  );
  // Whoever is bound stands there by the host's word, whatever the fit says.
  return plan.map((placement, index) => {
    const bound = boundSite(problem.stays[index]!);
    return placement ?? (bound === null ? null : { site: bound, way: 0 });
  });
}
