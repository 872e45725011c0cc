// A solver that breaks at the first model.
module.exports = async () => ({
  constants: { variableType: {}, objectiveSense: {}, modelStatus: {} },
  createModel() {
    throw new Error("broken on purpose");
  },
});
