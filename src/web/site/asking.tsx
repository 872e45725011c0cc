/** What is not known: what to measure oneself, and a message to the campground that asks for the rest and nothing more. */
import { useRef, useState } from "preact/hooks";
import type { Fit } from "../../fit/answer.ts";
import type { Questions } from "../core/questions.ts";
import { hrefOf } from "../route.ts";
import { announce } from "../shared/announce.tsx";
import { useStore } from "../state/store.ts";

interface AskingProps {
  readonly fit: Fit;
  readonly questions: Questions;
}

/** The message: greeting, the questions by number, thanks. */
export function messageFor(campground: string, site: string, asks: readonly string[]): string {
  const list = asks.map((ask, index) => `${index + 1}. ${ask}`).join("\n");
  const which = asks.length === 1 ? "this one thing" : "these things";
  return `Hello,\n\nwe would like to stay at ${campground} on site ${site}. Could you please tell us ${which}, measured with a tape?\n\n${list}\n\nThank you!`;
}

export function Asking({ fit, questions }: AskingProps) {
  const campground = useStore((state) => state.opened?.name ?? "your campground");
  const { ofSite, ofRig } = questions;
  if (ofSite.length === 0 && ofRig.length === 0) return null;
  return (
    <section class="panel" aria-labelledby="asking-title">
      <h2 id="asking-title">Not known well enough</h2>
      {ofRig.length > 0 && (
        <>
          <h3>Measure on the rig</h3>
          <ul>
            {ofRig.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </>
      )}
      {ofSite.length > 0 && (
        <>
          <h3>Ask the campground</h3>
          <Message text={messageFor(campground, fit.site.name, ofSite)} />
          <p>
            <a href={hrefOf({ view: "measure", id: fit.site.id })}>Or walk round the pad with a tape</a>
          </p>
        </>
      )}
    </section>
  );
}

function Message({ text }: { readonly text: string }) {
  const box = useRef<HTMLTextAreaElement>(null);
  const [copied, setCopied] = useState(false);
  const copy = async () => {
    setCopied(await copyFrom(box.current, text));
  };
  return (
    <div class="message">
      <label for="message-text" class="unseen">
        Message to the campground
      </label>
      <textarea id="message-text" ref={box} readOnly rows={text.split("\n").length + 1} value={text} />
      <button type="button" class="button strong" onClick={copy}>
        {copied ? "Copied" : "Copy the message"}
      </button>
    </div>
  );
}

/** Copies by the browser's clipboard; where it grants none, the text is selected for the reader's own copying. */
async function copyFrom(box: HTMLTextAreaElement | null, text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    announce("The message is copied.");
    return true;
  } catch {
    box?.select();
    announce("The message is selected: copy it with your own keys.");
    return false;
  }
}
