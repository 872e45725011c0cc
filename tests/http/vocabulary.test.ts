import { describe, expect, it } from "vitest";
import { vocabularySchema } from "../../src/http/schemas/about.ts";
import { fitAnswerSchema, siteVerdictSchema } from "../../src/http/schemas/answer.ts";
import { kitWhereSchema, worksSchema } from "../../src/http/schemas/trip-parts.ts";
import { vocabulary } from "../../src/http/vocabulary.ts";
import { basis } from "../../src/site/schema/parts.ts";

const idsOf = (words: readonly { id: string }[]) => words.map((word) => word.id);
const { lines, checks, warnings, awning: awnings } = fitAnswerSchema.shape;

describe("the vocabulary", () => {
  const words = vocabulary();
  it("fits its own schema, and every word has a meaning and is listed once", () => {
    expect(vocabularySchema.parse(words)).toEqual(words);
    for (const list of Object.values(words)) {
      expect(list.length).toBeGreaterThan(0);
      expect(new Set(idsOf(list)).size).toBe(list.length);
    }
  });
  it("has exactly the words that answers and records use", () => {
    const line = lines.unwrap().element.shape;
    const check = checks.unwrap().element.shape;
    expect(idsOf(words.siteVerdicts)).toEqual(siteVerdictSchema.options);
    expect(idsOf(words.lineVerdicts)).toEqual(line.verdict.options);
    expect(idsOf(words.services)).toEqual(line.service.options);
    expect(idsOf(words.needs)).toEqual(line.need.options);
    expect(idsOf(words.checkStatuses)).toEqual(check.status.options);
    expect(idsOf(words.checkFamilies)).toEqual(check.family.options);
    expect(idsOf(words.warningCodes)).toEqual(warnings.unwrap().element.shape.code.options);
    const awning = awnings.unwrap().element.shape;
    expect(idsOf(words.exposures)).toEqual(awning.exposure.unwrap().options);
    expect(idsOf(words.awningLevels)).toEqual(awning.wind.unwrap().shape.level.options);
    expect(idsOf(words.hourSignals)).toEqual(awning.hours.unwrap().unwrap().element.shape.signal.options);
    expect(idsOf(words.works)).toEqual(worksSchema.options);
    expect(idsOf(words.kitPlaces)).toEqual(kitWhereSchema.options);
    expect(idsOf(words.bases)).toEqual(basis.options);
  });
  it("has the receptacles of both sides of the ocean, and adapters between known plugs only", () => {
    const plugs = idsOf(words.plugs);
    expect(plugs).toEqual(expect.arrayContaining(["nema-tt-30", "nema-14-50", "iec-60309-2p-e-16", "bs-1363"]));
    for (const { plug, receptacle } of words.adapters)
      expect(plugs).toEqual(expect.arrayContaining([plug, receptacle]));
  });
});
