import { defineConfig } from "vitest/config";

export default defineConfig({
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
