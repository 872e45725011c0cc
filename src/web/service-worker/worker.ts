/**
 * Keeps the page for use without signal. All files of one build are kept together under the build's version; records
 * of campgrounds are kept by the page itself. Anything but the page's own files goes to the network untouched.
 */
interface Extendable extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Extendable {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Scope {
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", listener: (event: Extendable) => void): void;
  addEventListener(kind: "fetch", listener: (event: Fetching) => void): void;
}

const scope = self as unknown as Scope;
const VERSION = "BUILD_VERSION";
const FILES = ["BUILD_FILES"];
const PREFIX = "padwright-page-";
const CACHE = PREFIX + VERSION;

scope.addEventListener("install", (event) => {
  const keep = async () => {
    const cache = await caches.open(CACHE);
    // Straight from the server: a copy in the browser's own store may belong to an older build.
    await cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" })));
    await scope.skipWaiting();
  };
  event.waitUntil(keep());
});

scope.addEventListener("activate", (event) => {
  const clean = async () => {
    const names = await caches.keys();
    await Promise.all(
      names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)),
    );
    await scope.clients.claim();
  };
  event.waitUntil(clean());
});

const ours = new Set(FILES.map((file) => new URL(file, scope.registration.scope).href));

/** The page itself comes from the network when there is one, so that a new build shows at once. */
async function page(request: Request, kept: string): Promise<Response> {
  try {
    const fresh = await fetch(request);
    if (fresh.ok) return fresh;
  } catch {
    // No signal: the kept page answers.
  }
  return (await (await caches.open(CACHE)).match(kept)) ?? Response.error();
}

async function asset(request: Request): Promise<Response> {
  return (await (await caches.open(CACHE)).match(request, { ignoreSearch: true })) ?? fetch(request);
}

scope.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const url = new URL(request.url);
  const root = new URL("./", scope.registration.scope).href;
  if (request.mode === "navigate" && url.origin + url.pathname === root) event.respondWith(page(request, root));
  else if (ours.has(url.origin + url.pathname)) event.respondWith(asset(request));
});
