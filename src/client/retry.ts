/** Tries again what may be tried again: after the time that the service names, else after a longer and longer wait. */
import { PadwrightUnreachable, retryAfter } from "./problem.ts";

export interface RetryOptions {
  /** Further tries after the first; default 3. */
  readonly retries?: number;
  /** Milliseconds of the first wait, doubled with every try; default 500. */
  readonly firstWait?: number;
  /** Longest wait in milliseconds; whoever is told to wait longer is told so at once. Default 60 000. */
  readonly longestWait?: number;
  /** Waits; for tests, and for schedulers of one's own. */
  readonly sleep?: (milliseconds: number) => Promise<void>;
}

type Fetch = (request: Request) => Promise<Response>;

const DEFAULTS = { retries: 3, firstWait: 500, longestWait: 60_000 };
const MILLISECONDS = 1000;
const TOO_MANY = 429;
const BAD_GATEWAY = 502;
const UNAVAILABLE = 503;
const GATEWAY_TIMEOUT = 504;

/** Questions that change nothing, whatever their method. */
const QUESTIONS = /\/v1\/(fit|fit\/batch|search|wind|trips|desk)$/;

/** Whether the same request a second time does no more than the first did. */
function mayRepeat(request: Request): boolean {
  if (request.method === "GET" || request.method === "HEAD") return true;
  return request.headers.has("idempotency-key") || QUESTIONS.test(new URL(request.url).pathname);
}

export function retrying(fetchOne: Fetch, options: RetryOptions): Fetch {
  const { retries, firstWait, longestWait } = { ...DEFAULTS, ...options };
  const sleep = options.sleep ?? ((milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)));

  return async (request) => {
    request.signal.throwIfAborted();
    for (let attempt = 0; ; attempt += 1) {
      const last = attempt >= retries;
      // A little of chance keeps many callers from coming back at the same moment.
      const backOff = firstWait * 2 ** attempt * (1 + Math.random() / 2);
      let wait: number;
      try {
        const response = await fetchOne(request.clone());
        const told = retryAfter(response.headers, Date.now());
        wait = told === null ? backOff : told * MILLISECONDS;
        if (last || wait > longestWait || !isWorthAnotherTry(response.status, request)) return response;
        await response.body?.cancel();
      } catch (cause) {
        // Whoever gave up does not want another try.
        if (request.signal.aborted) throw cause;
        if (last || !mayRepeat(request)) throw new PadwrightUnreachable("The service gave no answer.", { cause });
        wait = backOff;
      }
      await sleep(Math.min(wait, longestWait));
      request.signal.throwIfAborted();
    }
  };
}

function isWorthAnotherTry(status: number, request: Request): boolean {
  // Nothing was done yet.
  if (status === TOO_MANY || status === UNAVAILABLE) return true;
  return (status === BAD_GATEWAY || status === GATEWAY_TIMEOUT) && mayRepeat(request);
}
