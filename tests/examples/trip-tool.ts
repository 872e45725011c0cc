import { readFile } from "node:fs/promises";
import { createPadwrightClient, PadwrightProblem } from "../../src/client/index.ts";

const client = createPadwrightClient({ baseUrl: process.env["PADWRIGHT"] ?? "http://127.0.0.1:8787" });
const rig = JSON.parse(await readFile("data/demo/rigs/van-camper.json", "utf8"));
const site = { campground: "quillfeather-flats", site: "curlew-3" };

// One rig, one site.
const fit = await client.fit({ rig, site });
console.log(fit.headline);

// One rig, every site of a campground: a row as soon as it is computed.
const verdicts: (string | undefined)[] = [];
for await (const row of client.fitBatch({ rigs: [rig], campgrounds: ["quillfeather-flats"] })) {
  verdicts.push(row.fit?.verdict);
}
console.log(`${verdicts.length} sites, ${verdicts.filter((one) => one === "fits").length} fit`);

// What is refused says why.
try {
  await client.fit({ rig: { ...rig, length: "long" }, site });
} catch (fault) {
  if (fault instanceof PadwrightProblem) console.log(fault.status, fault.errors[0]?.pointer);
}
