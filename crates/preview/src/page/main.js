// What the page shows, and what is done with it.

import { Band } from "./band.js";
import { Picture } from "./canvas.js";
import { openLine } from "./line.js";
import { Scrubber } from "./scrubber.js";
import { showLengths, showThreads } from "./threads.js";
import { inNodes, say } from "./words.js";

const id = (name) => document.getElementById(name);
const band = new Band();
const wish = { chart: false, sets: null, colorway: null, vision: null, tried: {} };
let [colors, findings, cursor] = [[], { list: [], broken: null, trouble: null }, []];
let lengths = { about: [], threads: [] };
// What is asked says of which look it is: when the question arrives, there may be a newer one with other steps and findings.
const look = { band: 0, colors: 0 };

const lit = () => {
  const step = scrubber.step();
  const steps = step ? [step] : band.named(cursor);
  return new Set(steps.map((step) => band.steps.indexOf(step)));
};
const seen = { band, wish, get colors() { return colors; }, get lengths() { return lengths; } };
const shown = { band, colors, staleFrom: Infinity, lit: new Set(), tied: Infinity, done: Infinity, end: [] };
const picture = new Picture(id("scroll"), id("room"), id("canvas"), () => shown);
const scrubber = new Scrubber(() => seen, (step) => {
  show();
  if (step) picture.reveal(band.knotOf(step));
}, (step) => step && lead(step));

/** What the canvas needs is put together once a change, not once a frame. */
const show = () => {
  const tied = scrubber.isWhole ? Infinity : (band.steps[scrubber.tied]?.from ?? Infinity);
  const end = scrubber.isWhole ? band.end : band.hanging(scrubber.tied);
  const done = scrubber.isWhole ? Infinity : scrubber.tied;
  Object.assign(shown, { colors, staleFrom: band.staleFrom(findings.broken), lit: lit(), tied, done, end });
  picture.ask();
};

const tell = (text) => {
  say(id("said"), text);
};
let again = "Open the live picture again to go on.";
const ask = openLine((message) => hear[message.kind](message), () => {
  id("state").className = "bad";
  id("state").textContent = `Knotwright has stopped. This is the last picture it showed. ${again}`;
});
const wants = () => ask({ ask: "wish", ...wish });
const lead = (step) => ask({ ask: "show", step: [step.kind, step.number], look: look.band });

const hear = {
  band(news) {
    const [rows, strands] = [band.rows, band.strands.length];
    band.take(news);
    look.band = news.look;
    id("title").textContent = band.title || "Untitled band";
    document.title = band.title || "Live picture";
    id("sets").placeholder = band.sets;
    if (document.activeElement !== id("sets")) id("sets").value = band.sets || "";
    id("sets").disabled = !band.parts.some((part) => part.kind === "s");
    if (rows !== band.rows || strands !== band.strands.length || news.frame || news.chart) picture.size();
    scrubber.show();
    threads();
    show();
  },
  colors(news) {
    // The further colors of threads that change color are numbered on after the threads.
    look.colors = news.look;
    colors = [...news.threads, ...news.shades.map((shade) => ({ ...news.threads[shade.of], ...shade }))];
    const options = news.colorways.map((name) => Object.assign(document.createElement("option"), { value: `=${name}`, textContent: name }));
    const [own] = id("colorway").options;
    id("colorway").replaceChildren(own, ...options);
    id("colorway").value = wish.colorway === null ? "" : `=${wish.colorway}`;
    if (id("colorway").selectedIndex < 0) id("colorway").value = "";
    scrubber.show();
    threads();
    show();
  },
  lengths(news) {
    lengths = news;
    showLengths(lengths);
    threads();
  },
  findings(news) {
    findings = news;
    // They come behind the colors of the same look, if those are others.
    look.colors = news.look;
    id("found").replaceChildren(...news.list.map(found));
    const errors = news.list.filter((finding) => finding.error).length;
    id("findings").hidden = news.list.length === 0;
    id("state").className = errors > 0 || news.trouble ? "bad" : "";
    const stale = errors > 0 && band.knots.length > 0 ? " Pale knots are from the last version that worked." : "";
    const said = errors === 1 ? `One mistake.${stale}` : errors > 1 ? `${errors} mistakes.${stale}` : "It ties.";
    say(id("state"), errors > 0 ? said : (news.trouble ?? said));
    show();
  },
  cursor(news) {
    cursor = news.steps;
    const named = band.named(cursor);
    // A click leads the cursor to its step; once the cursor is elsewhere, it is the cursor's turn.
    if (scrubber.isWhole && scrubber.step() && named.length > 0 && !named.includes(scrubber.step())) scrubber.choose(-1);
    show();
    const [step] = named;
    if (step && !scrubber.step()) picture.reveal(band.knotOf(step));
  },
  home(news) {
    again = news.again;
  },
  said(news) {
    tell(news.text);
  },
};

