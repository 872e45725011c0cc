/** Filters, order, and what is asked of a site. */
import type { Need } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";
import { SERVICE_WORDS } from "../shared/words.ts";
import { type Filters, keep, type Order, type Question, useStore, WINDS_FROM } from "../state/store.ts";

const FILTERS: readonly { readonly key: Exclude<keyof Filters, "windFrom">; readonly name: string }[] = [
  { key: "power", name: "Power" },
  { key: "sewer", name: "Sewer" },
  { key: "pullThrough", name: "Pull-through" },
  { key: "accessible", name: "Accessible" },
  { key: "shade", name: "Shade" },
  { key: "fitting", name: "Hide what does not fit" },
];

export function FilterBar() {
  const filters = useStore((state) => state.kept.filters);
  const order = useStore((state) => state.kept.order);
  return (
    <div class="filter-bar">
      <fieldset class="chips">
        <legend class="unseen">Show only sites with</legend>
        {FILTERS.map(({ key, name }) => (
          <label key={key} class={`chip ${filters[key] ? "on" : ""}`}>
            <input
              type="checkbox"
              checked={filters[key]}
              onChange={(event) => keep({ filters: { ...filters, [key]: event.currentTarget.checked } })}
            />
            {name}
          </label>
        ))}
      </fieldset>
      <label class="order">
        Sheltered when the wind is from
        <select
          value={filters.windFrom}
          onChange={(event) =>
            keep({ filters: { ...filters, windFrom: event.currentTarget.value as Filters["windFrom"] } })
          }
        >
          <option value="">any</option>
          {WINDS_FROM.map((from) => (
            <option key={from} value={from}>
              {from}
            </option>
          ))}
        </select>
      </label>
      <label class="order">
        Order
        <select value={order} onChange={(event) => keep({ order: event.currentTarget.value as Order })}>
          <option value="rank">Best fit first</option>
          <option value="margin">Largest worst margin first</option>
          <option value="shelter">Least exposed to wind first</option>
          <option value="name">By name</option>
        </select>
      </label>
      <QuestionBox />
    </div>
  );
}

const ASKED: readonly Service[] = ["power", "water", "sewer"];
const NEEDS: readonly { readonly value: Need | ""; readonly name: string }[] = [
  { value: "", name: "as usual" },
  { value: "required", name: "must" },
  { value: "wanted", name: "nice to have" },
  { value: "ignored", name: "not needed" },
];

function withNeed(question: Question, service: Service, need: Need | ""): Question {
  const { [service]: _, ...others } = question.needs ?? {};
  return { ...question, needs: need === "" ? others : { ...others, [service]: need } };
}

function QuestionBox() {
  const question = useStore((state) => state.kept.question);
  return (
    <details class="question">
      <summary>What is asked of a site</summary>
      <div class="question-grid">
        {ASKED.map((service) => (
          <label key={service}>
            {SERVICE_WORDS[service]}
            <select
              value={question.needs?.[service] ?? ""}
              onChange={(event) =>
                keep({ question: withNeed(question, service, event.currentTarget.value as Need | "") })
              }
            >
              {NEEDS.map(({ value, name }) => (
                <option key={value} value={value}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        ))}
        <label>
          Awning
          <select
            value={question.awning ?? "wanted"}
            onChange={(event) =>
              keep({ question: { ...question, awning: event.currentTarget.value as "required" | "wanted" | "in" } })
            }
          >
            <option value="required">must open</option>
            <option value="wanted">nice to have</option>
            <option value="in">stays in</option>
          </select>
        </label>
        <label>
          Kit
          <select
            value={question.kitPolicy ?? "any"}
            onChange={(event) =>
              keep({ question: { ...question, kitPolicy: event.currentTarget.value as "any" | "aboard" } })
            }
          >
            <option value="any">can still be packed</option>
            <option value="aboard">only what is aboard</option>
          </select>
        </label>
      </div>
      <p class="quiet">
        As usual: power must be there when the rig has a cord and the site has power, the rest is nice to have.
      </p>
    </details>
  );
}
