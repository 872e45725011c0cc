/**
 * Figures of the service in the text forms that collectors read: OpenMetrics 1.0 and the older Prometheus text (both
 * from memory). Names, labels and bounds of the buckets are those of OpenTelemetry's semantic conventions for HTTP
 * servers (from memory). Kept by route template and status only: no address, no id, no caller.
 */
import type { LogEntry } from "./route.ts";

export interface Metrics {
  /** A request has come. */
  begin(): void;
  /** It was answered; of a stream, its head. */
  observe(entry: LogEntry): void;
  text(form: MetricsForm): string;
}

export const METRICS_FORMS = {
  openmetrics: "application/openmetrics-text; version=1.0.0; charset=utf-8",
  prometheus: "text/plain; version=0.0.4; charset=utf-8",
} as const;
export type MetricsForm = keyof typeof METRICS_FORMS;

export interface MetricsOptions {
  readonly version: string;
  /** When the service started, milliseconds since 1970. */
  readonly now: number;
}

const MILLISECONDS = 1000;
/** Upper bounds, seconds. */
const BOUNDS = [0.005, 0.01, 0.025, 0.05, 0.075, 0.1, 0.25, 0.5, 0.75, 1, 2.5, 5, 7.5, 10];
const DURATION = "http_server_request_duration_seconds";
const ACTIVE = "http_server_active_requests";
const STARTED = "process_start_time_seconds";
const METHODS = ["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"];

interface Series {
  readonly labels: string;
  /** Answers within each bound and not within the one before; the last counts those above all bounds. */
  readonly counts: number[];
  sum: number;
}

export function createMetrics({ version, now }: MetricsOptions): Metrics {
  const series = new Map<string, Series>();
  let active = 0;
  return {
    begin: () => {
      active += 1;
    },
    observe: ({ method, route, status, milliseconds }) => {
      active -= 1;
      // A method that somebody made up, and an address without a route, must not each become a series of their own.
      const named = METHODS.includes(method) ? method : "_OTHER";
      const labels = [`http_request_method="${named}"`, `http_response_status_code="${status}"`];
      if (route !== null) labels.push(`http_route="${route}"`);
      const key = labels.join(",");
      const one = series.get(key) ?? { labels: key, counts: new Array<number>(BOUNDS.length + 1).fill(0), sum: 0 };
      series.set(key, one);
      const seconds = milliseconds / MILLISECONDS;
      const within = BOUNDS.findIndex((bound) => seconds <= bound);
      const at = within < 0 ? BOUNDS.length : within;
      one.counts[at] = (one.counts[at] ?? 0) + 1;
      one.sum += seconds;
    },
    text: (form) => {
      const lines = [
        form === "openmetrics" ? "# TYPE target info" : "# TYPE target_info gauge",
        form === "openmetrics" ? "# HELP target What is measured." : "# HELP target_info What is measured.",
        `target_info{service_name="padwright",service_version="${version}"} 1`,
        `# TYPE ${STARTED} gauge`,
        `# HELP ${STARTED} When this process, or this place of the edge, started.`,
        `${STARTED} ${now / MILLISECONDS}`,
        `# TYPE ${ACTIVE} gauge`,
        `# HELP ${ACTIVE} Requests that have come and are not answered.`,
        `${ACTIVE} ${active}`,
        `# TYPE ${DURATION} histogram`,
        `# HELP ${DURATION} Time from a request to the head of its answer, by route template and status.`,
        ...[...series.values()].flatMap(seriesLines),
        ...(form === "openmetrics" ? ["# EOF"] : []),
      ];
      return `${lines.join("\n")}\n`;
    },
  };
}

function seriesLines({ labels, counts, sum }: Series): string[] {
  let total = 0;
  const buckets = counts.map((count, index) => {
    total += count;
    return `${DURATION}_bucket{${labels},le="${BOUNDS[index] ?? "+Inf"}"} ${total}`;
  });
  return [...buckets, `${DURATION}_sum{${labels}} ${sum}`, `${DURATION}_count{${labels}} ${total}`];
}
