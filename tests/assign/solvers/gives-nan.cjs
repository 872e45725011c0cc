// A solver that answers with numbers that are none.
module.exports = async () => ({
  infinity: Infinity,
  constants: { variableType: {}, objectiveSense: {}, modelStatus: { optimal: 7 } },
  createModel: ({ numCols }) => ({
    options: { set() {} },
    setSolution() {},
    run() {},
    getModelStatus: () => 7,
    getObjectiveValue: () => NaN,
    getSolution: () => ({ colValue: new Float64Array(numCols).fill(NaN) }),
    dispose() {},
  }),
});
