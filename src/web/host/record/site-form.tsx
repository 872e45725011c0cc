/** The record of one site: its members, its pad from above, what was measured, and the writing. */
import { useState } from "preact/hooks";
import type { CampgroundFeature } from "../../../site/feature.ts";
import { formatLength } from "../../../units/print.ts";
import type { OpenedCampground, SiteCard } from "../../core/protocol.ts";
import { isMeasured, keepMeasured, measuredOf } from "../../measure/measured.ts";
import { withRecord } from "../../measure/overlay.ts";
import { hrefOf } from "../../route.ts";
import { announce } from "../../shared/announce.tsx";
import { plural } from "../../shared/words.ts";
import { type Units, useStore } from "../../state/store.ts";
import { Conflict } from "./conflict.tsx";
import { ChoiceField, LengthField, WordField } from "./fields.tsx";
import { changesBetween, type Json, pathText, valueAt } from "./merge.ts";
import { hookupsIn, PadMap } from "./pad-map.tsx";
import { type RecordDesk, useRecord, type Written } from "./use-record.ts";

const YES_NO = [
  ["yes", "yes"],
  ["no", "no"],
] as const;
const LAYOUTS = [
  ["back-in", "back-in"],
  ["pull-through", "pull-through"],
  ["parallel", "parallel"],
] as const;
const STATES = [
  ["working", "working"],
  ["failed", "failed"],
  ["taken", "taken"],
] as const;

interface SiteFormProps {
  readonly opened: OpenedCampground;
  readonly card: SiteCard;
}

