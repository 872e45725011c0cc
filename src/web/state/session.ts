/** What happens by itself: the campground is loaded, the ranking follows rig and question, the device is told. */
import type { FitOptionsInput } from "../../fit/options.ts";
import type { Core, Running } from "../core/client.ts";
import type { SiteCard, SiteRow } from "../core/protocol.ts";
import { hasMeasured } from "../measure/shelf.ts";
import { keepCampground, keepRanking, keptCampground, keptCampgrounds, keptRanking, writeKept } from "./device.ts";
import { type Kept, keep, type Listed, NO_RANKING, type PageState, type Store } from "./store.ts";

const LIST = "./v1/campgrounds";
/** Rows are shown in bunches: drawing the list anew for each of 500 sites would hold up the page. Milliseconds. */
const BUNCH = 120;
/** Rig and question rest this long before everything is worked out anew, milliseconds. */
const REST = 250;
const WRITE_REST = 200;

/** The options of every question of the page. */
export function optionsOf({ question, units }: Pick<Kept, "question" | "units">): FitOptionsInput {
  return { ...question, units };
}

/** Sites that look promising from the record alone are worked out first; this decides nothing else. */
export function promising(sites: readonly SiteCard[], length: number | null): string[] {
  const promise = (site: SiteCard) =>
    (site.services.power === "yes" ? 2 : 0) +
    (site.services.sewer === "yes" ? 1 : 0) +
    (length === null || (site.length ?? 0) >= length ? 2 : 0) -
    (site.closed === null ? 0 : 2);
  return [...sites].sort((a, b) => promise(b) - promise(a)).map((site) => site.id);
}

