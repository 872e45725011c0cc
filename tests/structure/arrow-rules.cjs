/** Arrows of the rooms: each room may import only rooms to its left. Checked by `npm run check:arrows`. */
const order = [
  ["units"],
  ["geo"],
  ["rig", "site"],
  ["wind"],
  ["fit"],
  ["assign", "trip"],
  ["draw"],
  ["records", "ledger"],
  ["http"],
  ["node", "edge", "cli", "web"],
];
const pure = ["units", "geo", "rig", "site", "wind", "fit", "assign", "trip", "draw"];

const forbidden = order.map((rooms, index) => {
  const right = order.slice(index + 1).flat();
  // The command line may use what node/ offers; every other pair on one step stays apart.
  const sideways = index === order.length - 1 ? [] : rooms;
  return rooms.map((room) => ({
    name: `arrow-${room}`,
    severity: "error",
    from: { path: `^src/${room}/` },
    to: { path: `^src/(${[...right, ...sideways.filter((other) => other !== room)].join("|") || "nothing"})/` },
  }));
});

module.exports = {
  forbidden: [
    ...forbidden.flat(),
    {
      name: "no-circular",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    {
      name: "pure-rooms-know-no-runtime",
      severity: "error",
      from: { path: `^src/(${pure.join("|")})/` },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "pure-rooms-know-no-web-framework",
      severity: "error",
      from: { path: `^src/(${pure.join("|")})/` },
      to: { path: "node_modules/(hono|@hono|preact|vite)/" },
    },
    {
      name: "the-client-stands-alone",
      comment: "Whoever takes the client takes no engine with it; its types are made from the description.",
      severity: "error",
      from: { path: "^src/client/" },
      to: { path: "^src/(?!client/)" },
    },
    {
      name: "source-never-imports-tests",
      severity: "error",
      from: { path: "^src/" },
      to: { path: "^tests/" },
    },
    {
      name: "no-development-packages-at-run-time",
      severity: "error",
      from: { path: "^src/(?!web/)" },
      to: { dependencyTypes: ["npm-dev", "npm-no-pkg", "npm-unknown"], dependencyTypesNot: ["type-only"] },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "default"] },
  },
};
