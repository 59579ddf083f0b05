// "I am lost": the order as it hangs, and which step that is; or the nearest, and what to untie.

const MOST_ANSWERS = 5;
const MOST_SLIPS = 3;
const MOST_PARTS_BACK = 200;

// The last part that ties something: what is made of the ends moves no strand.
const lastTied = parts - 1 - (band.finish ? 1 : 0);

// Every part in its colors once, with the number of its first occurrence.
const differentParts = () => {
  const all = [...(band.opening ? [before - 1] : []), ...band.sets.map((_, set) => before + set)];
  return band.closing ? [...all, lastTied] : all;
};

// Calls with every state of the band once: the part's number, the step that comes next, and how the strands hang.
const everyState = (each) => {
  for (const number of differentParts()) {
    const part = partAt(number);
    const passage = passageOf(part);
    const hang = part.threads.map((_, strand) => strand);
    let knot = 0;
    for (let step = 0; step < passage.ends.length; step += 1) {
      each({ number, step, part, hang });
      for (; knot < passage.ends[step]; knot += 1) tie(hang, passage.knots[knot]);
    }
    if (number === lastTied) each({ number, step: passage.ends.length, part, hang });
  }
};

// How many swaps of neighbors lead from one order of threads to another with the same threads.
const swapsBetween = (one, other, most) => {
  const taken = new Set();
  const goal = one.map((thread) => {
    let at = 0;
    while (at < other.length && (other[at] !== thread || taken.has(at))) at += 1;
    taken.add(at);
    return at;
  });
  // Where strands go on with other threads, not all states have the same ones.
  if (taken.has(other.length)) return Infinity;
  let swaps = 0;
  for (let left = 0; left < goal.length; left += 1) {
    for (let right = left + 1; right < goal.length; right += 1) swaps += goal[left] > goal[right] ? 1 : 0;
    if (swaps > most) return Infinity;
  }
  return swaps;
};

// Where the strands hang as picked; else where all but two of them do, which one wrong knot may have exchanged, and where
// the fewest swaps lead from.
const located = (picked) => {
  const fits = [];
  const slips = [];
  let near = [];
  everyState(({ number, step, part, hang }) => {
    const now = threadsAt(part, step);
    const threads = hang.map((strand) => now[strand]);
    const places = threads.flatMap((thread, at) => (thread === picked[at] ? [] : [at]));
    if (places.length === 0) fits.push({ number, step });
    if (fits.length > 0) return;
    const isSlip = places.length === 2 && slips.length < MOST_SLIPS;
    const most = isSlip || near.length < MOST_ANSWERS ? Infinity : near.at(-1).swaps;
    const swaps = swapsBetween(picked, threads, most);
    if (isSlip) slips.push({ number, step, swaps, places, pair: places.map((at) => hang[at]), names: picked });
    if (places.length === 2 || swaps >= most) return;
    near = [...near, { number, step, swaps }];
    near.sort((a, b) => a.swaps - b.swaps);
    near.length = Math.min(near.length, MOST_ANSWERS);
  });
  return { fits, slips, near };
};

// The last step before this one in which two strands were tied together, if only they hang swapped.
const lastMeeting = ({ number, step, pair }) => {
  let [one, other] = pair;
  for (let at = number; at >= 0 && number - at < MOST_PARTS_BACK; at -= 1) {
    const part = partAt(at);
    const passage = passageOf(part);
    const hang = part.threads.map((_, strand) => strand);
    const until = at === number ? knotsFrom(passage, step) : passage.knots.length;
    let met = -1;
    for (let knot = 0; knot < until; knot += 1) {
      const { gap } = knotOf(passage.knots[knot]);
      const here = [hang[gap], hang[gap + 1]];
      if (here.includes(one) && here.includes(other)) met = knot;
      tie(hang, passage.knots[knot]);
    }
    if (met >= 0) return { number: at, step: passage.ends.findIndex((end) => end > met) };
    if (at === 0) break;
    const earlier = hangingAt(partAt(at - 1), passageOf(partAt(at - 1)).ends.length);
    [one, other] = [earlier[one], earlier[other]];
  }
  return null;
};

// Of sets that are tied alike, the one nearest to where the page is.
const nearestAlike = ({ number, step }, now) => {
  const set = number - before;
  if (number < before || set >= band.times || set < band.again || band.times <= differ) return { number, step };
  const period = differ - band.again;
  const most = Math.floor((band.times - 1 - set) / period);
  const times = Math.max(0, Math.min(most, Math.round((now - number) / period)));
  return { number: number + times * period, step };
};

const followLost = (placeNow, go) => {
  const picked = [];
  const counts = band.threads.map((_, thread) => band.end.filter((other) => other === thread).length);
  const sentence = (words, at, more = {}) =>
    fill(words, { where: whereIs(at.number), step: at.step + 1, ...more });
  const answer = (text, to) => {
    const line = document.createElement("p");
    line.textContent = `${text} `;
    if (to) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: band.words.go });
      button.addEventListener("click", () => go({ part: to.number, step: to.step }));
      line.append(button);
    }
    return line;
  };
  const untie = (near) => {
    const met = near.pair && lastMeeting(near);
    if (!met) return [];
    const [left, right] = near.places;
    const [one, other] = near.places.map((at) => band.threads[near.names[at]].name);
    return [answer(sentence(band.words.untie, met, { left: left + 1, right: right + 1, one, other }), met)];
  };
  const isEnd = (at) => at.step >= stepsIn(at.number);
  const target = (at) => (isEnd(at) ? { ...at, number: lastTied + 1, step: 0 } : at);
  const fitting = (at) => {
    const to = nearestAlike(at, placeNow());
    return answer(isEnd(to) ? band.words.end : sentence(band.words.fits, to), target(to));
  };
  const alike = (at) => {
    const { near, nearEnd } = band.words;
    const words = isEnd(at) ? fill(nearEnd, { swaps: at.swaps }) : sentence(near, at, { swaps: at.swaps });
    return answer(words, target(at));
  };
  const answers = () => {
    const { fits, slips, near } = located(picked);
    const more = band.times > differ ? [answer(band.words.fitsMore)] : [];
    if (fits.length > 0) return [...fits.slice(0, MOST_ANSWERS).map(fitting), ...more];
    const fewest = Math.min(...[...slips, ...near].map(({ swaps }) => swaps));
    const lines = [...slips, ...near.filter(({ swaps }) => swaps === fewest)];
    return [
      answer(band.words.fitsNone),
      ...lines.map((at) => ({ ...at, ...nearestAlike(at, placeNow()) })).flatMap((at) => [alike(at), ...untie(at)]),
    ];
  };
  const show = () => {
    id("hanging").replaceChildren(...picked.map((thread, position) => chip(thread, position)));
    for (const button of id("picks").children) {
      const thread = Number(button.dataset.thread);
      button.disabled = picked.filter((other) => other === thread).length >= counts[thread];
    }
    id("unpick").disabled = picked.length === 0;
    id("found").replaceChildren(...(picked.length === band.end.length && picked.length > 0 ? answers() : []));
  };
  const pick = (thread) => {
    picked.push(thread);
    show();
  };
  id("picks").replaceChildren(...band.threads.map(({ name, letter }, thread) => {
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: `${letter} ${name}` });
    button.className = `t${thread}`;
    button.dataset.thread = thread;
    button.addEventListener("click", () => pick(thread));
    return button;
  }));
  id("unpick").addEventListener("click", () => {
    picked.pop();
    show();
  });
  show();
};
