/** A walk round one pad with a tape. Works without signal: everything is worked out and kept on the device. */
import "./measure.css";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Service } from "../../rig/completed.ts";
import { useTools } from "../context.ts";
import type { OpenedCampground, SiteCard } from "../core/protocol.ts";
import { hrefOf } from "../route.ts";
import { optionsOf } from "../state/session.ts";
import { useStore } from "../state/store.ts";
import { Marks, Questions, Readings } from "./marks.tsx";
import { ReadingForm } from "./reading-form.tsx";
import { Result } from "./result.tsx";
import { Sketch } from "./sketch.tsx";
import { solveWalk } from "./solve-walk.ts";
import { readWalk, useWalk } from "./use-walk.ts";
import { sizeWords } from "./words.ts";

interface Named {
  readonly id: string;
  readonly service: Service;
}

const PLAN_WIDTH = 400;

/** Hookups that the site's record names; null until they are known. A walk that was begun does not wait for them. */
function useHookups(id: string, begun: boolean): readonly Named[] | null {
  const { core } = useTools();
  const opened = useStore((state) => state.opened);
  const kept = useStore((state) => state.kept);
  const [hookups, setHookups] = useState<readonly Named[] | null>(begun ? [] : null);
  useEffect(() => {
    if (opened === null || hookups !== null) return;
    let gone = false;
    const asked = { rig: kept.rig, options: optionsOf(kept), site: id, changes: [], planWidth: PLAN_WIDTH };
    const running = core.fit(asked, ({ fit }) => {
      if (!gone) setHookups(fit.scene.hookups.map(({ id: name, service }) => ({ id: name, service })));
      running.stop();
    });
    running.answer.catch(() => !gone && setHookups([]));
    return () => {
      gone = true;
    };
  }, [core, opened, id]);
  return hookups;
}

export function MeasureView({ id }: { readonly id: string }) {
  const opened = useStore((state) => state.opened);
  const site = opened?.sites.find((one) => one.id === id) ?? null;
  return (
    <article class="measure" data-site={id}>
      <p class="back">
        <a href={hrefOf({ view: "site", id })}>{site?.name ?? id}</a>
      </p>
      <h1>Measure {site?.name ?? id}</h1>
      {opened !== null && site === null && (
        <p class="trouble" role="alert">
          {opened.name} has no site of this name.
        </p>
      )}
      {opened !== null && site !== null && <Begun opened={opened} site={site} />}
    </article>
  );
}

function Begun({ opened, site }: { readonly opened: OpenedCampground; readonly site: SiteCard }) {
  const begun = useMemo(() => readWalk(opened.id, site.id) !== null, [opened.id, site.id]);
  const hookups = useHookups(site.id, begun);
  if (hookups === null) return <p class="quiet">Looking which hookups are on record.</p>;
  return <WalkRound opened={opened} site={site} hookups={hookups} />;
}

interface WalkProps {
  readonly opened: OpenedCampground;
  readonly site: SiteCard;
  readonly hookups: readonly Named[];
}

function WalkRound({ opened, site, hookups }: WalkProps) {
  const units = useStore((state) => state.kept.units);
  const state = useWalk(opened.id, site.id, hookups);
  const solved = useMemo(() => solveWalk(state.walk, site), [state.walk, site.length, site.width]);
  return (
    <div class="measure-body">
      <div class="measure-seen">
        <p class="quiet">
          Stand at the pad's rear edge and look to the exit: that is what left and right mean here. Lay the tape on the
          ground. Two distances fix a mark, a third one checks it.
        </p>
        <Sketch walk={state.walk} solved={solved} />
        <p data-part="sizes">{sizeWords(solved, units)}</p>
      </div>
      <div class="measure-work">
        <Questions state={state} solved={solved} />
        <ReadingForm state={state} solved={solved} />
        <Marks state={state} solved={solved} />
        <Readings state={state} solved={solved} />
        <Result state={state} solved={solved} campground={opened.id} site={site.id} name={site.name} />
        <button
          type="button"
          class="button"
          onClick={state.restart}
          disabled={state.walk.readings.length + state.walk.offsets.length === 0}
        >
          Start over
        </button>
      </div>
    </div>
  );
}
