/** A worker that holds the planner of the office; it begins with the first question about the plan. */
import { z } from "zod";
import { Planner } from "./planner.ts";
import type { FromPlanner, PlannerAsk, ToPlanner } from "./protocol.ts";

// The page's content security policy forbids code made from strings; the schemas must not try it.
z.config({ jitless: true });

interface Scope {
  postMessage(message: FromPlanner): void;
  addEventListener(kind: "message", listener: (event: { readonly data: ToPlanner }) => void): void;
}

const scope = self as unknown as Scope;
const planner = new Planner();
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function answer(id: number, ask: PlannerAsk): Promise<unknown> {
  const ports = { breathe, progress: (done: number) => scope.postMessage({ id, done }) };
  switch (ask.kind) {
    case "open":
      return planner.open(ask.text);
    case "edit":
      return planner.edit(ask.book, ask.edit, ports);
    case "warm":
      return planner.warm(ask.book, ask.until, ports);
    case "explain":
      return planner.explain(ask.book, ask.stay, ports);
  }
}

/** One question at a time, in the order in which they came. */
let last: Promise<unknown> = Promise.resolve();

scope.addEventListener("message", ({ data: { id, ask } }) => {
  last = last.then(() =>
    answer(id, ask).then(
      (told) => scope.postMessage({ id, answer: told }),
      (fault: unknown) => scope.postMessage({ id, fault: fault instanceof Error ? fault.message : String(fault) }),
    ),
  );
});
