/** Fleet, bookings and stock as files, in and out. */
import { useState } from "preact/hooks";
import { announce } from "../shared/announce.tsx";
import { saveText } from "../shared/hand-over.ts";
import { plural } from "../shared/words.ts";
import { backToDemo, type DeskFiles, listOf, PARTS, type Part, setList, textOf } from "./files.ts";

const TITLES: Readonly<Record<Part, string>> = { fleet: "Fleet", trips: "Bookings", stock: "Stock" };
const ONE: Readonly<Record<Part, string>> = { fleet: "unit", trips: "booking", stock: "entry" };
const MORE: Readonly<Record<Part, string>> = { fleet: "units", trips: "bookings", stock: "entries" };

/** Files of a desk are small; anything larger is something else. Bytes. */
const LARGEST = 4_000_000;

export function FilesPanel({ files }: { readonly files: DeskFiles }) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const open = async (part: Part, input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    if (file === undefined) return;
    setTrouble(null);
    try {
      if (file.size > LARGEST) throw new Error("This file is too large for a list of the desk.");
      const { list, note } = listOf(part, await file.text());
      setList(part, list, note);
      announce(`${TITLES[part]}: ${plural(list.length, ONE[part], MORE[part])} opened.`);
    } catch (fault) {
      setTrouble(`${TITLES[part]}: ${fault instanceof Error ? fault.message : String(fault)}`);
    }
    input.value = "";
  };
  return (
    <details class="panel desk-files" data-part="files">
      <summary>
        Files: {PARTS.map((part) => plural(files[part].list.length, ONE[part], MORE[part])).join(", ")} of stock
      </summary>
      {trouble !== null && (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      )}
      <ul>
        {PARTS.map((part) => (
          <li key={part}>
            <p>
              <b>{TITLES[part]}</b>: {plural(files[part].list.length, ONE[part], MORE[part])}
              {files[part].note !== null && <span class="quiet"> {files[part].note}</span>}
            </p>
            <p class="file-tools">
              <input
                id={`desk-file-${part}`}
                class="unseen"
                type="file"
                accept=".json,application/json"
                onChange={(event) => open(part, event.currentTarget)}
              />
              <label class="button" for={`desk-file-${part}`}>
                Open a file <span class="unseen">: {TITLES[part]}</span>
              </label>
              <button
                type="button"
                class="button"
                onClick={() => saveText(`${part}.json`, "application/json", textOf(part))}
              >
                Save as a file <span class="unseen">: {TITLES[part]}</span>
              </button>
              {!files[part].demo && (
                <button type="button" class="button" onClick={() => backToDemo(part)}>
                  Back to the invented one <span class="unseen">: {TITLES[part]}</span>
                </button>
              )}
            </p>
          </li>
        ))}
      </ul>
    </details>
  );
}
