/** Server-sent events (WHATWG HTML, section "Server-sent events"): progress, then the answer or a problem. */
import { Problem } from "../problem.ts";

const EVENT_STREAM = "text/event-stream";
/** Milliseconds between two reports of progress, at least. */
const BETWEEN = 250;

export interface Teller {
  readonly progress: (value: unknown) => void;
}

/**
 * Runs the work and streams what it tells. When the reader goes away, `stop` is called. A fault of the work becomes an
 * event `problem`, because the status of the response has been sent by then.
 */
export function streamed(
  clock: () => number,
  work: (teller: Teller) => Promise<unknown>,
  stop: () => void,
  report: (fault: unknown) => void,
): Response {
  const encoder = new TextEncoder();
  let told = Number.NEGATIVE_INFINITY;
  const body = new ReadableStream<Uint8Array>({
    async start(controller) {
      let isOpen = true;
      const send = (event: string, value: unknown) => {
        if (!isOpen) return;
        try {
          controller.enqueue(encoder.encode(`event: ${event}\ndata: ${JSON.stringify(value)}\n\n`));
        } catch {
          // The reader has gone: there is nobody to tell.
          isOpen = false;
        }
      };
      const progress = (value: unknown) => {
        if (clock() - told < BETWEEN) return;
        told = clock();
        send("progress", value);
      };
      try {
        send("answer", await work({ progress }));
      } catch (fault) {
        if (!(fault instanceof Problem)) report(fault);
        const problem = fault instanceof Problem ? fault : new Problem("internal-error", "Something broke here.");
        send("problem", { type: problem.code, detail: problem.message, errors: problem.errors });
      }
      if (isOpen) controller.close();
    },
    cancel: stop,
  });
  return new Response(body, {
    status: 200,
    headers: { "Content-Type": EVENT_STREAM, "Cache-Control": "no-store", "X-Accel-Buffering": "no" },
  });
}
