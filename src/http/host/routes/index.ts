/** The routes for hosts, in the order in which the description lists them. */
import type { Route } from "../../route.ts";

export const HOST_ROUTES: readonly Route[] = [];
