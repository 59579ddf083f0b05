
"use strict";
(() => {
  const band = JSON.parse(document.getElementById("band").textContent);
  const key = "knotwright:" + document.documentElement.dataset.band;
  const id = (name) => document.getElementById(name);
  // Parts in the order of tying: the opening, every set, the closing. Of sets, only those that differ are known apart.
  const before = band.opening ? 1 : 0;
  const parts = before + band.times + (band.closing ? 1 : 0);
  const differ = band.sets.length;
  const partAt = (number) => {
    if (band.opening && number === 0) return band.opening;
    const set = number - before;
    if (set >= band.times) return band.closing;
    return band.sets[set < differ ? set : band.again + ((set - band.again) % (differ - band.again))];
  };
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);

  let kept = { part: 0, step: 0, ticks: {} };
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
        kept = { part: found.part, step: found.step, ticks: Object(found.ticks) };
      }
    } catch {
      // What is kept there is none of ours: begin anew.
    }
  };

  const place = { part: 0, step: 0 };
  // Parts without a step are passed over, and a place beyond the last step is the end.
  const settle = () => {
    place.step = kept.step;
    place.part = kept.part;
    while (place.part < parts && place.step >= partAt(place.part).steps.length) {
      place.part += 1;
      place.step = 0;
    }
    kept.part = place.part;
    kept.step = place.step;
  };

  const chips = (list, order, hands = []) => {
    list.replaceChildren(...order.map((number, at) => {
      const thread = band.threads[number];
      const chip = document.createElement("li");
      chip.className = "t" + number + (hands.includes(at) ? " hand" : "");
      const counted = document.createElement("small");
      counted.textContent = at + 1;
      const letter = document.createElement("span");
      letter.textContent = thread.letter;
      letter.setAttribute("aria-hidden", "true");
      const name = document.createElement("span");
      name.className = "heard";
      name.textContent = " " + thread.name + (hands.includes(at) ? ", " + band.words.hand : "");
      chip.title = thread.name;
      chip.append(counted, letter, name);
      return chip;
    }));
  };

  const drawn = new Map();
  const picture = document.querySelector("#scroll svg");
  for (const use of picture.querySelectorAll("use[data-step]")) {
    const at = use.dataset.step;
    if (!drawn.has(at)) drawn.set(at, []);
    drawn.get(at).push(use);
  }
  const light = () => {
    const now = place.part < parts ? place.part + "." + partAt(place.part).steps[place.step].step : "";
    const steps = place.part < parts ? partAt(place.part).steps.slice(0, place.step) : [];
    const tied = new Set(steps.map((step) => place.part + "." + step.step));
    for (const [at, uses] of drawn) {
      const done = Number(at.split(".")[0]) < place.part || tied.has(at);
      for (const use of uses) {
        use.classList.toggle("done", done);
        use.classList.toggle("now", at === now);
      }
    }
    const uses = drawn.get(now);
    if (!uses) return;
    const scroll = id("scroll");
    const middle = uses[Math.floor(uses.length / 2)].getBoundingClientRect();
    const frame = scroll.getBoundingClientRect();
    scroll.scrollTop += middle.top - frame.top - frame.height / 2;
  };

  const tell = (step, part, number) => {
    const words = band.words;
    let where = number < before ? words.opening : words.closing;
    if (number >= before && number < before + band.times) {
      where = fill(words.set, { set: number - before + 1, sets: band.times });
    }
    const at = fill(words.step, { step: place.step + 1, steps: part.steps.length });
    id("where").textContent = [where, at, step.section].filter(Boolean).join(" \u00b7 ");
    id("notes").textContent = (step.notes || []).join(" ");
    id("text").textContent = step.text;
    chips(id("now"), step.before, step.hands);
    const after = part.steps[place.step + 1];
    chips(id("then"), after ? after.before : part.after);
  };

  const show = () => {
    settle();
    const finished = place.part >= parts;
    if (finished) {
      id("where").textContent = "";
      id("notes").textContent = "";
      id("text").textContent = band.words.finished;
      chips(id("now"), band.end);
      id("then").replaceChildren();
    } else {
      const part = partAt(place.part);
      tell(part.steps[place.step], part, place.part);
    }
    const part = finished ? 0 : place.step / partAt(place.part).steps.length;
    id("progress").value = (place.part + part) / Math.max(parts, 1);
    id("then-head").hidden = finished;
    id("next").disabled = finished;
    id("jump").disabled = finished;
    id("back").disabled = !earlier();
    light();
  };

  // The step before this one; null at the first.
  const earlier = () => {
    if (place.step > 0) return { part: place.part, step: place.step - 1 };
    for (let part = place.part - 1; part >= 0; part -= 1) {
      const steps = partAt(part).steps.length;
      if (steps > 0) return { part, step: steps - 1 };
    }
    return null;
  };
  const go = (to) => {
    if (!to) return;
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
    if (place.step + 1 === partAt(place.part).steps.length) tick(place.part);
    go({ part: place.part, step: place.step + 1 });
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
  picture.classList.add("following");
  show();
})();
