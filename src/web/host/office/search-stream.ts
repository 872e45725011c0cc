/** A plan proposed by the server: progress as it comes, then the plan. Leaving the stream stops the search. */
import type { ProposeProgress } from "../../../http/assignment/propose.ts";
import type { AssignmentAnswer } from "../../../http/assignment/run.ts";
import { type HostFault, HostRefusal, send } from "../api.ts";

export type Progress = ProposeProgress;
/** What of the server's answer the office reads. */
export type Proposed = Omit<AssignmentAnswer, "feeders" | "given"> & { readonly planVersion: number };

interface StreamProblem {
  readonly type: string;
  readonly detail: string;
  readonly errors: readonly HostFault[];
}

/** One event of a stream of server-sent events. */
function readEvent(block: string): { readonly event: string; readonly data: string } {
  const lines = block.split("\n");
  const field = (name: string) =>
    lines
      .filter((line) => line.startsWith(`${name}:`))
      .map((line) => line.slice(name.length + 1).replace(/^ /, ""))
      .join("\n");
  return { event: field("event"), data: field("data") };
}

/** Throws a HostRefusal for a problem, and what fetch throws when it was stopped. */
export async function propose(
  path: string,
  body: unknown,
  signal: AbortSignal,
  hear: (progress: Progress) => void,
): Promise<Proposed> {
  const response = await send(path, { method: "POST", body, signal, accept: "text/event-stream" });
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  let waiting = "";
  while (reader !== undefined) {
    const { done, value } = await reader.read();
    if (done) break;
    const blocks = (waiting + value).split("\n\n");
    waiting = blocks.pop() ?? "";
    for (const { event, data } of blocks.map(readEvent)) {
      if (event === "progress") hear(JSON.parse(data) as Progress);
      if (event === "answer") return JSON.parse(data) as Proposed;
      if (event === "problem") {
        const { type, detail, errors } = JSON.parse(data) as StreamProblem;
        throw new HostRefusal(response.status, type, detail, errors);
      }
    }
  }
  throw new HostRefusal(0, "broken-off", "The server broke off before it had a plan. Nothing was changed.");
}
