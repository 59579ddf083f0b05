// The picture around the place: what is tied is bright, what comes is pale, and the current knots have rings.

const LETTERS = "fbrlhvw";
const [ACROSS, DOWN] = band.cell;
// A small band is not blown up beyond this many rows.
const LEAST_ROWS = 9;

// By knot of a part, the thread that shows; the same for every set in these colors.
const threadsShown = new Map();
const threadsOf = (part, number) => {
  // Threads that change color along their length show others each time. A beginning ties no knot.
  const dyed = band.dyed?.parts[number - (band.begin ? 1 : 0)];
  if (dyed?.length) return dyed;
  // What nothing ties yet says itself which threads are to be seen.
  const { wished } = passageOf(part);
  if (wished) return wished;
  if (!threadsShown.has(part)) {
    const hang = part.threads.map((_, strand) => strand);
    const { ends } = passageOf(part);
    let step = 0;
    let threads = threadsAt(part, step);
    const shown = passageOf(part).knots.map((number, knot) => {
      while (ends[step] <= knot) threads = threadsAt(part, (step += 1));
      const { gap, kind } = knotOf(number);
      const thread = threads[hang[worksFromLeft(kind) ? gap : gap + 1]];
      tie(hang, number);
      return thread;
    });
    threadsShown.set(part, shown);
  }
  return threadsShown.get(part);
};

// The knots of a part between two rows, each with what it is now: tied, being tied, or still to come.
const knotsWithin = (number, place, [from, to]) => {
  const part = partAt(number);
  const passage = passageOf(part);
  const { rows, base } = rowsAt(number);
  const current = number === place.part ? [knotsFrom(passage, place.step), passage.ends[place.step]] : [0, 0];
  const stateOf = (knot) => {
    // What nothing ties yet is pale as it is, and not in hand.
    if (passage.wished) return "done";
    if (number !== place.part) return number < place.part ? "done" : "later";
    return knot < current[0] ? "done" : knot < current[1] ? "now" : "later";
  };
  const threads = threadsOf(part, number);
  const found = [];
  for (let knot = 0; knot < rows.length; knot += 1) {
    const row = base + rows[knot];
    if (row < from || row > to) continue;
    const { gap, form } = knotOf(passage.knots[knot]);
    found.push({ x: (gap + 1) * ACROSS, y: (row + 1) * DOWN, form, thread: threads[knot], state: stateOf(knot) });
  }
  return found;
};

// The beads of a part, each between its knots, as far as they are of this part.
const beadsOf = (number, place) => {
  const { beads = [], knots } = passageOf(partAt(number));
  const { rows, base } = rowsAt(number);
  return beads.map(([before, position, strands, bead, step]) => {
    const holds = (knot) => {
      const { gap } = knotOf(knots[knot]);
      return gap + 1 >= position && gap < position + strands;
    };
    let [above, below] = [before - 1, before];
    while (above >= 0 && !holds(above)) above -= 1;
    while (below < knots.length && !holds(below)) below += 1;
    const after = above >= 0 ? rows[above] : (rows[below] ?? 2) - 2;
    const until = rows[below] ?? after + 2;
    const is = number === place.part ? Math.sign(step - place.step) : Math.sign(number - place.part);
    return {
      x: (position + strands / 2) * ACROSS, y: (base + (after + until) / 2 + 1) * DOWN, bead,
      state: ["done", "now", "later"][is + 1],
    };
  });
};

const highest = new Map();
const rowSpan = (number) => {
  const { rows, base } = rowsAt(number);
  if (rows.length === 0) return [base, base];
  if (!highest.has(rows)) {
    highest.set(rows, rows.reduce(([least, most], row) => [Math.min(least, row), Math.max(most, row)], [Infinity, 0]));
  }
  const [least, most] = highest.get(rows);
  return [base + least, base + most];
};

// The row in the middle of what is tied now; at the end the last.
const rowOf = (place) => {
  if (place.part >= parts) return parts > 0 ? rowSpan(parts - 1)[1] : 0;
  const passage = passageOf(partAt(place.part));
  const { rows, base } = rowsAt(place.part);
  if (rows.length === 0) return base;
  // A bead ties no knot: it is near the last one before it.
  return base + rows[Math.max(0, Math.floor((knotsFrom(passage, place.step) + passage.ends[place.step] - 1) / 2))];
};

