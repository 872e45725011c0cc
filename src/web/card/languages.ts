/** Loads the messages of the language that is shown, and of no other. */
import { useEffect, useState } from "preact/hooks";
import type { Language } from "../../trip/card/card.ts";
import type { Catalogue } from "../../trip/card/messages.ts";

type Loaded = Omit<Catalogue, "language">;

const LOADERS: Readonly<Record<Language, () => Promise<{ readonly default: Loaded }>>> = {
  en: () => import("../../../data/messages/en.json"),
  es: () => import("../../../data/messages/es.json"),
  fr: () => import("../../../data/messages/fr.json"),
  de: () => import("../../../data/messages/de.json"),
};

/** The languages by their own names. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = {
  en: "English",
  es: "Español",
  fr: "Français",
  de: "Deutsch",
};

export interface CatalogueState {
  /** Null until it is loaded. */
  readonly catalogue: Catalogue | null;
  readonly failed: boolean;
}

const NOTHING: CatalogueState = { catalogue: null, failed: false };

/** A language that this build does not have, as an older visit may have kept it, is English. */
const known = (language: Language): Language => (Object.hasOwn(LOADERS, language) ? language : "en");

export function useCatalogue(kept: Language): CatalogueState {
  const language = known(kept);
  const [state, setState] = useState(NOTHING);
  useEffect(() => {
    let gone = false;
    LOADERS[language]().then(
      (module) => !gone && setState({ catalogue: { ...module.default, language }, failed: false }),
      () => !gone && setState({ catalogue: null, failed: true }),
    );
    return () => {
      gone = true;
    };
  }, [language]);
  return state.catalogue?.language === language || state.failed ? state : NOTHING;
}