export class Session {
  private ranking: Running<null> | null = null;
  private text = "";
  private timer: ReturnType<typeof setTimeout> | undefined;
  private writer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly store: Store<PageState>,
    private readonly core: Core,
  ) {}

  start(): void {
    let before = this.store.get().kept;
    this.store.subscribe(() => {
      const { kept } = this.store.get();
      if (kept === before) return;
      const anew = kept.rig !== before.rig || kept.units !== before.units || kept.question !== before.question;
      before = kept;
      clearTimeout(this.writer);
      this.writer = setTimeout(() => writeKept(this.store.get().kept), WRITE_REST);
      if (anew) this.rankSoon();
    });
    addEventListener("pagehide", () => writeKept(this.store.get().kept));
    this.loadFirst().catch((fault: unknown) => this.trouble(fault));
  }

  /** Opens the campground of the last visit, or the first that there is. */
  private async loadFirst(): Promise<void> {
    const wanted = this.store.get().kept.campground;
    const listed = this.loadList();
    if (wanted !== null) {
      await Promise.all([this.openById(wanted), listed]);
      if (this.store.get().opened !== null) return;
    }
    const [first] = await listed;
    if (first === undefined) throw new Error("There is no campground here yet. Open one from a file.");
    await this.openById(first.id);
  }

  private async loadList(): Promise<readonly Listed[]> {
    const [fromServer, kept] = await Promise.all([listFromServer(), keptCampgrounds()]);
    const onServer = new Set((fromServer ?? []).map((one) => one.id));
    const onDevice = kept
      .filter((one) => !onServer.has(one.id))
      .map(({ id, name, sites }) => ({ id, name, sites, from: "device" as const }));
    const campgrounds = [...(fromServer ?? []), ...onDevice];
    this.store.set({ campgrounds, withoutServer: fromServer === null });
    return campgrounds;
  }

  /** Opens a campground of the server, or what this device kept of it when the server cannot be reached. */
  async openById(id: string): Promise<void> {
    const text = await this.textOf(id);
    if (text === null) {
      this.store.set({
        trouble: "This campground cannot be loaded: the server is out of reach and this device has not kept it.",
      });
      return;
    }
    await this.openText(text);
  }

  /** The record of a campground, of the server or as this device kept it; null when neither has it. */
  async textOf(id: string): Promise<string | null> {
    return (await textFromServer(id)) ?? (await keptCampground(id))?.text ?? null;
  }

  /** Opens a record that the reader gave, or one that was loaded. Troubles are told in the store. */
  async openText(text: string): Promise<void> {
    try {
      const read = hasMeasured() ? (await import("../measure/measured.ts")).withMeasured(text) : text;
      const opened = await this.core.open(read);
      this.text = read;
      this.store.set({ opened, trouble: null, ranking: NO_RANKING });
      keep({
        campground: opened.id,
        ...(this.store.get().kept.campground === opened.id ? {} : { chosen: [], fixes: {} }),
      });
      this.rank();
      await keepCampground({ id: opened.id, name: opened.name, sites: opened.sites.length, text });
    } catch (fault) {
      this.trouble(fault);
    }
  }

  private trouble(fault: unknown): void {
    this.store.set({ trouble: fault instanceof Error ? fault.message : String(fault) });
  }

  private rankSoon(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.rank(), REST);
  }

  private rank(): void {
    this.rankAll().catch((fault: unknown) => this.trouble(fault));
  }

  /** Works every site out anew, or takes the rows that the same question had on this device. */
  private async rankAll(): Promise<void> {
    this.ranking?.stop();
    this.ranking = null;
    const { kept, opened } = this.store.get();
    if (opened === null) return;
    const asked = { rig: kept.rig, options: optionsOf(kept) };
    const check = await this.core.checkRig(kept.rig, kept.units);
    if (this.store.get().kept.rig !== kept.rig) return;
    this.store.set({ rigRead: check.ok });
    if (!check.ok) {
      this.store.set({ ranking: NO_RANKING });
      return;
    }
    const key = `${import.meta.url} ${JSON.stringify(asked)} ${this.text}`;
    const known = await keptRanking(key);
    const state = this.store.get();
    if (state.opened !== opened || state.kept.rig !== kept.rig || state.kept.units !== kept.units) return;
    const of = opened.sites.length;
    if (known !== null) {
      this.store.set({ ranking: { rows: new Map(known.map((row) => [row.id, row])), done: of, of, running: false } });
      return;
    }
    await this.work(asked, promising(opened.sites, check.completed.length.value), key);
  }

  private async work(asked: Parameters<Core["rank"]>[0], sites: readonly string[], key: string): Promise<void> {
    const of = sites.length;
    const rows = new Map<string, SiteRow>();
    let bunch: ReturnType<typeof setTimeout> | undefined;
    const show = (running: boolean) => {
      bunch = undefined;
      this.store.set({ ranking: { rows: new Map(rows), done: rows.size, of, running } });
    };
    show(true);
    const running = this.core.rank(asked, sites, (ready) => {
      if (this.ranking !== running) return;
      for (const row of ready) rows.set(row.id, row);
      bunch ??= setTimeout(() => this.ranking === running && show(rows.size < of), BUNCH);
    });
    this.ranking = running;
    await running.answer;
    if (this.ranking !== running) return;
    clearTimeout(bunch);
    show(false);
    await keepRanking(key, [...rows.values()]);
  }
}

async function listFromServer(): Promise<Listed[] | null> {
  try {
    const response = await fetch(LIST, { headers: { Accept: "application/json" } });
    if (!response.ok) return null;
    const { campgrounds } = (await response.json()) as { campgrounds: { id: string; name: string; sites: number }[] };
    return campgrounds.map(({ id, name, sites }) => ({ id, name, sites, from: "server" }));
  } catch {
    return null;
  }
}

async function textFromServer(id: string): Promise<string | null> {
  try {
    const response = await fetch(`${LIST}/${encodeURIComponent(id)}`, { headers: { Accept: "application/geo+json" } });
    return response.ok ? await response.text() : null;
  } catch {
    return null;
  }
}
