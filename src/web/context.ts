/** What every view may use beside the store: the core in its workers, and the session that loads and ranks. */
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Core } from "./core/client.ts";
import type { Session } from "./state/session.ts";

export interface Tools {
  readonly core: Core;
  readonly session: Session;
}

export const ToolsContext = createContext<Tools | null>(null);

export function useTools(): Tools {
  const tools = useContext(ToolsContext);
  if (tools === null) throw new Error("Views are drawn inside the page, which hands them their tools.");
  return tools;
}
