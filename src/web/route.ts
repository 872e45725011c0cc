/** Addresses of the page: all behind the hash, so that one file serves them and a link works without a server's help. */
import { useEffect, useState } from "preact/hooks";

export type Route =
  | { readonly view: "sites" | "rig" | "about" | "desk" }
  | { readonly view: "site" | "card" | "measure" | "trip" | "papers" | "host"; readonly id: string }
  | { readonly view: "compare"; readonly ids: readonly string[] };

/** Sites that can be compared side by side. */
export const MOST_COMPARED = 3;

/** The route of an address; anything that is no address of ours shows the sites. A query after the path is left alone. */
export function readRoute(hash: string): Route {
  const [path = ""] = hash.replace(/^#\/?/, "").split("?");
  const [view = "", rest = ""] = path.split("/");
  const id = decode(rest);
  switch (view) {
    case "rig":
    case "about":
    case "desk":
      return { view };
    case "site":
    case "card":
    case "measure":
    case "trip":
    case "papers":
    case "host":
      return id === "" ? { view: "sites" } : { view, id };
    case "compare":
      return { view, ids: rest.split(",").map(decode).filter(Boolean).slice(0, MOST_COMPARED) };
    default:
      return { view: "sites" };
  }
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The address of a route, for links. */
export function hrefOf(route: Route): string {
  if ("id" in route) return `#/${route.view}/${encodeURIComponent(route.id)}`;
  if ("ids" in route) return `#/${route.view}/${route.ids.map(encodeURIComponent).join(",")}`;
  return `#/${route.view}`;
}

export function goTo(route: Route): void {
  location.hash = hrefOf(route);
}

/** The route now; the component draws itself anew when it changes. */
export function useRoute(): Route {
  const [route, setRoute] = useState(() => readRoute(location.hash));
  useEffect(() => {
    const hear = () => setRoute(readRoute(location.hash));
    addEventListener("hashchange", hear);
    return () => removeEventListener("hashchange", hear);
  }, []);
  return route;
}
