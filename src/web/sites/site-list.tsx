/** The list: it says everything that the map shows, in words, and is worked with the keyboard alone. */
import { useEffect, useRef } from "preact/hooks";
import type { SiteRow } from "../core/protocol.ts";
import { hrefOf, MOST_COMPARED } from "../route.ts";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";
import { LINE_WORDS, marginText, SERVICE_WORDS } from "../shared/words.ts";
import { keep, useStore } from "../state/store.ts";
import { exposedTo, type Listing } from "./listing.ts";

interface SiteListProps {
  readonly listed: readonly Listing[];
  readonly lit: string | null;
  readonly onLight: (id: string | null) => void;
}

export function SiteList({ listed, lit, onLight }: SiteListProps) {
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    if (lit === null || list.current === null || list.current.contains(document.activeElement)) return;
    list.current.querySelector(".site-item.lit")?.scrollIntoView({ block: "nearest" });
  }, [lit]);
  return (
    <ol class="site-list" ref={list} aria-label="Sites">
      {listed.map((one) => (
        <SiteItem key={one.card.id} {...one} lit={lit === one.card.id} onLight={onLight} />
      ))}
    </ol>
  );
}

interface SiteItemProps extends Listing {
  readonly lit: boolean;
  readonly onLight: (id: string | null) => void;
}

function SiteItem({ card, row, lit, onLight }: SiteItemProps) {
  const verdict = row?.verdict ?? "waiting";
  return (
    <li
      class={`site-item ${lit ? "lit" : ""}`}
      data-site={card.id}
      onMouseEnter={() => onLight(card.id)}
      onFocusCapture={() => onLight(card.id)}
    >
      <VerdictMark verdict={verdict} />
      <div class="site-item-words">
        <p class="site-item-head">
          <a class="site-name" href={hrefOf({ view: "site", id: card.id })}>
            {card.name}
          </a>
          <strong class={`verdict-word ${row === null ? "quiet" : ""}`}>{verdictWords(verdict)}</strong>
        </p>
        {row !== null && <RowWords row={row} />}
        {row !== null && <RowWindWords row={row} />}
      </div>
      <CompareToggle id={card.id} name={card.name} />
    </li>
  );
}

function RowWords({ row }: { readonly row: SiteRow }) {
  const units = useStore((state) => state.kept.units);
  const shown = row.lines.filter((line) => line.need !== "ignored" && line.verdict !== "not needed");
  return (
    <>
      <p class="reason">{row.reason}</p>
      <p class="site-item-foot">
        {row.worst !== null && (
          <span class="worst">
            Least margin: {SERVICE_WORDS[row.worst.service].toLowerCase()}, {marginText(row.worst.margin, units)}
          </span>
        )}
        <span class="line-words quiet">
          {shown.map((line) => `${SERVICE_WORDS[line.service]} ${LINE_WORDS[line.verdict]}`).join(" · ")}
        </span>
      </p>
    </>
  );
}

/** Said only when somebody asks for the wind by filter or order: otherwise it is one line more on every site. */
function RowWindWords({ row }: { readonly row: SiteRow }) {
  const from = useStore((state) => state.kept.filters.windFrom);
  const order = useStore((state) => state.kept.order);
  if (from === "" && order !== "shelter") return null;
  const exposed = exposedTo(row, from);
  const to = from === "" ? "" : ` from ${from}`;
  return (
    <p class="row-wind">
      {exposed === null
        ? `How exposed it is to wind${to} is not known`
        : `Wind${to}: exposure ${exposed.level}, ${Math.ceil(exposed.ratio * PERCENT)} % of a gust is left`}
    </p>
  );
}

const PERCENT = 100;

export function CompareToggle({ id, name }: { readonly id: string; readonly name: string }) {
  const chosen = useStore((state) => state.kept.chosen);
  const on = chosen.includes(id);
  const full = !on && chosen.length >= MOST_COMPARED;
  return (
    <button
      type="button"
      class="button compare-toggle"
      aria-pressed={on}
      aria-label={`Compare ${name}`}
      disabled={full}
      title={full ? `Up to ${MOST_COMPARED} sites can be compared` : undefined}
      onClick={() => keep({ chosen: on ? chosen.filter((one) => one !== id) : [...chosen, id] })}
    >
      Compare
    </button>
  );
}
