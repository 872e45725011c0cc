/** A length for a thumb: feet and inches in two boxes, or metres in one, with the number pad. */
import { useId } from "preact/hooks";
import { type Units, useStore } from "../state/store.ts";
import { metresOf } from "./walk.ts";

export interface TypedLength {
  readonly whole: string;
  readonly part: string;
}

/** The typed boxes as a text with units; null when they hold no length. A comma is read as a point. */
export function lengthText({ whole, part }: TypedLength, units: Units, zero = false): string | null {
  const [first, second] = [whole, part].map((text) => text.trim().replace(",", "."));
  const parts =
    units === "us" ? [first ? `${first} ft` : "", second ? `${second} in` : ""] : [first ? `${first} m` : ""];
  const text = parts.filter(Boolean).join(" ");
  const metres = text === "" ? null : metresOf(text);
  return metres === null || (metres === 0 && !zero) ? null : text;
}

interface LengthInputProps {
  readonly name: string;
  readonly typed: TypedLength;
  readonly onType: (typed: TypedLength) => void;
  readonly wrong: string | null;
}

export function LengthInput({ name, typed, onType, wrong }: LengthInputProps) {
  const units = useStore((state) => state.kept.units);
  const id = useId();
  const shared = {
    type: "text" as const,
    autocomplete: "off",
    "aria-describedby": wrong === null ? undefined : `${id}-wrong`,
    "aria-invalid": wrong === null ? undefined : ("true" as const),
  };
  return (
    <fieldset class="length">
      <legend>{name}</legend>
      <div class="length-boxes">
        <label>
          <input
            {...shared}
            inputMode="decimal"
            value={typed.whole}
            onInput={(event) => onType({ ...typed, whole: event.currentTarget.value })}
          />
          <span>{units === "us" ? "ft" : "m"}</span>
        </label>
        {units === "us" && (
          <label>
            <input
              {...shared}
              inputMode="text"
              value={typed.part}
              onInput={(event) => onType({ ...typed, part: event.currentTarget.value })}
            />
            <span>in</span>
          </label>
        )}
      </div>
      {wrong !== null && (
        <p id={`${id}-wrong`} class="measure-wrong" role="alert">
          {wrong}
        </p>
      )}
    </fieldset>
  );
}
