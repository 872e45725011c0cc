/** What the page does, how it is to be read, what it keeps, and what stands behind it. */
import { MapKey } from "../map/map-key.tsx";
import { useStore } from "../state/store.ts";

export function About() {
  const opened = useStore((state) => state.opened);
  return (
    <div class="about">
      <h1>About</h1>
      <section>
        <h2>What it answers</h2>
        <p>
          Whether this rig hooks up at that site: every cord and hose with the length it needs and the length there is,
          what must be in the kit, and where to stop. Everything is worked out on this device.
        </p>
        <MapKey />
      </section>
      <section>
        <h2>How to read an answer</h2>
        <ul>
          <li>What is needed is rounded up, what is there is rounded down.</li>
          <li>What nobody measured stays unknown; it never becomes a yes or a no.</li>
          <li>An answer rests on records. Look at the pedestal, the ground and the branches before you trust it.</li>
          <li>
            Mains power, gas, exhaust, sewage, awnings and reversing can hurt people. Local rules and licensed trades go
            before anything said here.
          </li>
        </ul>
      </section>
      <section>
        <h2>What stays on this device</h2>
        <p>
          The rig, your choices, the campgrounds that you opened and this page itself, so that it works without signal.
          Nothing is sent anywhere but to the server that this page came from, and that only to fetch campgrounds.
        </p>
      </section>
      {opened !== null && (
        <section>
          <h2>{opened.name}</h2>
          {opened.note !== null && <p>{opened.note}</p>}
          <p>
            {opened.sites.length} sites. Licence of the record: {opened.licence ?? "not stated"}.
          </p>
          <ul>
            {opened.sources.map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
          {opened.refused.length > 0 && (
            <details>
              <summary>{opened.refused.length} things of the record could not be read</summary>
              <ul>
                {opened.refused.map((one) => (
                  <li key={`${one.id} ${one.message}`}>
                    {one.id === null ? "" : `${one.id}: `}
                    {one.message} Wanted: {one.expected}.
                  </li>
                ))}
              </ul>
            </details>
          )}
        </section>
      )}
      <section>
        <h2>For hosts</h2>
        <p>
          <a href="#/host/gate">The gate</a>, <a href="#/host/office">the office</a> and{" "}
          <a href="#/host/records">the records</a> of a campground want a token of its own.
        </p>
      </section>
      <section>
        <h2>For programs</h2>
        <p>
          The same answers come from an open interface: <a href="./docs">its reference</a>.
        </p>
        <p class="quiet">Drawn with Preact (MIT) and Leaflet (BSD-2-Clause).</p>
      </section>
    </div>
  );
}
