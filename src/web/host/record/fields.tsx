/** Fields of the record: a word, a length with its unit, a choice. What is left empty is not in the record. */
import { useId, useState } from "preact/hooks";
import { formatLength } from "../../../units/print.ts";
import { metresOf } from "../../measure/walk.ts";
import { useStore } from "../../state/store.ts";
import { type Json, type RecordPath, valueAt, withValue } from "./merge.ts";

export interface FieldProps {
  readonly draft: Json;
  readonly path: RecordPath;
  readonly label: string;
  readonly onChange: (draft: Json) => void;
  readonly hint?: string | undefined;
}

const put = (draft: Json, path: RecordPath, value: Json | undefined): Json => withValue(draft, path, value) ?? {};

export function WordField({ draft, path, label, onChange, hint }: FieldProps) {
  const value = valueAt(draft, path);
  const id = useId();
  return (
    <p class="record-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={typeof value === "string" ? value : ""}
        placeholder={hint}
        onChange={(event) => onChange(put(draft, path, event.currentTarget.value.trim() || undefined))}
      />
    </p>
  );
}

/** A bare number is in the units shown; a minus may stand before it. Null when it is no length. */
export function lengthWire(text: string, units: "us" | "metric"): string | number | null {
  const plain = text.trim().replace(",", ".").replace("−", "-");
  const isMinus = plain.startsWith("-");
  const size = plain.replace(/^-\s*/, "");
  const written = /^[\d.]+$/.test(size) ? `${size} ${units === "us" ? "ft" : "m"}` : size;
  const metres = metresOf(written);
  if (metres === null) return null;
  return isMinus ? -Number(metres.toFixed(4)) : written;
}

const MINUS = /^-/;

export function LengthField({ draft, path, label, onChange, hint }: FieldProps) {
  const units = useStore((state) => state.kept.units);
  const [wrong, setWrong] = useState(false);
  const value = valueAt(draft, path);
  const id = useId();
  const shown =
    typeof value === "number" ? formatLength(value, units).replace(MINUS, "−") : typeof value === "string" ? value : "";
  const set = (text: string) => {
    const wire = text.trim() === "" ? undefined : lengthWire(text, units);
    setWrong(wire === null);
    // What is only shown rounded must not be written rounded.
    if (wire !== null && text !== shown) onChange(put(draft, path, wire));
  };
  return (
    <p class="record-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={shown}
        placeholder={hint ?? (units === "us" ? "ft" : "m")}
        aria-invalid={wrong ? "true" : undefined}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(event) => set(event.currentTarget.value)}
      />
      {wrong && (
        <span id={`${id}-wrong`} class="record-wrong">
          This is no length.
        </span>
      )}
    </p>
  );
}

export interface ChoiceProps extends FieldProps {
  readonly choices: readonly (readonly [value: string, name: string])[];
}

export function ChoiceField({ draft, path, label, onChange, choices }: ChoiceProps) {
  const value = valueAt(draft, path);
  const id = useId();
  const own = typeof value === "string" && !choices.some(([one]) => one === value) ? [[value, value] as const] : [];
  return (
    <p class="record-field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={typeof value === "string" ? value : ""}
        onChange={(event) => onChange(put(draft, path, event.currentTarget.value || undefined))}
      >
        <option value="">not on record</option>
        {[...choices, ...own].map(([one, name]) => (
          <option key={one} value={one}>
            {name}
          </option>
        ))}
      </select>
    </p>
  );
}
