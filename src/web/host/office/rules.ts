/** What bars a site from a stay, in words. */
const OWN: Readonly<Record<string, string>> = {
  closed: "closed on one of the nights",
  "outlet-closed": "the outlet that it needs is closed",
  held: "somebody has it on one of the nights",
  "held-for-good": "guests in house or with a promise have it",
  tight: "it is tight there",
  "needs-accessible": "not accessible",
  "must-have": "lacks what they must have",
  "by-hand": "by the host's word",
};

/** Checks of the fit by their ids. */
const CHECKS: Readonly<Record<string, string>> = {
  "fit.length": "length",
  "fit.width": "width",
  "fit.overhang": "overhang",
  "fit.parking": "room to park",
  "fit.slides": "slides",
  "fit.stand": "no place to stand from which the lines reach",
  "fit.stop": "the stop",
  "height.access": "height on the way in",
  "height.limit": "height on the pad",
  "limits.length": "the length that the host allows",
  "limits.width": "the width that the host allows",
  "line.power": "the power cord",
  "line.water": "the water hose",
  "line.sewer": "the drain hose",
  "power.mating": "plug and receptacle",
  "power.contested": "the receptacle may be taken",
  "site.closed": "the record says closed",
  "door.clear": "the door",
  "awning.room": "the awning",
};

export function ruleText(rule: string): string {
  const [kind = "", check = ""] = rule.split(":");
  const words = CHECKS[check] ?? check.replaceAll(/[.-]/g, " ");
  if (kind === "fit") return `does not fit, ${words}`;
  if (kind === "unknown") return `not known, ${words}`;
  return OWN[rule] ?? rule;
}
