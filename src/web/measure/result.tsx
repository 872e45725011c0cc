/** What the walk gives: a record to download, to copy, or to use in this page's answers. */
import { useState } from "preact/hooks";
import { useTools } from "../context.ts";
import { hrefOf } from "../route.ts";
import { announce } from "../shared/announce.tsx";
import { copyText, saveText } from "../shared/hand-over.ts";
import { isMeasured, keepMeasured } from "./measured.ts";
import { recordOf } from "./record.ts";
import type { Solved } from "./solve-walk.ts";
import type { WalkState } from "./use-walk.ts";
import { labelOf } from "./walk.ts";

interface ResultProps {
  readonly state: WalkState;
  readonly solved: Solved;
  readonly campground: string;
  readonly site: string;
  readonly name: string;
}

const DAY_LENGTH = "2026-05-17".length;
const today = (): string => new Date().toISOString().slice(0, DAY_LENGTH);

export function Result({ state, solved, campground, site, name }: ResultProps) {
  const { session } = useTools();
  const [used, setUsed] = useState(() => isMeasured(campground, site));
  const [said, setSaid] = useState<string | null>(null);
  const { walk } = state;
  const ready = solved.places.length > 0;
  const made = () => recordOf(walk, solved, { site, name, day: today() });
  const text = () => `${JSON.stringify(made(), null, 2)}\n`;
  const tell = (words: string) => {
    setSaid(words);
    announce(words);
  };
  const use = async (feature: ReturnType<typeof made> | null) => {
    if (!keepMeasured(campground, site, feature)) {
      tell("This device keeps nothing for the page, so the record cannot be used here. Download it instead.");
      return;
    }
    setUsed(feature !== null);
    await session.openById(campground);
    tell(
      feature === null ? "The recorded places are used again." : "The measured places are used in this page's answers.",
    );
  };
  const copy = async () =>
    tell(
      (await copyText(text()))
        ? "The record was copied."
        : "This browser does not let the page copy. Download it instead.",
    );
  return (
    <section class="panel measure-result" aria-label="Result">
      <h2>Result</h2>
      {ready ? (
        <p>
          Fixed: {solved.places.map(({ id }) => labelOf(walk, id)).join(", ")}. What is not fixed yet is left out of the
          record; every reading stays in it as typed.
        </p>
      ) : (
        <p class="quiet">As soon as one mark is fixed it can be used here, downloaded or copied.</p>
      )}
      <div class="measure-tools">
        <button type="button" class="button strong big" disabled={!ready} onClick={() => use(made())}>
          Use in this page
        </button>
        <button
          type="button"
          class="button big"
          disabled={!ready}
          onClick={() => saveText(`${site}.geojson`, "application/geo+json", text())}
        >
          Download the record
        </button>
        <button type="button" class="button big" disabled={!ready} onClick={copy}>
          Copy the record
        </button>
      </div>
      {said !== null && <p data-part="measure-said">{said}</p>}
      {used && (
        <p>
          The measured places of this site are in use on this device.{" "}
          <a href={hrefOf({ view: "site", id: site })}>See the answer</a>,{" "}
          <a href={hrefOf({ view: "host", id: `records~${site}` })}>write them into the record</a> as a host, or{" "}
          <button type="button" class="link" onClick={() => use(null)}>
            go back to the recorded ones
          </button>
          .
        </p>
      )}
    </section>
  );
}
