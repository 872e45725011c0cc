/** Power in words: what mates with what, the chain from the receptacle to the rig, the voltage, what can run. */
import type { Fit, PowerAnswer } from "../../fit/answer.ts";
import { formatLength, formatPower } from "../../units/print.ts";
import { useStore } from "../state/store.ts";

const MATING: Readonly<Record<PowerAnswer["mating"], string>> = {
  direct: "The rig's own plug fits the receptacle.",
  adapter: "With an adapter.",
  "adapter with caution": "With an adapter, and with caution.",
  refused: "Must not be joined.",
  unknown: "Not known.",
  none: "No power to speak of.",
};

export function Power({ fit }: { readonly fit: Fit }) {
  const { power } = fit;
  return (
    <section class="panel" aria-labelledby="power-title">
      <h2 id="power-title">Power</h2>
      <p>
        <b>{MATING[power.mating]}</b> {power.why}
      </p>
      <Chain chain={power.chain} />
      <Figures power={power} />
      {power.drop !== null && <p>{power.drop.why}</p>}
      <CanRun canRun={power.canRun} />
      <Others power={power} />
    </section>
  );
}

function Chain({ chain }: Pick<PowerAnswer, "chain">) {
  const units = useStore((state) => state.kept.units);
  if (chain.length === 0) return null;
  return (
    <>
      <h3>From the pedestal to the rig</h3>
      <ol class="chain">
        {chain.map((link, index) => (
          <li key={index}>
            <b>{link.item}</b>
            {link.amps !== null && ` ${link.amps} A`}
            {link.length !== null && link.length > 0 && `, ${formatLength(link.length, units, { round: "down" })}`}
            {link.where === "rig" ? "" : ` (${link.where})`}
          </li>
        ))}
      </ol>
    </>
  );
}

function Figures({ power }: { readonly power: PowerAnswer }) {
  const { amps, legs, voltsToNeutral, continuousVoltAmperes, weakestLink } = power;
  if (amps === null) return null;
  const parts = [
    `${amps} A${legs === null ? "" : ` on ${legs === 1 ? "one leg" : `${legs} legs`}`}`,
    ...(voltsToNeutral === null ? [] : [`${voltsToNeutral} V`]),
    ...(continuousVoltAmperes === null ? [] : [`${Math.floor(continuousVoltAmperes)} VA for hours on end`]),
    ...(weakestLink === null ? [] : [`limited by the ${weakestLink.replace(/^the /, "")}`]),
  ];
  return <p data-part="supply">{parts.join(", ")}.</p>;
}

function CanRun({ canRun }: Pick<PowerAnswer, "canRun">) {
  if (canRun.length === 0) return null;
  const runs = canRun.filter((one) => one.runs);
  const trips = canRun.filter((one) => !one.runs);
  return (
    <div class="can-run">
      <RunList title="May run together" rows={runs} />
      <RunList title="Too much together" rows={trips} />
    </div>
  );
}

function RunList({ title, rows }: { readonly title: string; readonly rows: PowerAnswer["canRun"] }) {
  if (rows.length === 0) return null;
  return (
    <div>
      <h3>{title}</h3>
      <ul>
        {rows.map((row) => (
          <li key={row.appliances.join()}>
            {row.appliances.join(" + ")} <span class="quiet">{formatPower(row.watts, { round: "up" })}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}

function Others({ power }: { readonly power: PowerAnswer }) {
  const others = power.alternatives.filter((one) => one.receptacle !== power.receptacle);
  if (others.length === 0) return null;
  return (
    <details>
      <summary>Other receptacles here</summary>
      <ul>
        {others.map((one) => (
          <li key={one.receptacle}>
            <b>{one.type}</b>: {one.mating}. {one.why}
          </li>
        ))}
      </ul>
    </details>
  );
}
