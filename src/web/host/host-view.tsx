/** The views of hosts: the gate, the office, the records. All want a token of this sitting; the gate opens without signal. */
import "./host.css";
import { useEffect, useRef } from "preact/hooks";
import { useWatched } from "../desk/watched.ts";
import { hrefOf } from "../route.ts";
import { later } from "../shared/later.tsx";
import { keptCampground } from "../state/device.ts";
import { useStore } from "../state/store.ts";
import { HostRefusal, signIn, signInWords, sitting } from "./api.ts";
import { bookState, openBook, refreshBook, signOut } from "./book.ts";
import { recordText, timeZoneOf } from "./record-text.ts";
import { clockText } from "./words.ts";

const Gate = later(() => import("./gate/gate-view.tsx").then((module) => module.Gate));
const Office = later(() => import("./office/office-view.tsx").then((module) => module.Office));
const Records = later(() => import("./record/record-view.tsx").then((module) => module.Records));
const StayCard = later(() => import("./office/stay-card.tsx").then((module) => module.StayCard));

/** Milliseconds between two looks at the feed of changes. */
const LOOK_EVERY = 15_000;

const WAYS = [
  ["gate", "Gate"],
  ["office", "Office"],
  ["records", "Records"],
] as const;

const NAMES: Readonly<Record<string, string>> = { gate: "Gate", office: "Office", records: "Records", card: "Card" };

/** Reads the book and follows its changes. Nobody is asked for a token while the server is out of reach. */
function useBook(campground: string | null, token: string | null): void {
  const withoutServer = useStore((state) => state.withoutServer);
  const wanted = token !== null || withoutServer || !navigator.onLine;
  useEffect(() => {
    if (campground === null || !wanted) return;
    let gone = false;
    const begin = async () => {
      const text = (await keptCampground(campground))?.text ?? (await recordText(campground));
      if (!gone) await openBook(campground, text === null ? null : timeZoneOf(text));
    };
    void begin();
    const look = () => document.visibilityState === "visible" && void refreshBook();
    const timer = setInterval(look, LOOK_EVERY);
    addEventListener("online", look);
    return () => {
      gone = true;
      clearInterval(timer);
      removeEventListener("online", look);
    };
  }, [campground, token, wanted]);
}

/** The part before the tilde names the view, what follows it names a site or a stay by its id. */
export function HostView({ id }: { readonly id: string }) {
  const [part = "gate", ...rest] = id.split("~");
  const subject = rest.join("~");
  const opened = useStore((state) => state.opened);
  const trouble = useStore((state) => state.trouble);
  const { token } = useWatched(sitting);
  const { book, trouble: refused } = useWatched(bookState);
  useBook(opened?.id ?? null, token);
  const isOffline = refused instanceof HostRefusal && refused.isOffline;
  const isIn = book !== null && book.campground === opened?.id && (token !== null || isOffline);
  return (
    <article class="host" data-part={part} data-ready={isIn}>
      <header class="host-head">
        <div>
          <h1>{NAMES[part] ?? "Gate"}</h1>
          {opened !== null && <p class="quiet host-place">{opened.name}</p>}
        </div>
        <nav aria-label="For hosts">
          {WAYS.map(([way, name]) => (
            <a
              key={way}
              class="button"
              href={hrefOf({ view: "host", id: way })}
              aria-current={part === way ? "page" : undefined}
            >
              {name}
            </a>
          ))}
        </nav>
        {isIn && <ListState />}
      </header>
      {opened === null && trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {opened === null && trouble === null && <p class="quiet">Opening the campground.</p>}
      {opened !== null && !isIn && <SignIn name={opened.name} fault={token === null && !isOffline ? null : refused} />}
      {isIn && part === "office" && <Office />}
      {isIn && part === "records" && <Records site={subject} />}
      {isIn && part === "card" && <StayCard stay={subject} />}
      {isIn && !["office", "records", "card"].includes(part) && <Gate />}
    </article>
  );
}

function ListState() {
  const { book, isKept } = useWatched(bookState);
  const { token } = useWatched(sitting);
  if (book === null) return null;
  return (
    <p class={isKept ? "host-kept" : "quiet"} data-part="list-state" role="status">
      {isKept ? `No signal: the list of ${clockText(book.readAt)}.` : `List of ${clockText(book.readAt)}.`}{" "}
      {token !== null && (
        <button type="button" class="link" onClick={signOut}>
          Sign out
        </button>
      )}
    </p>
  );
}

function SignIn({ name, fault }: { readonly name: string; readonly fault: unknown }) {
  const { token, why } = useWatched(sitting);
  const field = useRef<HTMLInputElement>(null);
  if (token !== null && fault === null) {
    return (
      <p class="quiet" role="status">
        Reading the list.
      </p>
    );
  }
  const words = fault === null ? why : signInWords(fault, name);
  return (
    <form
      class="panel sign-in"
      onSubmit={(event) => {
        event.preventDefault();
        const text = field.current?.value.trim() ?? "";
        if (text === "") return;
        bookState.set({ trouble: null });
        signIn(text);
      }}
    >
      <h2>Sign in</h2>
      {words !== null && (
        <p class="trouble" role="alert">
          {words}
        </p>
      )}
      <label for="host-token">Token of this desk</label>
      <input ref={field} id="host-token" type="password" autocomplete="off" spellcheck={false} required />
      <button type="submit" class="button strong">
        Sign in
      </button>
      <p class="quiet">
        Kept until this tab is closed, and only in it. Tokens are made on the server with{" "}
        <code>padwright token create</code>.
      </p>
    </form>
  );
}
