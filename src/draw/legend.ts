/** The legend: only what occurs on this plan. */
import { type LegendKey, SAMPLE_HEIGHT, SAMPLE_WIDTH, SAMPLES } from "./samples.ts";
import { INK } from "./style.ts";
import { element } from "./svg.ts";
import { rowsHeight, textBlock, wrapText } from "./text.ts";

const COLUMN_WIDTH = 235;
const NARROW_COLUMN_WIDTH = 160;
/** An area narrower than this has the narrower columns. */
const NARROW_AREA = 2 * COLUMN_WIDTH;
const COLUMN_GAP = 16;
const SAMPLE_GAP = 8;
const ENTRY_GAP = 6;

/** The legend in columns; entries in a fixed order. Returns the ink and the height it takes. */
export function drawLegend(
  keys: ReadonlySet<LegendKey>,
  area: { readonly x: number; readonly y: number; readonly width: number },
  fontSize: number,
): { ink: string; height: number } {
  const entries = SAMPLES.filter(([key]) => keys.has(key));
  const wanted = area.width < NARROW_AREA ? NARROW_COLUMN_WIDTH : COLUMN_WIDTH;
  const count = Math.max(1, Math.floor((area.width + COLUMN_GAP) / (wanted + COLUMN_GAP)));
  const columnWidth = (area.width - (count - 1) * COLUMN_GAP) / count;
  const perColumn = Math.ceil(entries.length / count);
  let ink = "";
  let height = 0;
  for (let column = 0; column < count; column += 1) {
    const x = area.x + column * (columnWidth + COLUMN_GAP);
    let y = area.y;
    for (const [key, sample] of entries.slice(column * perColumn, (column + 1) * perColumn)) {
      const rows = wrapText(sample.words, fontSize, columnWidth - SAMPLE_WIDTH - SAMPLE_GAP);
      const entryHeight = Math.max(SAMPLE_HEIGHT, rowsHeight(rows.length, fontSize));
      const at = { x, y: y + entryHeight / 2 };
      const top = at.y - rowsHeight(rows.length, fontSize) / 2;
      ink += element(
        "g",
        { "data-legend": key },
        sample.draw(at),
        textBlock(rows, x + SAMPLE_WIDTH + SAMPLE_GAP, top, fontSize, { fill: INK }),
      );
      y += entryHeight + ENTRY_GAP;
    }
    height = Math.max(height, y - area.y);
  }
  return { ink, height };
}
