/** Ten thousand stays in one table, some of them bad: each bad row is an error in its line and column. */
import { describe, expect, it } from "vitest";
import { answered, type Hosts, openHosts, refused } from "../http/host/hosts.ts";

interface Report {
  readonly written: boolean;
  readonly rows: number;
  readonly created: number;
  readonly updated: number;
  readonly unchanged: number;
  readonly refused: number;
  readonly errors: readonly {
    readonly line: number;
    readonly column: number | null;
    readonly name: string | null;
    readonly code: string;
    readonly message: string;
  }[];
  readonly errorCount: number;
}

const HEAD = "id,arrival,departure,rig.class,rig.length,party.name,accessible,wishes";
const row = (id: string, more = "2027-06-01,2027-06-03,class-c,25 ft,Wren Canary,no,shade|quiet") => `${id},${more}`;
const put = async ({ send }: Hosts, text: string, query = "") =>
  answered<Report>(await send("POST", `/stays/import${query}`, text), 200);
const count = ({ ledger }: Hosts, where = "1") =>
  ledger.sql.get(`SELECT count(*) AS n FROM stay WHERE ${where}`)?.["n"];

describe("a table of ten thousand stays", () => {
  it("takes every good row and tells line and column of every bad one", async () => {
    const hosts = await openHosts();
    const bad: Record<number, string> = {
      17: row("b17", "2027-06-03,2027-06-03,class-c,25 ft,,,"),
      404: row("b404", "2027-02-29,2027-03-03,class-c,25 ft,,,"),
      1999: row("b1999", "2027-06-01,2027-06-03,class-c,25,,,"),
      5000: row("b5000", "2027-06-01,2027-06-03,boat,25 ft,,perhaps,"),
      7777: row("r7776"),
      9998: row("b9998", "2027-06-01,2027-06-03,class-c"),
      9999: row("b/9999"),
    };
    const lines = Array.from({ length: 10_000 }, (_, index) => bad[index + 1] ?? row(`r${index + 1}`));
    const report = await put(hosts, [HEAD, ...lines].join("\r\n"));
    expect(report).toMatchObject({ written: true, rows: 10_000, created: 9993, refused: 7, errorCount: 8 });
    expect(report.errors.map(({ line, column, name, code }) => [line, column, name, code])).toEqual([
      [18, 16, "departure", "impossible"],
      [405, 6, "arrival", "bad-form"],
      [2000, 37, "rig.length", "no-unit"],
      [5001, 41, "accessible", "bad-form"],
      [5001, 29, "rig.class", "not-in-list"],
      [7778, 1, "id", "duplicate"],
      [9999, null, null, "bad-form"],
      [10_000, 1, "id", "bad-form"],
    ]);
    expect(report.errors[5]?.message).toBe("Line 7777 has this id.");
    expect(count(hosts)).toBe(9993);
    expect(JSON.stringify(report)).not.toContain("Canary");
    const again = await put(hosts, [HEAD, ...lines].join("\n"));
    expect(again).toMatchObject({ created: 0, unchanged: 9993, refused: 7 });
    expect(hosts.ledger.sql.get("SELECT max(number) AS n FROM change_entry WHERE kind = 'stay'")?.["n"]).toBe(9996);
  });

  it("lists no more errors than the limit and counts them all", async () => {
    const hosts = await openHosts();
    const lines = Array.from({ length: 3000 }, (_, index) =>
      row(`r${index}`, "2027-06-01,2027-06-01,class-c,25 ft,,,"),
    );
    const report = await put(hosts, [HEAD, ...lines].join("\n"));
    expect([report.created, report.errors.length, report.errorCount]).toEqual([0, 2000, 3000]);
  });
});

