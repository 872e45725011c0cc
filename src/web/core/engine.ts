/**
 * The core as the page uses it: one campground opened, its sites completed once, many questions about it. No message,
 * no worker: a plain object, so that tests run it as it is.
 */
import type { Fit } from "../../fit/answer.ts";
import { applyFix, type FitInput, fitRig } from "../../fit/fit.ts";
import { completeOptions, type FitOptions, fitOptionsSchema } from "../../fit/options.ts";
import type { StanceTrial } from "../../fit/try-stance.ts";
import { roseQuery } from "../../fit/wind/rose-query.ts";
import type { When } from "../../fit/wind/when.ts";
import { type CampgroundReading, readCampground } from "../../records/geojson.ts";
import { roseOf } from "../../records/surroundings.ts";
import { completeRig } from "../../rig/complete.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import { parseRig } from "../../rig/parse.ts";
import { type Around, compileAround, completeSite } from "../../site/complete.ts";
import type { CompletedSite } from "../../site/completed.ts";
import { type CampgroundFeature, featureId } from "../../site/feature.ts";
import type { Campground } from "../../site/schema.ts";
import { exposureLevel } from "../../wind/exposure.ts";
import type { Rose } from "../../wind/rose.ts";
import { mapThings, siteCard } from "./cards.ts";
import type {
  Asked,
  Exposed,
  FitAnswer,
  FitAsked,
  OpenedCampground,
  RigCheck,
  RowWind,
  SiteRow,
  TriedAnswer,
  TryAsked,
  WindAsked,
  WindTold,
} from "./protocol.ts";
import { rowOf } from "./reason.ts";

interface Opened {
  readonly reading: CampgroundReading;
  readonly features: ReadonlyMap<string, CampgroundFeature>;
  readonly around: Around;
  readonly completed: Map<string, CompletedSite>;
}

interface Answered {
  readonly ticket: number;
  readonly input: FitInput;
  readonly fit: Fit;
  trial: StanceTrial | null;
}

/** A question that cannot be answered; its message is for the reader. */
export class Unanswerable extends Error {}

const isSite = (feature: CampgroundFeature): boolean => feature.properties["kind"] === "site";

/** N, NE, E, ... NW, radians. */
const WIND_BEARINGS = Array.from({ length: 8 }, (_, index) => (index * Math.PI) / 4);

function rowWind(rose: Rose, usual: number | undefined): RowWind {
  const exposed = (prevailing?: number): Exposed => {
    const { level, ratio } = exposureLevel(rose, prevailing === undefined ? {} : { prevailing });
    return { level, ratio };
  };
  return { usual: exposed(usual), from: WIND_BEARINGS.map(exposed) };
}

export class Engine {
  private opened: Opened | null = null;
  private answered: Answered | null = null;
  private tickets = 0;
  private rig: { readonly key: string; readonly completed: CompletedRig } | null = null;

  /** Reads the campground; its sites are completed when they are asked for. Throws with words when it is none. */
  load(text: string): CampgroundReading & { readonly campground: Campground } {
    const reading = readCampground(text);
    const { campground } = reading;
    if (campground === null) {
      const [first] = reading.report.refused;
      throw new Unanswerable(
        first === undefined ? "This is no campground." : `${first.message} Wanted: ${first.expected}.`,
      );
    }
    const sites = reading.features.filter(isSite);
    const features = new Map(sites.map((feature, index) => [featureId(feature) ?? `site-${index + 1}`, feature]));
    this.opened = {
      reading,
      features,
      around: compileAround(reading.features, reading.campground?.patterns),
      completed: new Map(),
    };
    this.answered = null;
    this.rig = null;
    return { ...reading, campground };
  }

  open(text: string): OpenedCampground {
    const reading = this.load(text);
    const { campground } = reading;
    const { features } = this.opened!;
    const note = (campground as Record<string, unknown>)["note"];
    return {
      id: campground.id,
      name: campground.name ?? campground.id,
      note: typeof note === "string" ? note : null,
      drivesOn: campground.drivesOn ?? null,
      electricalSystem: campground.electricalSystem ?? null,
      licence: campground.licence ?? null,
      invented: (campground as Record<string, unknown>)["invented"] === true,
      sources: (campground.sources ?? []).map((source) =>
        typeof source === "string" ? source : JSON.stringify(source),
      ),
      sites: [...features].map(([id, feature]) => siteCard(id, feature, this.site(id))),
      things: mapThings(reading.features.filter((feature) => !isSite(feature))),
      refused: reading.report.refused.map(({ id, message, expected }) => ({ id, message, expected })),
    };
  }

