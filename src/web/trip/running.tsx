/** What may run at a stop: what runs for hours, what to switch off before what, what trips, voltage, generator. */
import type { RunningPlan, RunningSupply } from "../../trip/running/types.ts";

export function Running({ running }: { readonly running: RunningPlan }) {
  const { supplies, generatorHours, cautions } = running;
  return (
    <details class="running">
      <summary>What may run here</summary>
      {supplies.length === 0 && <p>There is no supply here and no generator aboard: what the battery bears.</p>}
      {supplies.map((supply) => (
        <Supply key={supply.from} supply={supply} />
      ))}
      {generatorHours !== null && <p>{generatorHours.why}</p>}
      {cautions.length > 0 && (
        <ul>
          {cautions.map(({ id, text }) => (
            <li key={id}>{text}</li>
          ))}
        </ul>
      )}
    </details>
  );
}

function Supply({ supply }: { readonly supply: RunningSupply }) {
  const { title, why, base, day, load, voltage, transfer, notes } = supply;
  const trips = load?.canRun.filter((set) => !set.runs) ?? [];
  return (
    <section class="running-supply">
      <h4>{title}</h4>
      <p>{why}</p>
      {base.length > 0 && <p>Runs for hours: {base.join(", ")}.</p>}
      {day.length > 0 && (
        <ul>
          {day.map((step) => (
            <li key={step.appliance} data-runs={step.runs}>
              {step.why}
            </li>
          ))}
        </ul>
      )}
      {trips.length > 0 && (
        <>
          <p>
            <b>Trips the breaker:</b>
          </p>
          <ul>
            {trips.map((set) => (
              <li key={set.appliances.join()}>{set.why}</li>
            ))}
          </ul>
        </>
      )}
      {voltage !== null && <p data-voltage={voltage.status}>{voltage.why}</p>}
      {transfer !== null && (
        <>
          <p>{transfer.why}</p>
          <ol>
            {transfer.steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </>
      )}
      {notes.map(({ text }) => (
        <p key={text}>{text}</p>
      ))}
    </section>
  );
}
