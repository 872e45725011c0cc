/** Why a stay has no site, and the smallest change that would give it one, each proven by a plan that was made. */
import { useState } from "preact/hooks";
import { announce } from "../../shared/announce.tsx";
import { plural } from "../../shared/words.ts";
import { useStore } from "../../state/store.ts";
import { refusalWords } from "../api.ts";
import type { Book, HostStay } from "../book.ts";
import { plannerOf } from "../core/client.ts";
import type { StayTold } from "../core/protocol.ts";
import { nightsText } from "../words.ts";
import { makeMoves, movesText } from "./moves.ts";
import { ruleText } from "./rules.ts";

const MOST_RULES = 4;

export function Why({ stay, book }: { readonly stay: HostStay; readonly book: Book }) {
  const [told, setTold] = useState<StayTold | number | string | null>(null);
  const look = async () => {
    setTold(0);
    try {
      const answer = await plannerOf(book.campground).explain(book, stay.id, setTold);
      setTold(answer ?? "The plan knows nothing of this stay.");
    } catch (fault) {
      setTold(refusalWords(fault));
    }
  };
  if (told === null) {
    return (
      <button type="button" class="button" aria-label={`Why has ${stay.id} no site?`} onClick={look}>
        Why?
      </button>
    );
  }
  if (typeof told === "number") {
    return <progress max={1} value={told} aria-label={`Fits for ${stay.id}`} />;
  }
  if (typeof told === "string") return <p class="trouble">{told}</p>;
  if (!("blocking" in told)) return <p class="quiet">It has a site in the plan.</p>;
  return (
    <div class="why" data-part="why">
      <p>
        {told.eligible === 0 ? "No site is open to it." : `${plural(told.eligible, "site")} would do by the fit.`}{" "}
        {told.blocking
          .filter(({ rule }) => rule !== "held" || told.change.kind !== "place")
          .slice(0, MOST_RULES)
          .map(({ rule, sites }) => `${plural(sites, "site")}: ${ruleText(rule)}`)
          .join("; ")}
        .
      </p>
      <Change change={told.change} book={book} />
    </div>
  );
}

type ToldChange = Extract<NonNullable<StayTold>, { blocking: unknown }>["change"];

function Change({ change, book }: { readonly change: ToldChange; readonly book: Book }) {
  const units = useStore((state) => state.kept.units);
  const opened = useStore((state) => state.opened);
  const [said, setSaid] = useState<string | null>(null);
  const nameOf = (site: string | null) => opened?.sites.find(({ id }) => id === site)?.name ?? site ?? "no site";
  switch (change.kind) {
    case "place":
    case "move-others": {
      const make = async () => {
        const words = await makeMoves(book, change.moves);
        setSaid(words);
        announce(words ?? "Done.");
      };
      return (
        <p>
          Would help: {movesText(change.moves, book, nameOf)}{" "}
          <button type="button" class="button" onClick={make}>
            Do it
          </button>
          {said !== null && <span class="trouble">{said}</span>}
        </p>
      );
    }
    case "other-nights":
      return (
        <p>
          Would help: other nights, {nightsText(change, units)}, on {nameOf(change.site)}.
        </p>
      );
    case "waive-rule":
      return (
        <p>
          Would help: {nameOf(change.site)}, when they do without: {ruleText(change.rule)}.
        </p>
      );
    case "none":
      return <p>No small change helps.</p>;
  }
}
