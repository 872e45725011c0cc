/** A field with its label and what is wrong with it. */
import type { ComponentChildren } from "preact";
import type { PlanFault } from "../core/trip-protocol.ts";

/** Faults at one of the places; with `within` also below it. */
export function faultsAt(errors: readonly PlanFault[], pointers: readonly string[], within = false): PlanFault[] {
  return errors.filter(({ pointer }) =>
    pointers.some((one) => pointer === one || (within && pointer.startsWith(`${one}/`))),
  );
}

/** What was expected is not said twice. */
function faultText({ message, expected }: PlanFault): string {
  return message.includes(expected) ? message : `${message} Expected: ${expected}.`;
}

interface FieldProps {
  readonly id: string;
  readonly label: string;
  readonly pointers: readonly string[];
  readonly within?: boolean;
  readonly errors: readonly PlanFault[];
  readonly children: (shared: {
    readonly id: string;
    readonly "aria-invalid": "true" | undefined;
    readonly "aria-describedby": string | undefined;
  }) => ComponentChildren;
}

export function FormField({ id, label, pointers, within = false, errors, children }: FieldProps) {
  const own = faultsAt(errors, pointers, within);
  const wrong = own.length > 0;
  const note = `${id}-wrong`;
  return (
    <div class={`form-field ${wrong ? "wrong" : ""}`}>
      <label for={id}>{label}</label>
      {children({ id, "aria-invalid": wrong ? "true" : undefined, "aria-describedby": wrong ? note : undefined })}
      {wrong && (
        <p id={note} class="form-wrong" role="alert">
          {own.map(faultText).join(" ")}
        </p>
      )}
    </div>
  );
}
