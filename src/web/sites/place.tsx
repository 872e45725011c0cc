/** Which campground and which rig the list is about, and how to change either. */
import { useRef } from "preact/hooks";
import { formatLength } from "../../units/print.ts";
import { useTools } from "../context.ts";
import { hrefOf } from "../route.ts";
import { useStore } from "../state/store.ts";

export function Place() {
  const opened = useStore((state) => state.opened);
  const withoutServer = useStore((state) => state.withoutServer);
  return (
    <div class="place">
      <div>
        <h1>{opened?.name ?? "Sites"}</h1>
        {withoutServer && (
          <p class="quiet" data-part="without-server">
            Without signal: this is what the device kept. Every answer is still worked out here.
          </p>
        )}
      </div>
      <div class="place-tools">
        <RigLine />
        <CampgroundPicker />
      </div>
    </div>
  );
}

function RigLine() {
  const rig = useStore((state) => state.kept.rig);
  const units = useStore((state) => state.kept.units);
  const { name, length } = rig as { name?: unknown; length?: unknown };
  const long = typeof length === "number" ? formatLength(length, units) : typeof length === "string" ? length : "";
  return (
    <a class="rig-line" href={hrefOf({ view: "rig" })}>
      <span>
        <span class="quiet">Rig:</span> {typeof name === "string" ? name : String(rig["class"] ?? "rig")}
        {long !== "" && <span class="quiet">, {long}</span>}
      </span>
    </a>
  );
}

function CampgroundPicker() {
  const { session } = useTools();
  const campgrounds = useStore((state) => state.campgrounds);
  const opened = useStore((state) => state.opened);
  const file = useRef<HTMLInputElement>(null);
  const openFile = async () => {
    const [chosen] = file.current?.files ?? [];
    if (chosen !== undefined) await session.openText(await chosen.text());
    if (file.current !== null) file.current.value = "";
  };
  return (
    <div class="picker">
      {campgrounds.length > 1 && (
        <label>
          <span class="unseen">Campground</span>
          <select
            value={opened?.id ?? ""}
            onChange={(event) => {
              session.openById(event.currentTarget.value);
            }}
          >
            {campgrounds.map(({ id, name, from }) => (
              <option key={id} value={id}>
                {name}
                {from === "device" ? " (on this device)" : ""}
              </option>
            ))}
          </select>
        </label>
      )}
      <input
        ref={file}
        id="campground-file"
        class="unseen"
        type="file"
        accept=".geojson,.json,application/geo+json"
        onChange={openFile}
      />
      <label class="button" for="campground-file">
        Open a campground file
      </label>
    </div>
  );
}
