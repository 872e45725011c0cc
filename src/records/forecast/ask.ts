/**
 * One question to a forecast host by an injected fetch: time-out, cap on the body, no redirects, JSON only, retries
 * with back-off, a circuit for each host. The host is fixed by the code; callers choose only a path made of numbers.
 */
import type { Circuit } from "./circuit.ts";
import { type ForecastProblemCode, ForecastRefusal, quoted } from "./refusal.ts";

export type Fetch = (address: string, init: RequestInit) => Promise<Response>;

export interface Clock {
  /** Milliseconds since 1970, UTC. */
  readonly now: () => number;
  readonly sleep: (milliseconds: number) => Promise<void>;
}

export interface AskLimits {
  /** Milliseconds for one attempt, its body included. */
  readonly timeout: number;
  readonly attempts: number;
  /** Milliseconds before the second attempt; twice as long before each further one. */
  readonly backOff: number;
  /** Bytes of a body. */
  readonly bytes: number;
}

export interface Asking {
  readonly fetch: Fetch;
  readonly clock: Clock;
  readonly limits: AskLimits;
  readonly circuit: Circuit;
}

export interface Question {
  readonly address: string;
  readonly headers: Readonly<Record<string, string>>;
  /** Bytes of the body, where more than usual is expected. */
  readonly bytes?: number;
}

export interface Reply {
  /** Null when the host says that nothing has changed. */
  readonly json: unknown;
  readonly unchanged: boolean;
  readonly lastModified: string | null;
}

const STATUS = { unchanged: 304, notFound: 404, tooMany: 429, redirects: 300, refused: 400, failing: 500 } as const;
const MILLISECONDS_PER_SECOND = 1000;
/** A host that asks for a longer wait than this is not waited for. */
const LONGEST_WAIT = 5000;
/** Faults that another attempt may mend. */
const PASSING: ReadonlySet<ForecastProblemCode> = new Set([
  "timed-out",
  "unreachable",
  "service-failing",
  "rate-limited",
]);

/** Asks until there is an answer or the attempts are used up. Throws ForecastRefusal. */
export async function ask(question: Question, asking: Asking): Promise<Reply> {
  const { clock, limits, circuit } = asking;
  for (let attempt = 1; ; attempt += 1) {
    if (!circuit.allows(clock.now())) {
      throw new ForecastRefusal(
        "circuit-open",
        "The forecast host failed several times and is left alone for a while.",
      );
    }
    try {
      const reply = await attemptOnce(question, asking);
      circuit.succeeded();
      return reply;
    } catch (error) {
      const fault = asFault(error);
      if (fault.counts) circuit.failed(clock.now());
      else circuit.succeeded();
      const again = PASSING.has(fault.refusal.code) && attempt < limits.attempts && fault.wait <= LONGEST_WAIT;
      if (!again) throw fault.refusal;
      await clock.sleep(Math.max(fault.wait, limits.backOff * 2 ** (attempt - 1)));
    }
  }
}

interface Fault {
  readonly refusal: ForecastRefusal;
  /** Milliseconds that the host asks to wait. */
  readonly wait: number;
  /** True when it speaks against the host's health: a host that refuses a question is well. */
  readonly counts: boolean;
}

class WaitFor extends ForecastRefusal {
  readonly wait: number;
  constructor(wait: number) {
    super("rate-limited", "The forecast host asks for fewer questions.");
    this.wait = wait;
  }
}

function asFault(error: unknown): Fault {
  if (!(error instanceof ForecastRefusal)) {
    const refusal = new ForecastRefusal("unreachable", "The forecast host cannot be reached.");
    return { refusal, wait: 0, counts: true };
  }
  const wait = error instanceof WaitFor ? error.wait : 0;
  return { refusal: error, wait, counts: error.code !== "refused-by-service" && error.code !== "not-covered" };
}

async function attemptOnce(question: Question, { fetch, limits }: Asking): Promise<Reply> {
  const controller = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      reject(new ForecastRefusal("timed-out", "The forecast host does not answer in time."));
      controller.abort();
    }, limits.timeout);
  });
  try {
    return await Promise.race([late, converse(question, fetch, controller.signal, limits)]);
  } finally {
    clearTimeout(timer);
    controller.abort();
  }
}

async function converse(question: Question, fetch: Fetch, signal: AbortSignal, limits: AskLimits): Promise<Reply> {
  const init: RequestInit = { headers: question.headers, redirect: "manual", signal };
  const response = await fetch(question.address, init);
  const { status } = response;
  const lastModified = response.headers.get("last-modified");
  if (status === STATUS.unchanged) return { json: null, unchanged: true, lastModified };
  if (status === 0 || (status >= STATUS.redirects && status < STATUS.refused)) {
    throw new ForecastRefusal("redirected", "The forecast host points elsewhere; that is not followed.");
  }
  if (status === STATUS.tooMany) throw new WaitFor(waitOf(response.headers.get("retry-after")));
  if (status >= STATUS.failing) {
    throw new ForecastRefusal("service-failing", `The forecast host fails with status ${status}.`);
  }
  const text = await bodyText(response, question.bytes ?? limits.bytes);
  if (status >= STATUS.refused) throw refusedBy(status, text);
  if (!/\bjson\b/i.test(response.headers.get("content-type") ?? "")) {
    throw new ForecastRefusal("not-json", "The forecast host answers with something that is no JSON.");
  }
  return { json: parsed(text), unchanged: false, lastModified };
}

/** Seconds as digits; a date or anything else counts as too long. */
function waitOf(header: string | null): number {
  if (header === null) return 0;
  return /^\d{1,6}$/.test(header) ? Number(header) * MILLISECONDS_PER_SECOND : Number.POSITIVE_INFINITY;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new ForecastRefusal("not-json", "The forecast host answers with broken JSON.");
  }
}

/** What the service says about a question that it refuses, cut short. */
function refusedBy(status: number, text: string): ForecastRefusal {
  if (status === STATUS.notFound) return new ForecastRefusal("not-covered", "The forecast does not cover this place.");
  let reason = "";
  try {
    const body: unknown = JSON.parse(text);
    const said = (body as { reason?: unknown; detail?: unknown } | null) ?? {};
    reason = [said.reason, said.detail].find((one) => typeof one === "string") ?? "";
  } catch {
    // A page in another form says nothing worth repeating.
  }
  const because = reason === "" ? "" : `: ${quoted(reason)}`;
  return new ForecastRefusal("refused-by-service", `The forecast host refuses with status ${status}${because}.`);
}

/** The body as text, read piece by piece so that an endless one is left in time. */
async function bodyText(response: Response, most: number): Promise<string> {
  const tooLarge = () => new ForecastRefusal("too-large", `The forecast's reply is larger than ${most} bytes.`);
  if (Number(response.headers.get("content-length") ?? 0) > most) throw tooLarge();
  if (response.body === null) return "";
  const reader = response.body.getReader();
  const decoder = new TextDecoder();
  let size = 0;
  let text = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return text + decoder.decode();
    size += value.byteLength;
    if (size > most) {
      // The connection is dropped by the abort that follows; nobody waits for the host here.
      void reader.cancel().catch(() => undefined);
      throw tooLarge();
    }
    text += decoder.decode(value, { stream: true });
  }
}
