/** Somebody else changed the site first: both versions of what both changed, and a choice for each. */
import { useState } from "preact/hooks";
import { formatLength } from "../../../units/print.ts";
import { plural } from "../../shared/words.ts";
import { type Units, useStore } from "../../state/store.ts";
import { changesBetween, conflictsOf, type Json, pathText, type RecordPath } from "./merge.ts";

interface ConflictProps {
  readonly base: Json;
  readonly mine: Json;
  readonly theirs: Json;
  readonly busy: boolean;
  readonly onSettle: (mine: ReadonlySet<string>) => void;
  readonly onDrop: () => void;
}

/** Members that are lengths when they are numbers. */
const LENGTHS: readonly string[] = ["along", "left", "height", "length", "width", "accuracy", "radius"];

function valueText(path: RecordPath, value: Json | undefined, units: Units): string {
  if (value === undefined) return "not there";
  if (typeof value === "number" && LENGTHS.includes(path.at(-1) ?? "")) return formatLength(value, units);
  return typeof value === "string" ? value : JSON.stringify(value);
}

export function Conflict({ base, mine, theirs, busy, onSettle, onDrop }: ConflictProps) {
  const units = useStore((state) => state.kept.units);
  const conflicts = conflictsOf(base, mine, theirs);
  const [chosen, setChosen] = useState<Readonly<Record<string, "mine" | "theirs">>>({});
  const others = changesBetween(base, theirs).length - conflicts.length;
  const isWhole = conflicts.every(({ path }) => chosen[pathText(path)] !== undefined);
  const keep = () => onSettle(new Set(Object.keys(chosen).filter((name) => chosen[name] === "mine")));
  return (
    <section class="panel conflict" role="alert" aria-label="Changed by somebody else" data-part="conflict">
      <h2>Somebody else changed this site first</h2>
      {conflicts.length === 0 && <p>What they changed and what you changed do not touch each other.</p>}
      {others > 0 && (
        <p class="quiet">
          {plural(others, "other change")} of theirs {others === 1 ? "stays" : "stay"} as written.
        </p>
      )}
      {conflicts.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">Member</th>
              <th scope="col">It was</th>
              <th scope="col">Theirs, there now</th>
              <th scope="col">Yours</th>
            </tr>
          </thead>
          <tbody>
            {conflicts.map(({ path, base: before, mine: own, theirs: other }) => {
              const name = pathText(path);
              return (
                <tr key={name} data-member={name}>
                  <th scope="row">{name}</th>
                  <td>{valueText(path, before, units)}</td>
                  {[["theirs", other] as const, ["mine", own] as const].map(([side, value]) => (
                    <td key={side}>
                      <label>
                        <input
                          type="radio"
                          name={`conflict ${name}`}
                          checked={chosen[name] === side}
                          onChange={() => setChosen({ ...chosen, [name]: side })}
                        />
                        {valueText(path, value, units)}
                      </label>
                    </td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <div class="record-tools">
        <button type="button" class="button strong" disabled={!isWhole || busy} onClick={keep}>
          Write what is chosen
        </button>
        <button type="button" class="button" disabled={busy} onClick={onDrop}>
          Drop my changes
        </button>
      </div>
    </section>
  );
}
