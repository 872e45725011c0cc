/**
 * The page: a frame with the way between the views, and one view at a time by the address behind the hash.
 *
 * How a view is added: a file of its own folder exports a component; it is named in `VIEWS` below. Every view but the
 * sites is given as `later(() => import("./rig/rig-view.tsx").then((module) => module.RigView))` (shared/later.tsx), so
 * that it costs the first view nothing; its style sheet is imported in its own file.
 *
 * What a view can count on:
 * - its props are its route (route.ts); it links with `hrefOf(...)` and moves with `goTo(...)`;
 * - it draws one `<h1>` and no `<main>`: the frame has the landmarks, puts the focus on the heading after a change of
 *   view and sets the window's title from it;
 * - `useStore`/`keep` (state/store.ts), `useTools()` for the core and the session (context.ts), shared pieces in
 *   shared/ (verdict mark, words, lengths, announcements), classes in styles/parts.css; colours only as the custom
 *   properties of styles/base.css, so that the dark scheme and print follow;
 * - no style or script in the document: the policy of the server forbids both. `style={{}}` on an element is allowed.
 */
import type { ComponentType } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { hrefOf, type Route, useRoute } from "./route.ts";
import { Announcer } from "./shared/announce.tsx";
import { later } from "./shared/later.tsx";
import { Sites } from "./sites/sites.tsx";
import { keep, useStore } from "./state/store.ts";

// biome-ignore lint/suspicious/noExplicitAny: each view takes the props of its own route, which the table pairs.
const VIEWS: { readonly [V in Route["view"]]?: ComponentType<any> } = {
  sites: Sites,
  site: later(() => import("./site/site-view.tsx").then((module) => module.SiteView)),
  compare: later(() => import("./compare/compare.tsx").then((module) => module.Compare)),
  about: later(() => import("./about/about.tsx").then((module) => module.About)),
  rig: later(() => import("./rig/rig-view.tsx").then((module) => module.RigView)),
  card: later(() => import("./card/card-view.tsx").then((module) => module.CardView)),
  measure: later(() => import("./measure/measure-view.tsx").then((module) => module.MeasureView)),
  host: later(() => import("./host/host-view.tsx").then((module) => module.HostView)),
  desk: later(() => import("./desk/desk-view.tsx").then((module) => module.DeskView)),
  trip: later(() => import("./trip/trip-view.tsx").then((module) => module.TripView)),
  papers: later(() => import("./desk/papers-view.tsx").then((module) => module.PapersView)),
};

const WAYS: readonly { readonly route: Route; readonly name: string }[] = [
  { route: { view: "sites" }, name: "Sites" },
  { route: { view: "rig" }, name: "Rig" },
  { route: { view: "trip", id: "mine" }, name: "Trip" },
  { route: { view: "desk" }, name: "Desk" },
  { route: { view: "about" }, name: "About" },
];

/** The way that is marked as the present one: a single site belongs to the sites. */
function wayOf(route: Route): Route["view"] {
  const { view } = route;
  if (view === "trip" || view === "papers") return route.id === "mine" ? "trip" : "desk";
  return view === "rig" || view === "about" || view === "desk" || view === "host" ? view : "sites";
}

export function App() {
  const route = useRoute();
  const main = useRef<HTMLElement>(null);
  const first = useRef(true);
  const key = hrefOf(route);
  useEffect(() => {
    const moved = !first.current;
    first.current = false;
    if (moved) scrollTo(0, 0);
    return whenHeaded(main.current, (heading) => {
      document.title = heading.textContent ? `${heading.textContent} - Padwright` : "Padwright";
      if (!moved) return;
      heading.setAttribute("tabindex", "-1");
      heading.focus({ preventScroll: true });
    });
  }, [key]);
  const View = VIEWS[route.view] ?? Sites;
  return (
    <>
      <button type="button" class="skip" onClick={skip}>
        Skip to the content
      </button>
      <header class="frame-head">
        <a class="name" href={hrefOf({ view: "sites" })}>
          <img src="./mark.svg" alt="Padwright" width="28" height="28" />
          <span aria-hidden="true">Padwright</span>
        </a>
        <nav aria-label="Views">
          <ul>
            {WAYS.map(({ route: way, name }) => (
              <li key={name}>
                <a href={hrefOf(way)} aria-current={wayOf(route) === way.view ? "page" : undefined}>
                  {name}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <Units />
      </header>
      <main id="main" ref={main} tabIndex={-1}>
        <View key={key} {...route} />
      </main>
      <Announcer />
    </>
  );
}

/** Calls once with the view's heading, which may come only when the view is loaded; gives back how to stop waiting. */
function whenHeaded(main: HTMLElement | null, use: (heading: HTMLElement) => void): () => void {
  if (main === null) return () => {};
  const watch = new MutationObserver(() => look());
  const look = () => {
    const heading = main.querySelector("h1");
    if (heading === null) return;
    watch.disconnect();
    use(heading);
  };
  watch.observe(main, { childList: true, subtree: true });
  look();
  return () => watch.disconnect();
}

/** Moves the focus without changing the address, which names the view. */
function skip(): void {
  document.getElementById("main")?.focus();
}

function Units() {
  const units = useStore((state) => state.kept.units);
  return (
    <fieldset class="units">
      <legend class="unseen">Units</legend>
      {(["us", "metric"] as const).map((one) => (
        <label key={one} class={units === one ? "on" : ""}>
          <input type="radio" name="units" value={one} checked={units === one} onChange={() => keep({ units: one })} />
          {one === "us" ? "ft" : "m"}
        </label>
      ))}
    </fieldset>
  );
}
