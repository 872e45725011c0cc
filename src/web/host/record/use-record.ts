/** One site's record: read with its tag, changed as a draft, written back on condition that nobody was faster. */
import { useEffect, useState } from "preact/hooks";
import { useTools } from "../../context.ts";
import { ask, campgroundPath, isStale, refusalWords } from "../api.ts";
import { forgetPlanner } from "../core/client.ts";
import { type Json, mergedRecord, mergePatchOf } from "./merge.ts";

interface FitBrief {
  readonly verdict: string;
  readonly headline: string;
}

/** The server's answer to a write, or to a preview of one. */
export interface Written {
  readonly written: boolean;
  readonly fits: {
    readonly changed: readonly {
      readonly stay: string;
      readonly site: string;
      readonly before: FitBrief | null;
      readonly after: FitBrief | null;
    }[];
    readonly compared: number;
    readonly notCompared: number;
  };
  readonly warnings: readonly { readonly text?: string; readonly message?: string }[];
}

export interface Loaded {
  /** As it was read, and under which tag. */
  readonly base: Json;
  readonly tag: string;
}

export interface RecordState {
  readonly loaded: Loaded | null;
  readonly draft: Json | null;
  /** What somebody else wrote meanwhile; null without a conflict. */
  readonly theirs: Loaded | null;
  readonly busy: boolean;
  readonly told: Written | null;
  readonly trouble: string | null;
}

export interface RecordDesk extends RecordState {
  readonly change: (draft: Json) => void;
  readonly preview: () => Promise<void>;
  readonly write: () => Promise<void>;
  /** Writes my changes over theirs, for the members chosen; theirs stay elsewhere. */
  readonly settle: (mine: ReadonlySet<string>) => Promise<void>;
  /** Begins anew from what is there now. */
  readonly reload: () => Promise<void>;
}

const NOTHING: RecordState = { loaded: null, draft: null, theirs: null, busy: false, told: null, trouble: null };

export function useRecord(campground: string, site: string, onWritten: () => void): RecordDesk {
  const { session } = useTools();
  const [state, setState] = useState(NOTHING);
  const path = `${campgroundPath(campground)}/sites/${encodeURIComponent(site)}`;
  const patch = (change: Partial<RecordState>) => setState((now) => ({ ...now, ...change }));
  const read = async (): Promise<Loaded> => {
    const { body, tag } = await ask<Json>(path, { accept: "application/geo+json" });
    return { base: body, tag: tag ?? "" };
  };
  const reload = async () => {
    try {
      const loaded = await read();
      setState({ ...NOTHING, loaded, draft: loaded.base });
    } catch (fault) {
      setState({ ...NOTHING, trouble: refusalWords(fault) });
    }
  };
  useEffect(() => {
    void reload();
  }, [path]);

  const send = async (base: Json, tag: string, draft: Json, isPreview: boolean): Promise<void> => {
    const body = mergePatchOf(base, draft);
    if (body === null) return patch({ trouble: "Nothing is changed.", theirs: null });
    patch({ busy: true, trouble: null, told: null });
    try {
      const address = isPreview ? `${path}?preview=true` : path;
      const { body: told } = await ask<Written>(address, { method: "PATCH", body, match: tag });
      if (isPreview) return patch({ busy: false, told });
      const loaded = await read();
      setState({ ...NOTHING, loaded, draft: loaded.base, told });
      onWritten();
      forgetPlanner();
      await session.openById(campground);
    } catch (fault) {
      if (isStale(fault)) patch({ busy: false, theirs: await read().catch(() => null) });
      else patch({ busy: false, trouble: refusalWords(fault) });
    }
  };

  const { loaded, draft, theirs } = state;
  return {
    ...state,
    reload,
    change: (next) => patch({ draft: next, told: null, trouble: null }),
    preview: async () => {
      if (loaded !== null && draft !== null) await send(loaded.base, loaded.tag, draft, true);
    },
    write: async () => {
      if (loaded !== null && draft !== null) await send(loaded.base, loaded.tag, draft, false);
    },
    settle: async (mine) => {
      if (loaded === null || draft === null || theirs === null) return;
      const merged = mergedRecord(loaded.base, draft, theirs.base, mine);
      // From here on theirs is what was seen, so that a third version is noticed too.
      patch({ loaded: theirs, draft: merged, theirs: null });
      await send(theirs.base, theirs.tag, merged, false);
      if (mergePatchOf(theirs.base, merged) === null) setState({ ...NOTHING, loaded: theirs, draft: theirs.base });
    },
  };
}
