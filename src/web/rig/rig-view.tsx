/** The rig: four numbers to start from, everything else when it is known, and a drawing that follows. */
import "./rig.css";
import { useStore } from "../state/store.ts";
import { Drawing } from "./drawing.tsx";
import { Exchange } from "./exchange.tsx";
import { FieldInput, fieldId } from "./field-input.tsx";
import {
  BODY,
  type Field,
  GENERATOR,
  LISTS,
  POWER_CORD,
  POWER_PLUG,
  SEWER_HOSE,
  START,
  TANKS,
  TOWING,
} from "./fields.ts";
import { FieldSection, ListSection } from "./forms.tsx";
import { asAwnings, asConnection, type ShortKey, startPaths } from "./short-forms.ts";
import { type Draft, useDraft } from "./use-draft.ts";
import { type Path, pointerOf } from "./wire.ts";

export function RigView() {
  const draft = useDraft();
  const trouble = useStore((state) => state.trouble);
  return (
    <div class="rig">
      <div class="rig-head">
        <h1>{typeof draft.rig["name"] === "string" && draft.rig["name"] !== "" ? draft.rig["name"] : "Your rig"}</h1>
        <p class="quiet">
          Kept on this device alone. Write any unit that you have at hand: 25 ft, 11' 2", 7.6 m. What you leave out is
          taken from the kind of rig, as a range, and the answers say so.
        </p>
      </div>
      <Exchange draft={draft} />
      <Summary draft={draft} />
      <Start draft={draft} />
      <section class="panel rig-picture" aria-label="Drawing">
        {draft.completed === null ? (
          <p class="quiet">
            {trouble ?? "The drawing appears as soon as the kind of rig, its length and its height can be read."}
          </p>
        ) : (
          <Drawing draft={draft} rig={draft.completed} />
        )}
      </section>
      <section class="rig-rest" aria-label="Everything else">
        <h2>Everything else</h2>
        <FieldSection title="Body" fields={BODY} draft={draft} />
        <ShortForms draft={draft} />
        {LISTS.map((form) => (
          <ListSection key={form.key} form={form} draft={draft} />
        ))}
        <FieldSection title="Tanks" fields={TANKS} draft={draft} />
        <FieldSection title="Generator" fields={GENERATOR} draft={draft} />
        <FieldSection title="Towing" fields={TOWING} draft={draft} />
      </section>
    </div>
  );
}

function Start({ draft }: { readonly draft: Draft }) {
  const paths = startPaths(draft.rig);
  const fields: readonly { readonly field: Field; readonly path: Path }[] = [
    ...START.map((field) => ({ field, path: field.path })),
    { field: POWER_PLUG, path: paths.plug },
    { field: POWER_CORD, path: paths.cord },
    { field: SEWER_HOSE, path: paths.hose },
  ];
  return (
    <section class="panel rig-start">
      <h2>Start here</h2>
      <div class="fields">
        {fields.map(({ field, path }) => (
          <FieldInput key={pointerOf(path)} field={field} path={path} draft={draft} />
        ))}
      </div>
    </section>
  );
}

/** Goes to a field from the list of errors, and opens the section in which it stands. */
function goToField(pointer: string): void {
  const parts = pointer.split("/");
  for (let count = parts.length; count > 1; count -= 1) {
    const element = document.getElementById(fieldId(parts.slice(0, count).join("/")));
    if (element === null) continue;
    for (let fold = element.closest("details"); fold !== null; fold = fold.parentElement?.closest("details") ?? null) {
      fold.open = true;
    }
    element.focus();
    return;
  }
}

function Summary({ draft }: { readonly draft: Draft }) {
  if (draft.errors.length === 0) return null;
  return (
    <section class="trouble rig-errors" role="alert">
      <p>
        <strong>{draft.errors.length === 1 ? "One thing to mend" : `${draft.errors.length} things to mend`}</strong>.
        Until then the answers stay with the rig as it was.
      </p>
      <ul>
        {draft.errors.map(({ path, message }) => (
          <li key={`${path} ${message}`}>
            <button type="button" class="link" onClick={() => goToField(path)}>
              {path === "" ? "The record" : path.slice(1).replaceAll("/", " › ")}
            </button>
            : {message}
          </li>
        ))}
      </ul>
    </section>
  );
}

const SHORT_NAMES: readonly { readonly key: ShortKey; readonly name: string }[] = [
  { key: "power", name: "power inlet" },
  { key: "waterHose", name: "water connection" },
  { key: "sewerHose", name: "drain outlet" },
  { key: "cableCord", name: "television connection" },
];

/** Offers to give what is said in short a place of its own. */
function ShortForms({ draft }: { readonly draft: Draft }) {
  const found = SHORT_NAMES.filter(({ key }) => draft.rig[key] !== undefined);
  const awning = draft.rig["awning"] !== undefined;
  if (found.length === 0 && !awning) return null;
  const wallOf = (pointer: string) => draft.completed?.connections.find(({ path }) => path === pointer)?.wall ?? "left";
  return (
    <div class="panel rig-short">
      <p class="quiet">Said in short, so its place is only taken from the kind of rig. Drag it on the drawing, or:</p>
      <div class="rig-tools">
        {found.map(({ key, name }) => (
          <button
            key={key}
            type="button"
            class="button"
            onClick={() => draft.edit((rig) => asConnection(rig, key, wallOf(`/${key}`)))}
          >
            Give the {name} a place
          </button>
        ))}
        {awning && (
          <button
            type="button"
            class="button"
            onClick={() => draft.edit((rig) => asAwnings(rig, draft.completed?.awnings[0]?.wall ?? "right"))}
          >
            Give the awning a place
          </button>
        )}
      </div>
    </div>
  );
}
