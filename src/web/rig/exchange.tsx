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
}

/** A rig from outside waits here until its reader takes it; one with errors may be taken and mended. */
export function Exchange({ draft }: { readonly draft: Draft }) {
  const { core } = useTools();
  const units = useStore((state) => state.kept.units);
  const [offered, setOffered] = useState<Offered | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [link, setLink] = useState<string | null>(null);
  const offer = async (reading: Promise<WireRig>, from: string) => {
    try {
      const rig = await reading;
      const check = await core.checkRig(rig, units);
      setSaid(
        check.ok
          ? null
          : `It has ${check.errors.length} ${check.errors.length === 1 ? "error" : "errors"}: ${check.errors[0]?.message}`,
      );
      setOffered({ rig, from });
    } catch (fault) {
      setOffered(null);
      setSaid(fault instanceof Error ? fault.message : String(fault));
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
  const take = (rig: WireRig) => {
    draft.edit(() => rig);
    setOffered(null);
    setSaid(null);
    if (sharedIn(location.hash) !== null) history.replaceState(null, "", "#/rig");
    announce("The rig was taken over.");
  };
  const leave = () => {
    setOffered(null);
    setSaid(null);
    if (sharedIn(location.hash) !== null) history.replaceState(null, "", "#/rig");
  };
  const open = (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file === undefined) return;
    const reading =
      file.size > MOST_BYTES
        ? Promise.reject(new Error("The file is larger than a rig can be."))
        : file.text().then(readRecord);
    void offer(reading, `the file ${file.name}`);
    input.value = "";
  };
  const share = async () => {
    const value = await encodeRig(draft.rig);
    if (value === null) {
      setSaid("This rig is too long for a link. Save it as a file instead.");
      return;
    }
    const address = `${location.origin}${location.pathname}${shareHash(value)}`;
    setLink(address);
    announce((await copyText(address)) ? "The link was copied." : "The link stands below.");
  };
  return (
    <section class="rig-exchange" aria-label="Files, links and examples">
      <div class="rig-tools">
        <label class="button rig-file">
          Open a file
          <input type="file" accept=".json,application/json" onChange={(event) => open(event.currentTarget)} />
        </label>
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
        <span class="rig-example">
          <label for="rig-example">Example</label>
          <select
            id="rig-example"
            value=""
            onChange={(event) =>
              exampleOf(event.currentTarget, (rig) => setOffered({ rig, from: "the examples, invented" }))
            }
          >
            <option value="">choose one</option>
            {EXAMPLES.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </span>
      </div>
      {link !== null && (
        <label class="rig-link">
          Link to this rig; it carries the rig itself
          <input type="text" readOnly value={link} onFocus={(event) => event.currentTarget.select()} />
        </label>
      )}
      {offered !== null && (
        <section class="panel rig-offer" aria-label="A rig to take over">
          <p>
            <strong>{typeof offered.rig["name"] === "string" ? offered.rig["name"] : "A rig without a name"}</strong>,
            from {offered.from}. It would replace the rig on this device.
          </p>
          {said !== null && <p class="field-error">{said}</p>}
          <div class="rig-tools">
            <button type="button" class="button strong" onClick={() => take(offered.rig)}>
              {said === null ? "Take it" : "Take it and mend it"}
            </button>
            <button type="button" class="button" onClick={leave}>
              Keep mine
            </button>
          </div>
        </section>
      )}
      {offered === null && said !== null && (
        <p class="trouble" role="alert">
          {said}
        </p>
      )}
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