export function SiteForm({ opened, card }: SiteFormProps) {
  const [taken, setTaken] = useState(false);
  const desk = useRecord(opened.id, card.id, () => {
    // What was measured is the record now; the device need not lay it over any more.
    if (taken) keepMeasured(opened.id, card.id, null);
    setTaken(false);
    announce("The record is written.");
  });
  const { loaded, draft, theirs, busy, told, trouble } = desk;
  if (loaded === null || draft === null) {
    return trouble === null ? <p class="quiet">Reading the record.</p> : <p class="trouble">{trouble}</p>;
  }
  const changes = changesBetween(loaded.base, draft);
  const count = changes.length;
  const takeMeasured = () => {
    const measured = measuredOf(opened.id, card.id);
    if (measured === null) return;
    desk.change(withRecord(draft as unknown as CampgroundFeature, measured) as unknown as Json);
    setTaken(true);
  };
  return (
    <section class="record-site" aria-label={card.name} data-site={card.id} data-changes={count}>
      <h2>{card.name}</h2>
      {isMeasured(opened.id, card.id) && !taken && (
        <p class="record-measured">
          This site was measured on this device.{" "}
          <button type="button" class="button" onClick={takeMeasured}>
            Take over what was measured
          </button>
        </p>
      )}
      <Members desk={desk} card={card} draft={draft} />
      <PadMap draft={draft} size={card} onChange={desk.change} />
      <Hookups draft={draft} onChange={desk.change} />
      <p>
        <a class="button" href={hrefOf({ view: "measure", id: card.id })}>
          Measure it with a tape
        </a>
      </p>
      {count > 0 && <Changes changes={changes} />}
      {trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      {theirs !== null && (
        <Conflict
          base={loaded.base}
          mine={draft}
          theirs={theirs.base}
          busy={busy}
          onSettle={desk.settle}
          onDrop={desk.reload}
        />
      )}
      {told !== null && <Told told={told} />}
      <div class="record-tools">
        <button
          type="button"
          class="button strong"
          disabled={busy || count === 0 || theirs !== null}
          onClick={desk.write}
        >
          Write the record
        </button>
        <button type="button" class="button" disabled={busy || count === 0 || theirs !== null} onClick={desk.preview}>
          See what it changes
        </button>
        <button type="button" class="button" disabled={busy || count === 0} onClick={desk.reload}>
          Take it back
        </button>
      </div>
    </section>
  );
}

function Changes({ changes }: { readonly changes: ReturnType<typeof changesBetween> }) {
  return (
    <details class="record-changes">
      <summary>{plural(changes.length, "change")} not written yet</summary>
      <ul>
        {changes.map(({ path, before, after }) => (
          <li key={pathText(path)}>
            {pathText(path)}: {JSON.stringify(before) ?? "nothing"} becomes {JSON.stringify(after) ?? "nothing"}
          </li>
        ))}
      </ul>
    </details>
  );
}

interface MembersProps {
  readonly desk: RecordDesk;
  readonly card: SiteCard;
  readonly draft: Json;
}

function Members({ desk, card, draft }: MembersProps) {
  const field = (...path: readonly string[]) => ({ draft, path: ["properties", ...path], onChange: desk.change });
  const units = useStore((state) => state.kept.units);
  const pattern = valueAt(draft, ["properties", "pattern"]);
  return (
    <div class="record-fields">
      {typeof pattern === "string" && (
        <p class="quiet">
          What is empty here comes from the shared drawing "{pattern}". What is filled in counts for this site alone.
        </p>
      )}
      <WordField {...field("name")} label="Name" />
      <ChoiceField {...field("layout")} label="Layout" choices={LAYOUTS} />
      <LengthField {...field("pad", "length")} label="Pad length" hint={sizeHint(card.length, units)} />
      <LengthField {...field("pad", "width")} label="Pad width" hint={sizeHint(card.width, units)} />
      <ChoiceField {...field("services", "power")} label="Power" choices={YES_NO} />
      <ChoiceField {...field("services", "water")} label="Water" choices={YES_NO} />
      <ChoiceField {...field("services", "sewer")} label="Sewer" choices={YES_NO} />
      <ChoiceField {...field("accessible")} label="Accessible" choices={YES_NO} />
      <WordField {...field("shade")} label="Shade" />
      <WordField {...field("closed")} label="Closed, and why" hint="open" />
    </div>
  );
}

const sizeHint = (metres: number | null, units: Units): string | undefined =>
  metres === null ? undefined : `drawing: ${formatLength(metres, units)}`;

interface HookupsProps {
  readonly draft: Json;
  readonly onChange: (draft: Json) => void;
}

function Hookups({ draft, onChange }: HookupsProps) {
  const hookups = hookupsIn(draft);
  if (hookups.length === 0) return <p class="quiet">This site has no hookups of its own on record.</p>;
  return (
    <div class="record-hookups">
      {hookups.map((hookup) => {
        const id = String(valueAt(hookup, ["id"]) ?? "");
        const receptacles = valueAt(hookup, ["receptacles"]);
        const field = (...path: readonly string[]) => ({
          draft,
          path: ["properties", "hookups", `#${id}`, ...path],
          onChange,
        });
        return (
          <fieldset key={id} class="record-hookup">
            <legend>
              {String(valueAt(hookup, ["service"]))} ({id})
            </legend>
            <LengthField {...field("at", "along")} label="From the rear edge" />
            <LengthField {...field("at", "left")} label="Left of the middle" hint="minus: right" />
            <LengthField {...field("at", "height")} label="Height" />
            {(Array.isArray(receptacles) ? receptacles : []).map((one: Json) => {
              const name = String(valueAt(one, ["id"]));
              return (
                <ChoiceField
                  key={name}
                  {...field("receptacles", `#${name}`, "state")}
                  label={`Receptacle ${name}`}
                  choices={STATES}
                />
              );
            })}
          </fieldset>
        );
      })}
    </div>
  );
}

function Told({ told: { written, fits, warnings } }: { readonly told: Written }) {
  return (
    <div class="panel record-told" role="status" data-part="told" data-written={written}>
      <p>
        <strong>{written ? "The record is written." : "Nothing is written yet."}</strong>{" "}
        {fits.changed.length === 0
          ? `No verdict of a stay changes (${fits.compared} looked at).`
          : `${plural(fits.changed.length, "stay")}: the verdict ${written ? "has changed" : "would change"}.`}
        {fits.notCompared > 0 && ` ${fits.notCompared} were not looked at.`}
      </p>
      {fits.changed.length > 0 && (
        <ul>
          {fits.changed.map(({ stay, before, after }) => (
            <li key={stay}>
              {stay}: {before?.verdict ?? "no answer"} becomes {after?.verdict ?? "no answer"}
              {after !== null && `. ${after.headline}`}
            </li>
          ))}
        </ul>
      )}
      {warnings.map((one) => (
        <p key={one.text ?? one.message}>{one.text ?? one.message}</p>
      ))}
    </div>
  );
}
