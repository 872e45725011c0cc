/** The rig as a file and as a link, in and out; example rigs. */
import { useEffect, useState } from "preact/hooks";
import bigCoach from "../../../data/demo/rigs/big-coach.json" with { type: "json" };
import longTrailer from "../../../data/demo/rigs/long-trailer.json" with { type: "json" };
import rentalCoach from "../../../data/demo/rigs/rental-coach.json" with { type: "json" };
import smallCoach from "../../../data/demo/rigs/small-coach.json" with { type: "json" };
import truckCamper from "../../../data/demo/rigs/truck-camper.json" with { type: "json" };
import vanCamper from "../../../data/demo/rigs/van-camper.json" with { type: "json" };
import { useTools } from "../context.ts";
import { announce } from "../shared/announce.tsx";
import { copyText, saveText } from "../shared/hand-over.ts";
import { useStore, type WireRig } from "../state/store.ts";
import { decodeRig, encodeRig, MOST_BYTES, readRecord, sharedIn, shareHash } from "./share.ts";
import type { Draft } from "./use-draft.ts";

const EXAMPLES: readonly (WireRig & { readonly id: string; readonly name: string })[] = [
  rentalCoach,
  smallCoach,
  bigCoach,
  longTrailer,
  truckCamper,
  vanCamper,
];

interface Offered {
  readonly rig: WireRig;
  readonly from: string;
  /** What is wrong with it, in words; null when it can be read. */
  readonly wrong: string | null;
}

/** A rig from outside waits here until its reader takes it; one with errors may be taken and mended. */
function useOffers(draft: Draft) {
  const { core } = useTools();
  const units = useStore((state) => state.kept.units);
  const [offered, setOffered] = useState<Offered | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const offer = async (reading: Promise<WireRig>, from: string) => {
    setTrouble(null);
    try {
      const rig = await reading;
      const check = await core.checkRig(rig, units);
      const count = check.ok ? 0 : check.errors.length;
      const wrong = check.ok
        ? null
        : `It has ${count} ${count === 1 ? "error" : "errors"}: ${check.errors[0]?.message}`;
      setOffered({ rig, from, wrong });
    } catch (fault) {
      setOffered(null);
      setTrouble(fault instanceof Error ? fault.message : String(fault));
    }
  };
  useEffect(() => {
    const hear = () => {
      const shared = sharedIn(location.hash);
      if (shared !== null) void offer(decodeRig(shared), "a link");
    };
    hear();
    addEventListener("hashchange", hear);
    return () => removeEventListener("hashchange", hear);
  }, []);
  const leave = () => {
    setOffered(null);
    if (sharedIn(location.hash) !== null) history.replaceState(null, "", "#/rig");
  };
  const take = (rig: WireRig) => {
    draft.edit(() => rig);
    leave();
    announce("The rig was taken over.");
  };
  return { offered, trouble, offer, leave, take, setTrouble };
}

export function Exchange({ draft }: { readonly draft: Draft }) {
  const { offered, trouble, offer, leave, take, setTrouble } = useOffers(draft);
  const [link, setLink] = useState<string | null>(null);
  const share = async () => {
    const value = await encodeRig(draft.rig);
    if (value === null) {
      setTrouble("This rig is too long for a link. Save it as a file instead.");
      return;
    }
    const address = `${location.origin}${location.pathname}${shareHash(value)}`;
    setLink(address);
    announce((await copyText(address)) ? "The link was copied." : "The link stands below.");
  };
  return (
    <section class="rig-exchange" aria-label="Files, links and examples">
      <div class="rig-tools">
        <OpenFile onFile={offer} />
        <button
          type="button"
          class="button"
          onClick={() =>
            saveText(`${fileName(draft.rig)}.json`, "application/json", `${JSON.stringify(draft.rig, null, 2)}\n`)
          }
        >
          Save as a file
        </button>
        <button type="button" class="button" onClick={share}>
          Share as a link
        </button>
        <Examples onChoose={(rig) => void offer(Promise.resolve(rig), "the examples, invented")} />
      </div>
      {link !== null && (
        <label class="rig-link">
          Link to this rig; it carries the rig itself
          <input type="text" readOnly value={link} onFocus={(event) => event.currentTarget.select()} />
        </label>
      )}
      {offered !== null && <Offer offered={offered} onTake={take} onLeave={leave} />}
      {trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
    </section>
  );
}

function OpenFile({ onFile }: { readonly onFile: (reading: Promise<WireRig>, from: string) => Promise<void> }) {
  const open = (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file === undefined) return;
    const reading =
      file.size > MOST_BYTES
        ? Promise.reject(new Error("The file is larger than a rig can be."))
        : file.text().then(readRecord);
    void onFile(reading, `the file ${file.name}`);
    input.value = "";
  };
  return (
    <label class="button rig-file">
      Open a file
      <input type="file" accept=".json,application/json" onChange={(event) => open(event.currentTarget)} />
    </label>
  );
}

function Examples({ onChoose }: { readonly onChoose: (rig: WireRig) => void }) {
  return (
    <span class="rig-example">
      <label for="rig-example">Example</label>
      <select id="rig-example" value="" onChange={(event) => exampleOf(event.currentTarget, onChoose)}>
        <option value="">choose one</option>
        {EXAMPLES.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </span>
  );
}

interface OfferProps {
  readonly offered: Offered;
  readonly onTake: (rig: WireRig) => void;
  readonly onLeave: () => void;
}

function Offer({ offered: { rig, from, wrong }, onTake, onLeave }: OfferProps) {
  return (
    <section class="panel rig-offer" aria-label="A rig to take over">
      <p>
        <strong>{typeof rig["name"] === "string" ? rig["name"] : "A rig without a name"}</strong>, from {from}. It would
        replace the rig on this device.
      </p>
      {wrong !== null && <p class="field-error">{wrong}</p>}
      <div class="rig-tools">
        <button type="button" class="button strong" onClick={() => onTake(rig)}>
          {wrong === null ? "Take it" : "Take it and mend it"}
        </button>
        <button type="button" class="button" onClick={onLeave}>
          Keep mine
        </button>
      </div>
    </section>
  );
}

function exampleOf(select: HTMLSelectElement, then: (rig: WireRig) => void): void {
  const found = EXAMPLES.find(({ id }) => id === select.value);
  select.value = "";
  if (found !== undefined) then(found);
}

const LONGEST_NAME = 40;

function fileName(rig: WireRig): string {
  const name = typeof rig["id"] === "string" ? rig["id"] : typeof rig["name"] === "string" ? rig["name"] : "rig";
  return (
    name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "")
      .slice(0, LONGEST_NAME) || "rig"
  );
}
