/** One field of the form: label, input, what is wrong with it, what is asked about it, what is taken without it. */
import { useEffect, useRef, useState } from "preact/hooks";
import { useStore } from "../state/store.ts";
import type { Field } from "./fields.ts";
import { typed } from "./places.ts";
import { reads, textOf, wireOf } from "./quantity-text.ts";
import type { Draft } from "./use-draft.ts";
import { type Path, pointerOf, valueAt } from "./wire.ts";

export const fieldId = (pointer: string): string => `rig${pointer.replaceAll("/", "-")}`;

/** Remarks on a field or on a part of it. */
export function remarksOn<Remark extends { readonly path: string }>(
  remarks: readonly Remark[],
  pointer: string,
): Remark[] {
  return remarks.filter(({ path }) => path === pointer || path.startsWith(`${pointer}/`));
}

interface FieldProps {
  readonly field: Field;
  /** Full path in the record. */
  readonly path: Path;
  readonly draft: Draft;
}

export function FieldInput({ field, path, draft }: FieldProps) {
  const pointer = pointerOf(path);
  const id = fieldId(pointer);
  const errors = remarksOn(draft.errors, pointer);
  const warnings = draft.warnings.filter((one) => one.path === pointer);
  const value = valueAt(draft.rig, path);
  const taken = value === undefined ? draft.assumed.find((one) => one.path === pointer) : undefined;
  const notes = [
    ...(field.hint === undefined ? [] : [{ key: "hint", kind: "quiet", text: field.hint }]),
    ...(taken === undefined ? [] : [{ key: "taken", kind: "quiet", text: `Without it: ${taken.value}.` }]),
    ...errors.map(({ message }, index) => ({ key: `error-${index}`, kind: "field-error", text: message })),
    ...warnings.map(({ text }, index) => ({ key: `asked-${index}`, kind: "field-asked", text })),
  ];
  const described = notes.map(({ key }) => `${id}-${key}`).join(" ");
  const shared = {
    id,
    "aria-invalid": errors.length > 0 ? ("true" as const) : undefined,
    "aria-describedby": described === "" ? undefined : described,
  };
  const set = (next: unknown) => draft.edit((rig) => typed(rig, path, next));
  return (
    <div class={`field field-${field.kind} ${errors.length > 0 ? "wrong" : ""}`}>
      <label for={id}>{field.label}</label>
      {field.kind === "choice" || field.kind === "flag" ? (
        <ChoiceInput field={field} value={value} set={set} shared={shared} />
      ) : (
        <TextInput field={field} value={value} set={set} shared={shared} />
      )}
      {notes.map(({ key, kind, text }) => (
        <p key={key} id={`${id}-${key}`} class={`field-note ${kind}`}>
          {text}
        </p>
      ))}
    </div>
  );
}

interface InputProps {
  readonly field: Field;
  readonly value: unknown;
  readonly set: (value: unknown) => void;
  readonly shared: Readonly<Record<string, string | undefined>>;
}

const NONE = "";

function ChoiceInput({ field, value, set, shared }: InputProps) {
  const flag = field.kind === "flag";
  const choices =
    field.kind === "choice"
      ? field.choices
      : field.kind === "flag"
        ? [
            { value: "true", label: field.yes },
            { value: "false", label: field.no },
          ]
        : [];
  const now = value === undefined ? NONE : String(value);
  const known = now === NONE || choices.some((choice) => choice.value === now);
  const change = (next: string) => set(next === NONE ? undefined : flag ? next === "true" : next);
  return (
    <select {...shared} value={now} onChange={(event) => change(event.currentTarget.value)}>
      {!(field.kind === "choice" && field.needed === true && now !== NONE) && <option value={NONE}>not said</option>}
      {!known && <option value={now}>{now}</option>}
      {choices.map((choice) => (
        <option key={choice.value} value={choice.value}>
          {choice.label}
        </option>
      ))}
    </select>
  );
}

function shown(field: Field, value: unknown): string {
  if (field.kind === "quantity") return textOf(value, field.dimension);
  return value === undefined || value === null ? "" : String(value);
}

/** Text follows the record except while somebody types in it. */
function TextInput({ field, value, set, shared }: InputProps) {
  const units = useStore((state) => state.kept.units);
  const [text, setText] = useState(() => shown(field, value));
  const typing = useRef(false);
  useEffect(() => {
    if (!typing.current) setText(shown(field, value));
  }, [value]);
  const unit = field.kind === "quantity" ? field.units[units] : "";
  const wire = (now: string): unknown => {
    if (field.kind === "quantity") return wireOf(now, unit, field.ranged === true);
    const plain = now.trim();
    if (plain === "") return undefined;
    return field.kind === "whole" && /^\d+$/.test(plain) ? Number(plain) : plain;
  };
  const follow = (now: string) => {
    typing.current = true;
    setText(now);
    if (field.kind !== "quantity") return;
    const next = wireOf(now, unit, field.ranged === true);
    // A number whose unit is still to come is not yet a length.
    if (/[^\d\s.]/.test(now) && reads(next, field.dimension)) set(next);
  };
  const settle = (now: string) => {
    typing.current = false;
    const next = wire(now);
    if (JSON.stringify(next) !== JSON.stringify(value)) set(next);
    setText(shown(field, next));
  };
  return (
    <span class="field-box">
      <input
        type="text"
        {...shared}
        value={text}
        autocomplete="off"
        spellcheck={false}
        onInput={(event) => follow(event.currentTarget.value)}
        onBlur={(event) => settle(event.currentTarget.value)}
        onKeyDown={(event) => event.key === "Enter" && settle(event.currentTarget.value)}
      />
      {unit !== "" && (
        <span class="field-unit" aria-hidden="true">
          {unit}
        </span>
      )}
    </span>
  );
}