describe("a table", () => {
  it("may have quotes, breaks within cells, semicolons, a byte order mark and empty lines", async () => {
    const hosts = await openHosts();
    const text = `\ufeffid;arrival;departure;rig.class;rig.length;party.note;needs.sewer\r\n\r\na1;2027-06-01;2027-06-03;class-c;"25 ft";"Dog; ""Moss""\nlate";required\r\n"a2";2027-06-01;2027-06-02;class-c;11' 2";;\r\n`;
    expect(await put(hosts, text)).toMatchObject({ rows: 2, created: 2, errorCount: 0 });
    expect(await answered(await hosts.send("GET", "/stays/a1"), 200)).toMatchObject({
      party: { note: 'Dog; "Moss"\nlate' },
      needs: { sewer: "required" },
    });
    const broken = `${HEAD}\n${row("b1")}\n"b2,2027-06-01\n${row("b3")}\n`;
    const report = await put(hosts, broken);
    expect(report).toMatchObject({ created: 1, refused: 1 });
    expect(report.errors[0]?.message).toContain("line 3, column 1");
    const stray = await put(hosts, `${HEAD}\n"b4"x,2027-06-01,2027-06-03,class-c,25 ft,,,\n${row("b5")}`);
    expect(stray).toMatchObject({ created: 1, refused: 1 });
    expect(stray.errors[0]).toMatchObject({ line: 2, code: "bad-form" });
  });

  it("is refused when its head cannot be used, with every fault and its place", async () => {
    const { send } = await openHosts();
    const faults = async (text: string) =>
      (await refused(await send("POST", "/stays/import", text), 422, "invalid-request")).errors;
    const head = "id,arival,departure,rig.class,id,rig.length";
    expect((await faults(`${head}\n`)).map(({ code, line, column }) => [code, line, column])).toEqual([
      ["unknown-key", 1, 4],
      ["duplicate", 1, 31],
      ["missing", 1, 1],
    ]);
    expect((await faults(`${head}\n`))[0]?.message).toContain('Did you mean "arrival"?');
    expect((await faults(`${HEAD},__proto__\n`))[0]?.code).toBe("unknown-key");
    expect((await faults(" \n\n"))[0]?.message).toContain("empty");
    await refused(await send("POST", "/stays/import", ""), 400, "empty-body");
    await refused(await send("POST", "/stays/import", { id: 1 }), 415, "unsupported-media-type");
    await refused(await send("POST", "/stays/import?existing=drop", `${HEAD}\n`), 400, "invalid-parameter");
    const many = `${HEAD}\n${"x\n".repeat(20_001)}`;
    expect((await faults(many)).map(({ code }) => code)).toEqual(["too-many"]);
  });

  it("changes a stay that is there only on demand, and never into nights of others", async () => {
    const hosts = await openHosts();
    await put(hosts, [HEAD, row("s1"), row("s2", "2027-06-03,2027-06-05,class-c,25 ft,,,")].join("\n"));
    const moves = ["s1", "s2"].map((stay) => ({ stay, from: null, to: "A7" }));
    await answered(await hosts.send("POST", "/assignment/move", { moves }), 200);
    const longer = [
      HEAD,
      row("s1", "2027-06-01,2027-06-04,class-c,25 ft,,,"),
      row("s2", "2027-06-04,2027-06-05,class-c,25 ft,,,"),
      row("s3"),
    ].join("\n");
    const refusedAll = await put(hosts, longer);
    expect(refusedAll).toMatchObject({ created: 1, updated: 0, refused: 2 });
    expect(refusedAll.errors.map(({ line, code }) => [line, code])).toEqual([
      [2, "exists"],
      [3, "exists"],
    ]);
    const preview = await put(hosts, longer, "?existing=update&preview=true");
    const done = await put(hosts, longer, "?existing=update");
    expect(done).toMatchObject({ written: true, updated: 1, unchanged: 1, refused: 1 });
    expect(preview).toEqual({ ...done, written: false });
    expect(done.errors).toMatchObject([{ line: 2, code: "taken" }]);
    expect(await answered(await hosts.send("GET", "/stays/s1"), 200)).toMatchObject({ departure: "2027-06-03" });
    // Once the other has gone the same row is taken.
    expect(await put(hosts, longer, "?existing=update")).toMatchObject({ updated: 1, unchanged: 2, refused: 0 });
    expect(count(hosts, "departure = '2027-06-04'")).toBe(1);
  });

  it("keeps what looks like a formula or like markup as the text that it is", async () => {
    const hosts = await openHosts();
    const name = '=HYPERLINK("http://x")<script>';
    const text = `${HEAD}\n${row("f1", `2027-06-01,2027-06-03,class-c,25 ft,"${name.replaceAll('"', '""')}",,`)}`;
    expect(await put(hosts, text)).toMatchObject({ created: 1 });
    const response = await hosts.send("GET", "/stays/f1");
    expect(response.headers.get("content-type")).toBe("application/json");
    expect(response.headers.get("x-content-type-options")).toBe("nosniff");
    expect(await answered(response, 200)).toMatchObject({ party: { name } });
    const sql = `${HEAD}\n${row("f2", `2027-06-01,2027-06-03,class-c,25 ft,"'); DROP TABLE stay; --",,`)}`;
    await put(hosts, sql);
    expect(count(hosts)).toBe(2);
  });
});