const found = (finding, number) => {
  const item = document.createElement("li");
  const line = Object.assign(document.createElement("button"), { type: "button", textContent: finding.file ? `Line ${finding.line} of ${finding.file}` : `Line ${finding.line}` });
  line.addEventListener("click", () => ask({ ask: "finding", number, look: findings.look }));
  item.append(line, ": ", ...inNodes(finding.message));
  if (finding.help) item.append(say(Object.assign(document.createElement("p"), { className: "help" }), finding.help));
  return item;
};

const threads = () => showThreads(seen, {
  tried(number, color) {
    if (color === null) delete wish.tried[number];
    else wish.tried[number] = color;
    wants();
  },
  write: (thread) => ask({ ask: "write", thread, look: look.colors }),
});

id("view").addEventListener("change", (event) => {
  wish.chart = event.target.value === "chart";
  id("lie").hidden = wish.chart;
  // Another chart comes when one is asked for again.
  if (!wish.chart) band.chart = null;
  picture.turn(wish.chart);
  wants();
});
id("colorway").addEventListener("change", (event) => {
  wish.colorway = event.target.value === "" ? null : event.target.value.slice(1);
  wish.tried = {};
  wants();
});
id("vision").addEventListener("change", (event) => {
  wish.vision = event.target.value || null;
  wants();
});
id("sets").addEventListener("change", (event) => {
  const sets = event.target.valueAsNumber;
  wish.sets = Number.isInteger(sets) && sets >= 1 ? Math.min(sets, 100_000) : null;
  wants();
});
id("larger").addEventListener("click", () => picture.zoom(1.3));
id("smaller").addEventListener("click", () => picture.zoom(1 / 1.3));
id("fit").addEventListener("click", () => picture.zoom(0));
id("lie").addEventListener("click", () => picture.lay(!picture.lies));

const scroll = id("scroll");
scroll.addEventListener("keydown", (event) => {
  const by = { "+": 1.3, "=": 1.3, "-": 1 / 1.3, 0: 0 }[event.key];
  if (by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
  picture.zoom(by);
  event.preventDefault();
});
scroll.addEventListener("wheel", (event) => {
  if (!event.ctrlKey) return;
  event.preventDefault();
  picture.zoom(event.deltaY < 0 ? 1.1 : 1 / 1.1);
}, { passive: false });

// A pointer that moves pulls the band; one that does not points at a knot.
let pull = null;
scroll.addEventListener("pointerdown", (event) => {
  if (event.button !== 0 || event.pointerType === "touch") return;
  pull = { x: event.clientX, y: event.clientY, left: scroll.scrollLeft, top: scroll.scrollTop, far: false };
});
addEventListener("pointermove", (event) => {
  if (!pull) return;
  const [x, y] = [event.clientX - pull.x, event.clientY - pull.y];
  pull.far ||= Math.hypot(x, y) > 4;
  if (!pull.far) return;
  scroll.classList.add("dragging");
  scroll.scrollTo(pull.left - x, pull.top - y);
});
addEventListener("pointerup", () => {
  scroll.classList.remove("dragging");
  setTimeout(() => (pull = null));
});
id("canvas").addEventListener("click", (event) => {
  if (pull?.far) return;
  const knot = picture.knotAt(event);
  if (!knot) return;
  scrubber.choose(knot.step);
  lead(band.steps[knot.step]);
});
