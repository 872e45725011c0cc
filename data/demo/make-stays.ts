/**
 * Writes data/demo/stays.csv: two weeks of stays at the demo campground. All of it is invented. Run after a change with
 * `npx tsx data/demo/make-stays.ts`; a seed keeps the file the same.
 */
import { writeFile } from "node:fs/promises";
import { dateOfNight, nightOfDate } from "../../src/assign/nights.ts";
import { seededRandom } from "../../src/assign/random.ts";

const SEED = 7;
const STAYS = 96;
const FIRST = nightOfDate("2027-06-04") ?? 0;
const NIGHTS = 14;

interface Kind {
  readonly share: number;
  readonly class: string;
  /** Lengths of the models of this kind. */
  readonly lengths: readonly string[];
  readonly height: string;
  readonly plug: string;
  readonly cord: string;
  readonly sewer: string;
}

const KINDS: readonly Kind[] = [
  { share: 5, class: "class-c", lengths: ["25 ft 2 in", "30 ft 10 in"], height: "11 ft 4 in", plug: "nema-tt-30", cord: "25 ft", sewer: "15 ft" },
  { share: 6, class: "travel-trailer", lengths: ["22 ft 5 in", "28 ft 3 in", "33 ft 8 in"], height: "10 ft 9 in", plug: "nema-tt-30", cord: "30 ft", sewer: "20 ft" },
  { share: 3, class: "class-a", lengths: ["34 ft 1 in", "38 ft 6 in"], height: "12 ft 6 in", plug: "nema-14-50", cord: "30 ft", sewer: "20 ft" },
  { share: 3, class: "fifth-wheel", lengths: ["32 ft 4 in", "38 ft 9 in"], height: "12 ft 11 in", plug: "nema-14-50", cord: "30 ft", sewer: "20 ft" },
  { share: 3, class: "class-b", lengths: ["19 ft 7 in"], height: "9 ft 6 in", plug: "nema-tt-30", cord: "25 ft", sewer: "10 ft" },
  { share: 2, class: "truck-camper", lengths: ["21 ft 11 in"], height: "10 ft 8 in", plug: "nema-tt-30", cord: "25 ft", sewer: "10 ft" },
];

const LENGTHS = [1, 2, 2, 2, 3, 3, 4, 5, 7, 7, 10, 14] as const;
const WISHES = ["", "", "", "shade", "sewer", "pull-through", "Curlew", "shade|water", "Plover", "50-amp"] as const;
const HEAD = [
  "id",
  "arrival",
  "departure",
  "status",
  "rig.class",
  "rig.length",
  "rig.height",
  "rig.power.plug",
  "rig.power.cord",
  "rig.waterHose",
  "rig.sewerHose",
  "needs.sewer",
  "accessible",
  "tight",
  "mustHave",
  "wishes",
  "group",
  "priority",
  "party.people",
  "party.note",
] as const;

const random = seededRandom(SEED);
const among = <T>(list: readonly T[]): T => list[random.whole(list.length)] as T;

function kind(): Kind {
  let left = random.next() * KINDS.reduce((sum, { share }) => sum + share, 0);
  return KINDS.find(({ share }) => (left -= share) < 0) ?? (KINDS[0] as Kind);
}

const rows = Array.from({ length: STAYS }, (_, index) => {
  const { class: sort, lengths, height, plug, cord, sewer } = kind();
  // Every fourth comes on the first day, so that the list begins with a busy gate.
  const arrival = index % 4 === 0 ? 0 : random.whole(NIGHTS - 1);
  const departure = Math.min(NIGHTS, arrival + among(LENGTHS));
  const group = index % 16 === 5 || index % 16 === 6 ? `family-${Math.floor(index / 16) + 1}` : "";
  return [
    `demo-${String(index + 1).padStart(3, "0")}`,
    dateOfNight(FIRST + arrival),
    dateOfNight(FIRST + departure),
    "expected",
    sort,
    among(lengths),
    height,
    plug,
    cord,
    "25 ft",
    sewer,
    index % 24 === 7 ? "required" : "wanted",
    random.next() < 0.04 ? "yes" : "no",
    random.next() < 0.5 ? "yes" : "no",
    random.next() < 0.06 ? "pull-through" : "",
    among(WISHES),
    group,
    random.next() < 0.05 ? "1" : "0",
    String(1 + random.whole(5)),
    "invented",
  ].join(",");
});

await writeFile(new URL("stays.csv", import.meta.url), `${HEAD.join(",")}\n${rows.join("\n")}\n`);
