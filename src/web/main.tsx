/** Starts the page. */
import { render } from "preact";
import { App } from "./app.tsx";
import { ToolsContext } from "./context.ts";
import { Core } from "./core/client.ts";
import { readKept } from "./state/device.ts";
import { Session } from "./state/session.ts";
import { openStore } from "./state/store.ts";
import "./styles/base.css";
import "./styles/frame.css";
import "./styles/parts.css";
import "./styles/sites.css";
import "./styles/print.css";

const core = new Core();
const store = openStore(readKept());
const session = new Session(store, core);
const root = document.getElementById("page");
if (root !== null) {
  render(
    <ToolsContext.Provider value={{ core, session }}>
      <App />
    </ToolsContext.Provider>,
    root,
  );
}
session.start();

// After the first drawing, so that keeping the page never slows down showing it.
if ("serviceWorker" in navigator) {
  addEventListener("load", () => {
    navigator.serviceWorker.register("./service-worker.js").catch((fault: unknown) => console.warn(fault));
  });
}
