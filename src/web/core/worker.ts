/** A worker that holds the core. It ranks site by site and hears new messages between two sites. */
import { z } from "zod";
import { Engine, Unanswerable } from "./engine.ts";
import { withFullCore } from "./full.ts";
import type { Exchange, FromWorker, Kind, SiteRow, ToWorker } from "./protocol.ts";

// The page's content security policy forbids code made from strings; the schemas must not try it.
z.config({ jitless: true });

interface Scope {
  postMessage(message: FromWorker): void;
  addEventListener(kind: "message", listener: (event: { readonly data: ToWorker }) => void): void;
}

const scope = self as unknown as Scope;
const engine = new Engine();
const stopped = new Set<number>();

/** Lets waiting messages in. A timer would be slowed down by the browser when it comes often. */
function nextTurn(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

type Ask<K extends Kind> = Exchange[K]["ask"];

async function rank(id: number, ask: Ask<"rank">): Promise<null> {
  for (const site of ask.sites) {
    await nextTurn();
    if (stopped.has(id)) break;
    const part: readonly SiteRow[] = [engine.row(ask, site)];
    scope.postMessage({ id, part });
  }
  stopped.delete(id);
  return null;
}

/** The quick answer first, the full one when nobody stopped it meanwhile. */
async function fitTwice(id: number, ask: Ask<"fit">): Promise<Exchange["fit"]["answer"]> {
  if (ask.changes.length > 0) await withFullCore();
  const quick = await engine.fit(ask, "summary");
  scope.postMessage({ id, part: quick });
  await withFullCore();
  await nextTurn();
  if (stopped.delete(id)) return quick;
  return engine.fit(ask, "full");
}

/** A desk or a trip: long work, told step by step. Its part of the core comes with the first question. */
async function plan(message: Extract<ToWorker, { kind: "desk" | "trip" }>): Promise<unknown> {
  const { id } = message;
  const [{ answerDesk, answerTrip }] = await Promise.all([import("./trips.ts"), withFullCore()]);
  const pace = {
    step: (part: unknown) => scope.postMessage({ id, part }),
    turn: nextTurn,
    stopped: () => stopped.delete(id),
  };
  return message.kind === "desk" ? answerDesk(message.ask, pace) : answerTrip(message.ask, pace);
}

async function answer(message: Exclude<ToWorker, { kind: "stop" }>): Promise<unknown> {
  switch (message.kind) {
    case "open":
      return engine.open(message.ask.text);
    case "load":
      engine.load(message.ask.text);
      return null;
    case "checkRig":
      return engine.checkRig(message.ask.rig, message.ask.units);
    case "rank":
      return rank(message.id, message.ask);
    case "fit":
      return fitTwice(message.id, message.ask);
    case "try":
      return engine.try(message.ask);
    case "wind":
      return withFullCore().then(() => engine.wind(message.ask));
    case "desk":
    case "trip":
      return plan(message);
  }
}

scope.addEventListener("message", ({ data }) => {
  if (data.kind === "stop") {
    stopped.add(data.id);
    return;
  }
  const { id } = data;
  answer(data).then(
    (result) => scope.postMessage({ id, answer: result }),
    (fault: unknown) => {
      const told = fault instanceof Error ? fault.message : String(fault);
      scope.postMessage({ id, fault: fault instanceof Unanswerable ? told : `This could not be worked out: ${told}` });
    },
  );
});
