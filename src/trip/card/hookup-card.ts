/**
 * The hookup card of one full answer. A card for a site that does not fit, or of which too little is known, has no
 * steps, no place to stop and no kit: nothing on it can be taken for an approval.
 */
import type { Service } from "../../rig/completed.ts";
import { type Card, type CardInput, type CardNote, type CardWords, WORD_KEYS } from "./card.ts";
import { cautionsOfCard } from "./cautions.ts";
import { insteadNotes, uncheckedNotes } from "./instead.ts";
import { kitOfCard } from "./kit.ts";
import { type Catalogue, Speaker } from "./messages.ts";
import { dashed, serviceName } from "./names.ts";
import { whereToStop } from "./place.ts";
import { planLabels } from "./plan-labels.ts";
import { readings } from "./readings.ts";
import { barReason, verdictReasons } from "./reasons.ts";
import { standingRules } from "./rules.ts";
import { runOf } from "./run.ts";
import { mayApprove, notServedBy, servedBy } from "./served.ts";
import { arrivalSteps, departureSteps, leaveFastSteps } from "./steps.ts";
import type { Told } from "./told.ts";
import { tripNotes } from "./trip-notes.ts";

function bannerOf({ fit, speaker }: Told, approves: boolean): Card["banner"] {
  if (fit.verdict === "fits" || fit.verdict === "fits with kit") {
    if (approves) return null;
    return { text: speaker.say("banner.not-joined"), reasons: verdictReasons(fit, speaker) };
  }
  const key = fit.verdict === "tight" && !approves ? "not-joined" : dashed(fit.verdict);
  return { text: speaker.say(`banner.${key}`), reasons: verdictReasons(fit, speaker) };
}

function wordsOf(speaker: Speaker): CardWords {
  return Object.fromEntries(WORD_KEYS.map((key) => [key, speaker.say(`word.${key}`)])) as CardWords;
}

/** What only a card has that lets people connect. */
function approvedParts(told: Told) {
  const { fit, speaker } = told;
  const [arrival, departure, leaveFast] = [arrivalSteps(told), departureSteps(told), leaveFastSteps(told)];
  const rules = standingRules(told);
  const said = new Set([...arrival, ...departure, ...leaveFast, ...rules].flatMap(({ cautions }) => cautions));
  return {
    stop: whereToStop(fit, speaker),
    arrival,
    departure,
    leaveFast,
    checks: readings(told),
    notConnected: notServedBy(fit).map(({ service, bar }) => ({
      service,
      name: serviceName(service, speaker),
      text: barReason(fit, bar, speaker),
    })),
    kit: kitOfCard(told),
    run: told.served.has("power") ? runOf(told) : null,
    rules,
    cautions: cautionsOfCard(told, said),
    trip: tripNotes(told),
    instead: [] as readonly CardNote[],
  };
}

/** What a card has that approves nothing: no step, no kit, nowhere to stop. */
function refusedParts(told: Told) {
  return {
    stop: [],
    arrival: [],
    departure: [],
    leaveFast: [],
    checks: [],
    notConnected: [],
    kit: [],
    run: null,
    rules: [],
    cautions: [],
    trip: [],
    instead: insteadNotes(told),
  };
}

/**
 * The card of a full answer for its rig, in one language.
 *
 * @param input A full answer with the completed rig that it was made for, and what a trip knows of the stop.
 * @param catalogue Messages of the language: `catalogueOf(language)` of languages.ts, or one loaded by the page.
 */
export function hookupCard(input: CardInput, catalogue: Catalogue): Card {
  const { fit, rig, trip = null } = input;
  const speaker = new Speaker(catalogue, fit.units);
  const approves = mayApprove(fit);
  const served: ReadonlySet<Service> = approves ? servedBy(fit) : new Set();
  const told: Told = { fit, rig, trip, served, speaker };
  return {
    language: catalogue.language,
    units: fit.units,
    translation: speaker.has("translation") ? speaker.say("translation") : null,
    rig: fit.rig.name ?? fit.rig.id ?? speaker.say("word.rig"),
    site: fit.site.name,
    campground: input.campground ?? fit.site.campgroundName ?? fit.site.campground,
    verdict: fit.verdict,
    verdictText: speaker.say(`verdict.${dashed(fit.verdict)}`),
    banner: bannerOf(told, approves),
    approves,
    ...(approves ? approvedParts(told) : refusedParts(told)),
    unchecked: uncheckedNotes(told),
    planLabels: planLabels(fit, approves, speaker),
    words: wordsOf(speaker),
  };
}
