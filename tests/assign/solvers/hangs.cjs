// A solver that is ready and then never comes back.
module.exports = async () => ({
  constants: { variableType: {}, objectiveSense: {}, modelStatus: {} },
  createModel() {
    for (;;);
  },
});
