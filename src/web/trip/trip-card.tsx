/** The card of a stop, as it will be printed. */
import "../card/card.css";
import { CardSheet } from "../card/card-sheet.tsx";

export const TripCard = CardSheet;
