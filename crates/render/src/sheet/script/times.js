// How long steps take, from one Done to the next: `knotwright kit --times` computes a maker's own figures from it.

// Who is slower than this had a break.
const LONGEST_MS_A_KNOT = 60_000;
// A line of the file covers at least this: single steps are too short to be timed well.
const LINE_MS = 60_000;
const MOST_LINES = 1_000;

// When the step that is shown was begun; null if nobody knows, as when one came to it another way than by Done.
let begun = null;
const stopClock = () => {
  begun = null;
};
const startClock = () => {
  begun = Date.now();
};
// Nobody can tell whether somebody goes on tying while the page is not seen.
document.addEventListener("visibilitychange", stopClock);

// What is tied in a step: its knots, the turning knots among them, and how often a strand is taken in hand.
const workOf = (part, step) => {
  const { knots } = doing(part, step);
  const last = step > 0 ? doing(part, step - 1).knots.at(-1) : undefined;
  const isTaken = ({ works }, at) => works !== (at > 0 ? knots[at - 1] : last)?.works;
  return [knots.length, knots.filter(({ kind }) => !changesPlaces(kind)).length, knots.filter(isTaken).length];
};

// Adds a step that is done to the times.
const timeStep = (times, { part, step }) => {
  const took = begun === null ? 0 : Date.now() - begun;
  const work = workOf(partAt(part), step);
  if (took <= 0 || took > work[0] * LONGEST_MS_A_KNOT) return;
  const last = times.at(-1);
  if (last && last[3] < LINE_MS) [...work, took].forEach((more, at) => (last[at] += more));
  else if (times.length < MOST_LINES) times.push([...work, took]);
};

const areTimes = (found) =>
  Array.isArray(found) && found.length <= MOST_LINES &&
  found.every((line) => Array.isArray(line) && line.length === 4 && line.every((at) => Number.isInteger(at) && at >= 0));

// Offers the times as a file once they are a minute or more.
const showTimes = (times) => {
  const sum = (at) => times.reduce((total, line) => total + line[at], 0);
  id("times-line").hidden = sum(3) < LINE_MS;
  id("times").textContent = fill(band.words.times, { knots: sum(0), minutes: Math.round(sum(3) / 60_000) });
  const lines = times.map(([knots, turning, taken, took]) => [knots, turning, taken, (took / 1000).toFixed(1)].join());
  const file = ["knots,turning_knots,pick_ups,seconds", ...lines, ""].join("\n");
  id("save-times").href = `data:text/csv;charset=utf-8,${encodeURIComponent(file)}`;
};
