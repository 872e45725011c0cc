/** How far a job is, how to stop it, how to begin it again. */
import type { Job } from "./jobs.ts";

interface ProgressProps {
  readonly job: Job<unknown>;
  /** "Units and bookings": what is being worked out. */
  readonly what: string;
  readonly start: () => void;
}

const PERCENT = 100;

export function Progress({ job, what, start }: ProgressProps) {
  switch (job.state) {
    case "done":
      return null;
    case "running": {
      const { done, of } = job.progress;
      return (
        <div class="job" data-part="job">
          <label>
            {what}: being worked out on this device,{" "}
            {of === 0 ? "just begun" : `${Math.floor((done / of) * PERCENT)} %`}
            <progress max={Math.max(of, 1)} value={done} />
          </label>
          <button type="button" class="button" onClick={job.stop}>
            Cancel
          </button>
        </div>
      );
    }
    case "failed":
      return (
        <div class="job">
          <p class="trouble" role="alert">
            {job.message}
          </p>
          <button type="button" class="button" onClick={start}>
            Try again
          </button>
        </div>
      );
    default:
      return (
        <div class="job">
          <p class="quiet" role="status">
            {job.state === "stopped" ? `${what}: cancelled.` : `${what}: not worked out yet.`}
          </p>
          <button type="button" class="button strong" onClick={start}>
            Work it out
          </button>
        </div>
      );
  }
}
