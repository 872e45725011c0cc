/** The published weights of an assignment: data/assignment-weights.json, the one place in which they stand. */
import table from "../../data/assignment-weights.json" with { type: "json" };
import type { AssignmentWeights } from "./problem.ts";

const { objective } = table;

export const DEFAULT_WEIGHTS: AssignmentWeights = {
  unplaced: objective.unplaced.points,
  unplacedNight: objective.unplacedNight.points,
  shortGap: objective.shortGap.points,
  minimumStay: objective.minimumStay.nights,
  move: objective.move.points,
  apart: objective.apart.points,
  nearDistance: objective.nearDistance.metres,
};

/** Points of the terms that make up the score of one stay at one site. */
export const SCORE_WEIGHTS = table.score;
