import { bucketSink, openEdge } from "../edge/runtime.ts";
import { TOKEN } from "./port.ts";
import { holdToContract, hostToken, putCatalogue } from "./suite.ts";

holdToContract("the edge, in workerd", async () => {
  const edge = await openEdge({ settings: { HOST_TOKENS: JSON.stringify([await hostToken()]) } });
  await putCatalogue(await bucketSink(edge));
  return {
    token: TOKEN,
    exactSolver: "none",
    call: async (request) => {
      const body = request.body === null ? null : await request.arrayBuffer();
      const headers = Object.fromEntries(request.headers);
      const { method } = request;
      const reply = await edge.dispatchFetch(request.url, { method, headers, ...(body === null ? {} : { body }) });
      return reply as unknown as Response;
    },
    close: () => edge.dispose(),
  };
});
