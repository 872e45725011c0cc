/** The languages of the card, for those who can carry all of them; the page loads the one that it shows. */
import de from "../../../data/messages/de.json" with { type: "json" };
import en from "../../../data/messages/en.json" with { type: "json" };
import es from "../../../data/messages/es.json" with { type: "json" };
import fr from "../../../data/messages/fr.json" with { type: "json" };
import type { Language } from "./card.ts";
import type { Catalogue } from "./messages.ts";

const CATALOGUES: Readonly<Record<Language, Catalogue>> = {
  en: { ...en, language: "en" },
  es: { ...es, language: "es" },
  fr: { ...fr, language: "fr" },
  de: { ...de, language: "de" },
};

export const LANGUAGES = ["en", "es", "fr", "de"] as const satisfies readonly Language[];

export function catalogueOf(language: Language): Catalogue {
  return CATALOGUES[language];
}