  checkRig(rig: unknown, units: "us" | "metric"): RigCheck {
    const read = parseRig(rig);
    if (!read.ok) return read;
    return {
      ok: true,
      warnings: read.warnings,
      completed: completeRig(read.rig, { ...this.place(), units, warnings: read.warnings }),
    };
  }

  row(asked: Asked, id: string): SiteRow {
    const options: FitOptions = { ...this.optionsOf(asked), detail: "summary" };
    const site = this.site(id);
    const rig = this.rigOf(asked);
    const rose = this.rose(site, rig, null);
    const row = rowOf(fitRig({ rig, site, options, rose }));
    return rose === null ? row : { ...row, wind: rowWind(rose, site.prevailingWind ?? undefined) };
  }

  /** The quick answer or the full one, with its plan. */
  async fit(asked: FitAsked, detail: "summary" | "full"): Promise<FitAnswer> {
    const options: FitOptions = { ...this.optionsOf(asked), detail };
    const site = this.site(asked.site);
    const rig = this.rigOf(asked);
    const question: FitInput = { rig, site, options, rose: this.rose(site, rig, null) };
    const input = asked.changes.reduce(applyFix, question);
    const fit = fitRig(input);
    this.tickets += 1;
    this.answered = { ticket: this.tickets, input, fit, trial: null };
    const ticket = this.tickets;
    const [draw, { questionsOf }] = await Promise.all([drawing(), import("./questions.ts")]);
    const questions = questionsOf(fit, input.site, input.rig);
    return { fit, ...draw.picture(fit, fit, asked.planWidth), key: draw.key(fit, asked.planWidth), questions, ticket };
  }

  /** Null when another answer was given since, or when there is no stance. */
  async try(asked: TryAsked): Promise<TriedAnswer | null> {
    const { answered } = this;
    if (answered === null || answered.ticket !== asked.ticket) return null;
    // Nobody drags a rig in the first view.
    const { stanceTrial } = await import("../../fit/try-stance.ts");
    answered.trial ??= stanceTrial(answered.input, answered.fit);
    const tried = answered.trial.at(asked);
    if (tried === null) return null;
    const { stance, lines, contacts, drawn } = tried;
    return { stance, lines, contacts, ...(await drawing()).picture(drawn, answered.fit, asked.planWidth) };
  }

  /** Null when another answer was given since. */
  async wind(asked: WindAsked): Promise<WindTold | null> {
    const { answered } = this;
    if (answered === null || answered.ticket !== asked.ticket) return null;
    const { windAt } = await import("./wind.ts");
    const { input, fit } = answered;
    const told = windAt(input, fit, asked, Date.now(), (when) => this.rose(input.site, input.rig, when));
    if (typeof told === "string") throw new Unanswerable(told);
    return told;
  }

  private place() {
    const campground = this.opened?.reading.campground ?? null;
    const { drivesOn } = campground ?? {};
    return {
      ...(drivesOn === undefined ? {} : { drivesOn }),
      electricalSystem: campground?.electricalSystem ?? null,
    };
  }

  private rigOf({ rig, options }: Asked): CompletedRig {
    const units = options.units ?? "metric";
    const key = JSON.stringify([rig, units]);
    if (this.rig?.key === key) return this.rig.completed;
    const check = this.checkRig(rig, units);
    if (!check.ok) throw new Unanswerable(check.errors[0]?.message ?? "The rig cannot be read.");
    this.rig = { key, completed: check.completed };
    return check.completed;
  }

  private optionsOf({ options }: Asked): FitOptions {
    return completeOptions(fitOptionsSchema.parse(options));
  }

  private rose(site: CompletedSite, rig: CompletedRig, when: When | null): Rose | null {
    return this.opened === null ? null : roseOf(site, this.opened.reading.features, roseQuery(rig, when));
  }

  private site(id: string): CompletedSite {
    const feature = this.opened?.features.get(id);
    if (this.opened === null || feature === undefined) throw new Unanswerable(`There is no site "${id}" here.`);
    const { completed, reading, around } = this.opened;
    const known = completed.get(id) ?? completeSite(feature, reading.campground, around, { base: "/site" });
    completed.set(id, known);
    return known;
  }
}

/** The drawing is loaded with the first answer that needs it: a ranked list needs none. */
const drawing = () => import("./picture.ts");
