// The steps one at a time: where one is, forward and back, and what is remembered.

const key = "knotwright:" + document.documentElement.dataset.band;
let kept = { part: 0, step: 0, ticks: {}, times: [] };
const store = (work) => {
  try {
    return work(window.localStorage);
  } catch {
    id("not-kept").hidden = false;
    return null;
  }
};
const keep = () => store((storage) => storage.setItem(key, JSON.stringify(kept)));
const read = () => {
  const text = store((storage) => storage.getItem(key));
  if (!text) return;
  try {
    const found = JSON.parse(text);
    const whole = (value) => Number.isInteger(value) && value >= 0;
    if (whole(found.part) && whole(found.step) && found.part <= parts) {
      const times = areTimes(found.times) ? found.times : [];
      kept = { part: found.part, step: found.step, ticks: Object(found.ticks), times };
    }
  } catch {
    // What is stored there is not ours: start over.
  }
};

const place = { part: 0, step: 0 };
// Parts without a step are passed over, and a place beyond the last step is the end.
const settle = () => {
  place.step = kept.step;
  place.part = kept.part;
  while (place.part < parts && place.step >= stepsIn(place.part)) {
    place.part += 1;
    place.step = 0;
  }
  kept.part = place.part;
  kept.step = place.step;
};

const tell = () => {
  const part = partAt(place.part);
  const passage = passageOf(part);
  const at = fill(band.words.step, { step: place.step + 1, steps: passage.ends.length });
  const section = passage.sections.findLast(([step]) => step <= place.step);
  id("where").textContent = [whereIs(place.part), at, section && section[1]].filter(Boolean).join(" \u00b7 ");
  const notes = passage.notes.filter(([step]) => step === place.step);
  id("notes").textContent = notes.map(([, note]) => note).join(" ");
  id("text").textContent = joined(band.texts[part.texts[place.step]]);
  id("hands").hidden = Boolean(passage.wished);
  showHands(doing(part, place.step));
};

const show = () => {
  settle();
  const finished = place.part >= parts;
  if (finished) {
    id("hands").hidden = false;
    id("where").textContent = "";
    id("notes").textContent = "";
    id("text").textContent = band.words.finished;
    showEnd();
  } else {
    tell();
  }
  const part = finished ? 0 : place.step / stepsIn(place.part);
  id("progress").value = (place.part + part) / Math.max(parts, 1);
  id("then-head").hidden = finished;
  id("next").disabled = finished;
  id("jump").disabled = finished;
  id("back").disabled = !earlier();
  showTimes(kept.times);
  showStrip(place);
};

// The step before this one; null at the first.
const earlier = () => {
  if (place.step > 0) return { part: place.part, step: place.step - 1 };
  for (let part = place.part - 1; part >= 0; part -= 1) {
    const steps = stepsIn(part);
    if (steps > 0) return { part, step: steps - 1 };
  }
  return null;
};
const go = (to) => {
  if (!to) return;
  stopClock();
  kept.part = to.part;
  kept.step = to.step;
  show();
  keep();
};
const tick = (part) => {
  const box = document.querySelector('[data-tick="set-' + (part - before) + '"]');
  if (!box || box.checked) return;
  box.checked = true;
  kept.ticks[box.dataset.tick] = true;
};
const next = () => {
  if (place.part >= parts) return;
  if (place.step + 1 === stepsIn(place.part)) tick(place.part);
  timeStep(kept.times, place);
  go({ part: place.part, step: place.step + 1 });
  startClock();
};
const back = () => go(earlier());
const jump = () => {
  if (place.part >= parts) return;
  tick(place.part);
  go({ part: place.part + 1, step: 0 });
};
const begin = () => {
  if (!window.confirm(band.words.sure)) return;
  kept.ticks = {};
  boxes();
  go({ part: 0, step: 0 });
};

const boxes = () => {
  for (const box of document.querySelectorAll("[data-tick]")) {
    box.checked = kept.ticks[box.dataset.tick] === true;
  }
};
for (const box of document.querySelectorAll("[data-tick]")) {
  box.addEventListener("change", () => {
    kept.ticks[box.dataset.tick] = box.checked;
    keep();
  });
}
id("next").addEventListener("click", next);
id("back").addEventListener("click", back);
id("jump").addEventListener("click", jump);
id("begin").addEventListener("click", begin);
document.addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  if (event.key === "ArrowRight" || (event.key === "Enter" && event.target === document.body)) next();
  else if (event.key === "ArrowLeft") back();
  else return;
  event.preventDefault();
});

read();
boxes();
id("no-script").hidden = true;
id("follow").hidden = false;
// On a small screen the step is what one sees first; the title stays, and unfolds what belongs to it.
id("head").open = !window.matchMedia("(max-width: 40rem), (max-height: 30rem)").matches;
followLost(() => place.part, (to) => {
  go(to);
  id("follow").scrollIntoView();
});
stayAwake();
show();
new ResizeObserver(() => showStrip(place)).observe(id("strip"));
