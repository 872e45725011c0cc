import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  resolve: { alias: { "fast-check": fileURLToPath(new URL("tests/structure/seeded-fast-check.ts", import.meta.url)) } },
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/out/**", "node_modules/**"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: "forks",
    maxWorkers: 2,
    reporters: ["default"],
    coverage: { include: ["src/**"], reportsDirectory: "coverage" },
  },
});