const colors = band.dyed?.colors ?? band.threads.map(({ color, rim }) => [color, rim]);
const drawnKnot = ({ x, y, form, thread, state }) => {
  const [color, rim] = colors[thread] ?? ["#808080", "#404040"];
  return svgElement("use", { href: `#knot-${LETTERS[form]}`, x, y, fill: color, color: rim, class: state });
};
const drawnBead = ({ x, y, bead, state }) => {
  const { color, rim, radius } = band.beads[bead] ?? { color: "#808080", rim: "#404040", radius: ACROSS };
  return svgElement("circle", { cx: x, cy: y, r: radius * 0.94, fill: color, stroke: rim, "stroke-width": radius * 0.1, class: state });
};
// Knots side by side, as in the row of a leader, have one frame around them all; any other has a ring.
const sideBySide = (knots) => {
  const runs = [];
  for (const knot of [...knots].sort((one, other) => one.y - other.y || one.x - other.x)) {
    const last = runs.at(-1)?.at(-1);
    if (last && last.y === knot.y && knot.x - last.x < ACROSS * 1.5) runs.at(-1).push(knot);
    else runs.push([knot]);
  }
  return runs;
};
const ring = (run) => {
  const [{ x, y }, last] = [run[0], run.at(-1)];
  const r = Math.max(ACROSS * 0.78, (band.beads?.[run[0].bead]?.radius ?? 0) * 1.1);
  const frame = { x: x - r, y: y - DOWN * 0.6, width: last.x - x + 2 * r, height: DOWN * 1.2, rx: DOWN * 0.5 };
  const [name, shape] = run.length === 1 ? ["circle", { cx: x, cy: y, r }] : ["rect", frame];
  return [["#140c1c", 0.5], ["#fff", 0.24]].map(([stroke, wide]) =>
    svgElement(name, { ...shape, fill: "none", stroke, "stroke-width": wide * ACROSS * 0.75 }));
};

// How far the widest bead and its ring reach: beyond the strands at their edges, and above the first row.
const beadRooms = () => {
  let [beside, above] = [0, 0];
  const strands = band.end.length || 1;
  for (const { beads = [] } of band.passages) {
    for (const [, position, held, bead] of beads) {
      const reach = (band.beads?.[bead]?.radius ?? 0) * 1.1 + ACROSS * 0.3;
      const middle = position + held / 2;
      const nearest = Math.min(middle, strands - middle) * ACROSS;
      beside = Math.max(beside, reach - nearest - ACROSS / 2);
      above = Math.max(above, reach);
    }
  }
  return { beside, above };
};
const ROOM = beadRooms();

const showStrip = (place) => {
  const strip = id("strip");
  const { clientWidth, clientHeight } = strip;
  if (clientWidth === 0 || clientHeight === 0) return;
  const wide = ((band.end.length || 1) + 1) * ACROSS + 2 * ROOM.beside;
  const scale = Math.min(clientWidth / wide, clientHeight / (LEAST_ROWS * DOWN));
  const high = clientHeight / scale;
  // Under the first row there is no picture: it begins at the upper edge.
  const top = Math.max(-ROOM.above, (rowOf(place) + 1.5) * DOWN - high / 2);
  const window = [Math.floor(top / DOWN) - 2, Math.ceil((top + high) / DOWN)];
  const knots = [];
  const beads = [];
  // Parts overlap by a few rows, so one that ends above may be followed, further back, by one that does not.
  const visit = (number) => {
    knots.push(...knotsWithin(number, place, window));
    beads.push(...beadsOf(number, place));
  };
  const reaches = (number) => number >= 0 && number < parts;
  const first = Math.min(place.part, parts - 1);
  for (let part = first; reaches(part) && rowSpan(part)[1] >= window[0] - 4; part -= 1) visit(part);
  knots.reverse();
  for (let part = first + 1; reaches(part) && rowSpan(part)[0] <= window[1] + 4; part += 1) visit(part);
  const picture = svgElement("svg", {
    viewBox: `${(wide - clientWidth / scale) / 2 - ACROSS / 2 - ROOM.beside} ${top} ${clientWidth / scale} ${high}`,
    width: clientWidth, height: clientHeight, "aria-hidden": "true",
  });
  // What comes is pale as a whole: each knot by itself would let the one beneath it through.
  const later = svgElement("g", { class: "later" });
  const isLater = (knot) => knot.state === "later";
  later.append(...knots.filter(isLater).map(drawnKnot), ...beads.filter(isLater).map(drawnBead));
  const tied = knots.filter((knot) => !isLater(knot));
  const threaded = beads.filter((bead) => !isLater(bead));
  const now = (of) => of.filter(({ state }) => state === "now");
  picture.append(later, ...tied.map(drawnKnot), ...threaded.map(drawnBead), ...sideBySide(now(tied)).flatMap(ring),
    ...now(threaded).flatMap((bead) => ring([bead])));
  strip.replaceChildren(picture);
};
