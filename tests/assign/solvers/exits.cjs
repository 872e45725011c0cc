// A solver whose thread ends in the middle of a solve.
module.exports = async () => ({
  constants: { variableType: {}, objectiveSense: {}, modelStatus: {} },
  createModel() {
    process.exit(1);
  },
});
