// The band as the page has it: parts in the order of tying, their steps, and how the strands hang at each.

const band = JSON.parse(document.getElementById("band").textContent);
const id = (name) => document.getElementById(name);
const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
// Two numbers with a dash between them stay on one line.
const joined = (text) => text.replace(/(\d)\u2013(?=\d)/g, "$1\u2060\u2013\u2060");

// The beginning, the opening, every set, the closing, the end. Of sets, only those that differ are known apart.
const named = (names) => names.filter((name) => band[name]);
const firsts = named(["begin", "opening"]);
const lasts = named(["closing", "finish"]);
const before = firsts.length;
const parts = before + band.times + lasts.length;
const differ = band.sets.length;
const setAt = (set) => (set < differ ? set : band.again + ((set - band.again) % (differ - band.again)));
// The name of a part that is no set.
const nameAt = (number) => (number < before ? firsts[number] : lasts[number - before - band.times]);
const partAt = (number) => {
  const name = nameAt(number);
  return name ? band[name] : band.sets[setAt(number - before)];
};
const passageOf = (part) => band.passages[part.passage];
const stepsIn = (number) => passageOf(partAt(number)).ends.length;

// By knot of a part its row, and the row of the whole band from which those count.
const rowsAt = (number) => {
  const { laid, opening, sets, again, rise, closing } = band.rows;
  const name = nameAt(number);
  // An end has no row: it is where the knots begin, or where they end.
  if (name === "begin") return { rows: [], base: 0 };
  if (name === "finish") return { rows: [], base: number > 0 ? rowSpan(number - 1)[1] : 0 };
  const place = () => {
    if (name === "opening") return opening;
    if (name === "closing") return closing;
    const set = number - before;
    if (set < sets.length) return sets[set];
    const [past, period] = [set - again, sets.length - again];
    const [way, base] = sets[again + (past % period)];
    return [way, base + rise * Math.floor(past / period)];
  };
  const [way, base] = place();
  return { rows: laid[way], base };
};

// A knot as numbers: kinds are forward, backward, forward-backward, backward-forward.
const knotOf = (number) => ({ gap: Math.floor(number / 32), form: Math.floor((number % 32) / 4), kind: number % 4 });
const worksFromLeft = (kind) => kind % 2 === 0;
const changesPlaces = (kind) => kind < 2;
const tie = (hang, number) => {
  const { gap, kind } = knotOf(number);
  if (changesPlaces(kind)) [hang[gap], hang[gap + 1]] = [hang[gap + 1], hang[gap]];
};

const knotsFrom = (passage, step) => (step === 0 ? 0 : passage.ends[step - 1]);
// By position, the strand that hangs there before a step; strands are named by where they hang as the part begins.
const hangingAt = (part, step) => {
  const passage = passageOf(part);
  const hang = part.threads.map((_, strand) => strand);
  for (let knot = 0; knot < knotsFrom(passage, step); knot += 1) tie(hang, passage.knots[knot]);
  return hang;
};

// By strand of a part, its thread before a step: joined strands may go on with another one.
const threadsAt = (part, step) => {
  const threads = [...part.threads];
  for (const [at, strand, thread] of passageOf(part).joins ?? []) {
    if (at < step && thread !== null) threads[strand] = thread;
  }
  return threads;
};

const whereIs = (number) => {
  const name = nameAt(number);
  return name ? band.words[name] : fill(band.words.set, { set: number - before + 1, sets: band.times });
};

const svgElement = (name, attributes, ...children) => {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [attribute, value] of Object.entries(attributes)) element.setAttribute(attribute, value);
  element.append(...children);
  return element;
};
