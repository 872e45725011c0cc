/** What is wrong with fleet, bookings or stock, with the place in words and the way to where it is mended. */
import type { PlanFault } from "../core/trip-protocol.ts";
import { hrefOf } from "../route.ts";
import { type DeskFiles, nameOf, wireOf } from "./files.ts";

/** "/trips/1/stops/0/leave" as "Teasel party, stop 1, leave". */
function placeOf(pointer: string, files: DeskFiles): { readonly words: string; readonly trip: string | null } {
  const [, part = "", index = "", ...rest] = pointer.split("/");
  const known = part === "fleet" || part === "trips" || part === "stock" ? files[part].list[Number(index)] : undefined;
  if (known === undefined) return { words: pointer, trip: null };
  const one = wireOf(known);
  const name = part === "stock" ? `Stock, ${String(one["item"] ?? Number(index) + 1)}` : nameOf(one);
  const inner = rest
    .filter((step) => step !== "rig")
    .map((step) => (/^\d+$/.test(step) ? String(Number(step) + 1) : step));
  const words = [name, inner.join(" ").replace(/^stops /, "stop ")].filter((text) => text !== "").join(", ");
  return { words, trip: part === "trips" && typeof one["id"] === "string" ? one["id"] : null };
}

export function Faults({ errors, files }: { readonly errors: readonly PlanFault[]; readonly files: DeskFiles }) {
  return (
    <section class="trouble desk-faults" role="alert">
      <h2>This cannot be worked out yet</h2>
      <ul>
        {errors.map((error) => {
          const { words, trip } = placeOf(error.pointer, files);
          return (
            <li key={`${error.pointer} ${error.message}`}>
              <b>{words}</b>: {error.message} Expected: {error.expected}.
              {trip !== null && (
                <>
                  {" "}
                  <a href={hrefOf({ view: "trip", id: trip })}>Mend the booking</a>
                </>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
