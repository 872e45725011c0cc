/** The pick list: boxes with what goes into each, to be ticked off by finger. */
import { announce } from "../shared/announce.tsx";
import type { LoadBox, LoadThing } from "./load.ts";
import { usePacked } from "./packed.ts";

/** Drain hoses and gloves, and whatever touches drinking water, are kept in boxes of their own. */
const APART = "What touches sewage never shares a box with what touches drinking water.";

interface LoadListProps {
  /** Booking and unit: the name under which the ticks are kept. */
  readonly list: string;
  readonly boxes: readonly LoadBox[];
  /** Rank of the boxes' headings. */
  readonly level?: 3 | 4;
}

export function LoadList({ list, boxes, level = 4 }: LoadListProps) {
  const Title = level === 4 ? "h4" : "h3";
  const { ids, tick, clear } = usePacked(list);
  const things = boxes.flatMap((box) => box.things).filter(({ where }) => where !== "lent");
  const done = things.filter(({ id }) => ids.has(id)).length;
  const set = (thing: LoadThing, on: boolean) => {
    tick(thing.id, on);
    announce(`${done + (on ? 1 : -1)} of ${things.length} ticked`);
  };
  return (
    <div class="load" data-part="load">
      <p class="load-count">
        <progress max={Math.max(things.length, 1)} value={done} aria-label="Ticked off" />
        <span data-part="load-count">
          {done} of {things.length} ticked
        </span>
        {done > 0 && (
          <button type="button" class="button" onClick={clear}>
            Begin again
          </button>
        )}
      </p>
      <p class="quiet">{APART}</p>
      {boxes.map((box) => (
        <section key={box.id} class="load-box" data-box={box.id}>
          <Title>{box.title}</Title>
          <ul>
            {box.things.map((thing) => (
              <li key={thing.id} data-where={thing.where}>
                {thing.where === "lent" ? (
                  <p class="load-tick">
                    <ThingTitle thing={thing} />
                  </p>
                ) : (
                  <label class="load-tick">
                    <input
                      type="checkbox"
                      checked={ids.has(thing.id)}
                      onChange={(event) => set(thing, event.currentTarget.checked)}
                    />
                    <ThingTitle thing={thing} />
                  </label>
                )}
                <p class="quiet load-why">{whyText(thing)}</p>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

function ThingTitle({ thing }: { readonly thing: LoadThing }) {
  return (
    <span>
      <b>{thing.title}</b>{" "}
      <span class={`from from-${thing.where.replace(" ", "-")}`}>
        {thing.where === "lent" ? "the campground lends it" : thing.where}
      </span>
    </span>
  );
}

export function whyText({ purpose, without }: LoadThing): string {
  return [...purpose, ...(without === "" ? [] : [`Without it: ${without}`])].join(" ");
}
