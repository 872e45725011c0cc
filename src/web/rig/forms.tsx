/** Sections of the rig's form: single fields, and lists whose entries are added and taken away. */
import { FieldInput, fieldId, remarksOn } from "./field-input.tsx";
import type { Field, ListForm } from "./fields.ts";
import { isByEye } from "./places.ts";
import type { Draft } from "./use-draft.ts";
import { listAt, pointerOf, valueAt, withEntry, withValue } from "./wire.ts";

interface SectionProps {
  readonly title: string;
  readonly fields: readonly Field[];
  readonly draft: Draft;
}

function Count({ draft, prefixes }: { readonly draft: Draft; readonly prefixes: readonly string[] }) {
  const errors = prefixes.flatMap((prefix) => remarksOn(draft.errors, prefix)).length;
  const asked = prefixes.flatMap((prefix) => remarksOn(draft.warnings, prefix)).length;
  return (
    <>
      {errors > 0 && <strong class="field-error"> {errors} to mend</strong>}
      {asked > 0 && <span class="field-asked"> {asked === 1 ? "1 question" : `${asked} questions`}</span>}
    </>
  );
}

export function FieldSection({ title, fields, draft }: SectionProps) {
  const given = fields.filter(({ path }) => valueAt(draft.rig, path) !== undefined).length;
  return (
    <details class="panel rig-section">
      <summary>
        <span class="rig-section-title">{title}</span>
        <span class="quiet">{given === 0 ? "nothing given" : `${given} given`}</span>
        <Count draft={draft} prefixes={fields.map(({ path }) => pointerOf(path))} />
      </summary>
      <div class="fields">
        {fields.map((field) => (
          <FieldInput key={pointerOf(field.path)} field={field} path={field.path} draft={draft} />
        ))}
      </div>
    </details>
  );
}

export function ListSection({ form, draft }: { readonly form: ListForm; readonly draft: Draft }) {
  const entries = listAt(draft.rig, form.key);
  const head = `/${form.key}`;
  const own = draft.errors.filter(
    ({ path }) => path === head || (/^\/[A-Za-z]+\/\d+$/.test(path) && path.startsWith(`${head}/`)),
  );
  const taken = entries.length === 0 ? draft.assumed.find(({ path }) => path === head) : undefined;
  const add = () => draft.edit((rig) => withEntry(rig, form.key, form.fresh));
  return (
    <details class="panel rig-section" data-list={form.key}>
      <summary>
        <span class="rig-section-title">{form.title}</span>
        <span class="quiet">{entries.length === 0 ? "none" : entries.length}</span>
        <Count draft={draft} prefixes={[head]} />
      </summary>
      {taken !== undefined && <p class="quiet">Without any: {taken.value}.</p>}
      {own.map(({ path, message }) => (
        <p key={path} class="field-error" id={fieldId(path)} tabIndex={-1}>
          {message}
        </p>
      ))}
      {entries.map((entry, index) => (
        <fieldset key={`${index} of ${entries.length}`} class="entry">
          <legend>{form.name(entry)}</legend>
          {form.key === "connections" && isByEye(draft.rig, `${head}/${index}`) && (
            <p class="quiet">
              Set on the drawing, so it counts as a place by eye. Type the tape's value to make it sharp.
            </p>
          )}
          <EntryFields form={form} entry={entry} index={index} draft={draft} />
          <button
            type="button"
            class="button"
            onClick={() => draft.edit((rig) => withValue(rig, [form.key, index], undefined))}
          >
            Take this {form.one} away
          </button>
        </fieldset>
      ))}
      <button type="button" class="button" onClick={add}>
        Add a {form.one}
      </button>
    </details>
  );
}

interface EntryProps {
  readonly form: ListForm;
  readonly entry: Readonly<Record<string, unknown>>;
  readonly index: number;
  readonly draft: Draft;
}

/** The fields of one entry; those that are seldom known wait folded, unless one of them has an error. */
function EntryFields({ form, entry, index, draft }: EntryProps) {
  const shown = form.fields.filter(
    (field) => field.when === undefined || field.when(entry) || valueAt(entry, field.path) !== undefined,
  );
  const isRare = (field: Field) => form.rare.includes(pointerOf(field.path));
  const inputs = (fields: readonly Field[]) => (
    <div class="fields">
      {fields.map((field) => (
        <FieldInput key={pointerOf(field.path)} field={field} path={[form.key, index, ...field.path]} draft={draft} />
      ))}
    </div>
  );
  const rare = shown.filter(isRare);
  const given = rare.filter((field) => valueAt(entry, field.path) !== undefined).length;
  const base = pointerOf([form.key, index]);
  const wrong = rare.some((field) => remarksOn(draft.errors, `${base}${pointerOf(field.path)}`).length > 0);
  return (
    <>
      {inputs(shown.filter((field) => !isRare(field)))}
      {rare.length > 0 && (
        <details class="more" open={wrong || undefined}>
          <summary>
            More <span class="quiet">{given === 0 ? "" : `${given} given`}</span>
          </summary>
          {inputs(rare)}
        </details>
      )}
    </>
  );
}
