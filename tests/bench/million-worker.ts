/** One worker of the fleet matrix: looks at all sites for the rigs that it is given, one after another. */
import { parentPort, workerData } from "node:worker_threads";
import { screenRig } from "../../src/fit/screen/rig.ts";
import { CAN, screenNominal } from "../../src/fit/screen/screen.ts";
import type { ScreenSites } from "../../src/fit/screen/sites.ts";
import { fleet, MILLION_OPTIONS } from "./million-sites.ts";

const { sites, rigs, all } = workerData as {
  readonly sites: ScreenSites;
  readonly rigs: readonly number[];
  readonly all: number;
};
const out = new Uint8Array(sites.count);
const list = fleet(all);
for (const place of rigs) {
  screenNominal(screenRig(list[place]!, MILLION_OPTIONS, sites.kinds), sites, out);
  let served = 0;
  for (const state of out) if (state === CAN) served++;
  parentPort?.postMessage({ rig: place, served });
}
