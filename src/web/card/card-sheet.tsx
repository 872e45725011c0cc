/** The sheet itself. Its text is made as large as one page takes; nothing on it needs colour. */
import { SERVICE_WORDS, VERDICT_WORDS } from "../shared/words.ts";
import { CardPlan } from "./card-plan.tsx";
import type { CardContent, CardStep } from "./content.ts";
import { useOneSheet } from "./one-sheet.ts";

interface SheetProps {
  readonly content: CardContent;
  readonly plan: string;
  readonly campground: string;
}

export function CardSheet({ content, plan, campground }: SheetProps) {
  const sheet = useOneSheet([content, plan]);
  const { approves } = content;
  return (
    <div class={`card-sheet ${approves ? "" : "card-no"}`} ref={sheet} data-part="card-sheet">
      <div class="card-inner">
        <header class="card-title">
          <p class="card-site">
            <strong>{content.site}</strong>, {campground}
          </p>
          <p class="card-rig">{content.rig}</p>
          <p class="card-verdict">{VERDICT_WORDS[content.verdict]}</p>
        </header>
        {content.banner !== null && (
          <section class="card-banner" aria-label="Verdict">
            <p class="card-large">{content.banner.words}</p>
            <ul>
              {content.banner.reasons.map((reason) => (
                <li key={reason}>{reason}</li>
              ))}
            </ul>
            {!approves && <p>This card has no steps: nothing on it says how to hook up here.</p>}
          </section>
        )}
        <div class="card-columns">
          <CardPlan svg={plan} name={content.site} approves={approves} />
          {approves ? <Approved content={content} /> : <Refused content={content} />}
          <Listed title="What nobody has checked" texts={content.unchecked} />
        </div>
      </div>
    </div>
  );
}

function KitAndLoads({ content }: { readonly content: CardContent }) {
  const { run } = content;
  return (
    <>
      {content.kit.length > 0 && (
        <section>
          <h2>Kit</h2>
          <ul class="card-kit">
            {content.kit.map(({ text, where }) => (
              <li key={text}>
                <span class="card-box" aria-hidden="true" />
                {text}: <strong>{where}</strong>
              </li>
            ))}
          </ul>
        </section>
      )}
      {run !== null && (
        <section>
          <h2>What may run together</h2>
          <p>{run.supply}</p>
          <Runs title="For hours" texts={run.hours} />
          <Runs title="Not for three hours or more" texts={run.briefly} />
          <Runs title="Never" texts={run.never} />
        </section>
      )}
    </>
  );
}

function Approved({ content }: { readonly content: CardContent }) {
  return (
    <>
      <Listed title="Where to stop" texts={content.stop} />
      <KitAndLoads content={content} />
      {content.dump !== null && <Listed title="Dump order" texts={[content.dump]} />}
      <Listed title="Awning" texts={content.awning} />
      <Steps title="Arriving, in this order" steps={content.arrival} />
      <Steps title="Leaving, in this order" steps={content.departure} />
      {content.notServed.length > 0 && (
        <section>
          <h2>Do not connect here</h2>
          <ul>
            {content.notServed.map(({ service, why }) => (
              <li key={service}>
                <strong>{SERVICE_WORDS[service]}.</strong> {why}
              </li>
            ))}
          </ul>
        </section>
      )}
      <Listed title="Mind here" texts={content.cautions} />
    </>
  );
}

function Refused({ content }: { readonly content: CardContent }) {
  return (
    <>
      <section>
        <h2>The answer in full</h2>
        <p>{content.headline}</p>
      </section>
      <Listed
        title={content.verdict === "unknown" ? "Measure first" : "What would change it"}
        texts={content.instead}
      />
    </>
  );
}

function Steps({ title, steps }: { readonly title: string; readonly steps: readonly CardStep[] }) {
  return (
    <section>
      <h2>{title}</h2>
      <ol class="card-steps">
        {steps.map(({ id, text, why, ifNot }) => (
          <li key={id} data-step={id}>
            {text} <span class="card-why">{why}</span>
            {ifNot !== null && <strong class="card-stop-here"> Stop here if: {ifNot}</strong>}
          </li>
        ))}
      </ol>
    </section>
  );
}

function Runs({ title, texts }: { readonly title: string; readonly texts: readonly string[] }) {
  if (texts.length === 0) return null;
  return (
    <p>
      <strong>{title}:</strong> {texts.join("; ")}.
    </p>
  );
}

function Listed({ title, texts }: { readonly title: string; readonly texts: readonly string[] }) {
  if (texts.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul>
        {texts.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}
