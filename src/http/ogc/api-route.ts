/** The description of the geodata interface alone, as OpenAPI 3.0 and as a page to read. */
import { documentPage } from "../openapi/document-page.ts";
import { pagePolicy } from "../openapi/page-policy.ts";
import { refuseParameters } from "../parameters.ts";
import { cacheable } from "../representation.ts";
import type { Route } from "../route.ts";
import { type Formats, formatFor, JSON_TYPE, ROOT } from "./answer.ts";
import { apiDocument } from "./api-document.ts";
import { formatParameter, SHARED } from "./describe.ts";

export const OPENAPI_TYPE = "application/vnd.oai.openapi+json;version=3.0";
const BARE_OPENAPI_TYPE = "application/vnd.oai.openapi+json";
const HTML_TYPE = "text/html";
const SOURCES = 'The same as <a href="/ogc/api?f=plain">/ogc/api</a>; everything else is at <a href="/docs">/docs</a>.';
const FORMATS: Formats = [
  ["json", BARE_OPENAPI_TYPE],
  ["html", HTML_TYPE],
  ["plain", JSON_TYPE],
];

/** @param routes Gives the routes that are described; asked when a request comes. */
export function apiRoute(routes: () => readonly Route[]): Route {
  return {
    ...SHARED,
    path: `${ROOT}/api`,
    operationId: "ogcApi",
    summary: "Geodata: the description",
    description:
      "OpenAPI 3.0 of the geodata interface alone, with the parameters of each collection at its own path. The rest of the interface is at /openapi.json.",
    parameters: [formatParameter("json", "html", "plain")],
    answer: {
      description: "The description.",
      content: {
        [OPENAPI_TYPE]: { schema: { type: "object" } },
        [HTML_TYPE]: { schema: { type: "string" } },
        [JSON_TYPE]: { schema: { type: "object" } },
      },
    },
    problems: ["invalid-parameter"],
    handle: async ({ request, url, version }) => {
      refuseParameters(url, ["f"]);
      const type = formatFor(request, url, FORMATS);
      const document = apiDocument(routes(), version, url.origin);
      if (type === HTML_TYPE)
        return cacheable(request, documentPage(document, SOURCES), `${HTML_TYPE}; charset=utf-8`, await pagePolicy());
      return cacheable(request, JSON.stringify(document), type === BARE_OPENAPI_TYPE ? OPENAPI_TYPE : type);
    },
  };
}
