/** The desk: which unit of the fleet for which booking, what leaves today and with what aboard. */
import "./desk.css";
import { useEffect, useState } from "preact/hooks";
import { useTools } from "../context.ts";
import { announce } from "../shared/announce.tsx";
import { useStore } from "../state/store.ts";
import { Departures, dayToShow } from "./departures.tsx";
import { Faults } from "./faults.tsx";
import { deskFiles } from "./files.ts";
import { FilesPanel } from "./files-panel.tsx";
import { deskBody, desks, jobOf, workDesk } from "./jobs.ts";
import { Matrix } from "./matrix.tsx";
import { Progress } from "./progress.tsx";
import { StockPanel } from "./stock-panel.tsx";
import { useWatched } from "./watched.ts";
import { today } from "./words.ts";

/** A clerk who opens three files one after the other starts it once. Milliseconds. */
const REST = 400;

export function DeskView() {
  const tools = useTools();
  const units = useStore((state) => state.kept.units);
  const files = useWatched(deskFiles);
  const body = deskBody(files, units);
  const job = jobOf(useWatched(desks), body);
  const [chosenDay, setDay] = useState<string | null>(null);
  const start = () => {
    void workDesk(tools, body);
  };
  useEffect(() => {
    const timer = setTimeout(() => job.state === "none" && start(), REST);
    return () => clearTimeout(timer);
  }, [files, units]);
  useEffect(() => {
    if (job.state === "done") announce("The desk is worked out.");
  }, [job.state]);
  const told = job.state === "done" ? job.told : null;
  const plan = told?.ok === true ? told.plan : null;
  const days = plan === null ? [] : [...new Set(plan.trips.map((trip) => trip.from))];
  const day = chosenDay ?? dayToShow(days, today());
  const invented = files.fleet.demo || files.trips.demo || files.stock.demo;
  return (
    <article class="desk" data-state={job.state}>
      <div>
        <h1>Desk</h1>
        {invented && (
          <p class="quiet" data-part="invented">
            Fleet, bookings and stock of the demo are invented: no such units and no such people exist.
          </p>
        )}
      </div>
      <Progress job={job} what="Units and bookings" start={start} />
      {told?.ok === false && <Faults errors={told.errors} files={files} />}
      {plan !== null && told?.ok === true && <Departures plan={plan} words={told.words} day={day} setDay={setDay} />}
      <Matrix files={files} plan={plan} />
      {plan !== null && <StockPanel plan={plan} />}
      {plan !== null && !plan.proven && (
        <p class="quiet">The allotment of units is good, not proven to be the best: there were too many to try.</p>
      )}
      <FilesPanel files={files} />
    </article>
  );
}
