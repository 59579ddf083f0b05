// Tying step by step: the slider, the step in words, and the strands as they hang.

const id = (name) => document.getElementById(name);
const COUNTED = ["forward", "backward", "forward-backward", "backward-forward", "leader's", "strand's", "wished"];
const WISHED = 6;
const NOT_TIED = 'a picture that nothing ties yet; "knotwright design" finds its knots, or "Tie this face" in the editor';

export class Scrubber {
  /** How many steps are tied in the picture; the whole band, as long as it is whole, however many steps it gets. */
  tied = 0;
  isWhole = true;
  /** The step that is looked at, by its number in the band; -1 if none is. */
  chosen = -1;

  constructor(state, changed, lead) {
    Object.assign(this, { state, changed });
    id("scrubber").addEventListener("input", (event) => this.go(Number(event.target.value)));
    id("back").addEventListener("click", () => this.go(this.at() - 1));
    id("next").addEventListener("click", () => this.go(this.at() + 1));
    id("whole").addEventListener("click", () => {
      this.isWhole = true;
      this.chosen = -1;
      this.show();
      this.changed();
    });
    id("lead").addEventListener("click", () => lead(this.step()));
  }

  /** Where the buttons go on from: the step that is looked at; the whole band begins with its first. */
  at() {
    if (this.chosen >= 0) return this.chosen + 1;
    return this.isWhole ? 0 : this.tied;
  }

  step() {
    return this.state().band.steps[this.chosen];
  }

  /** Ties that many steps; the last of them is looked at. */
  go(tied) {
    const { steps } = this.state().band;
    this.tied = Math.min(Math.max(tied, 0), steps.length);
    this.isWhole = this.tied === steps.length;
    this.chosen = this.tied - 1;
    this.show();
    this.changed(this.step());
  }

  /** Looks at a step; what is tied in the picture stays. */
  choose(step) {
    this.chosen = step;
    this.show();
    this.changed(this.step());
  }

  show() {
    const { band } = this.state();
    if (this.isWhole) this.tied = band.steps.length;
    this.tied = Math.min(this.tied, band.steps.length);
    this.chosen = Math.min(this.chosen, band.steps.length - 1);
    const [slider, step] = [id("scrubber"), this.step()];
    slider.max = band.steps.length;
    slider.value = this.tied;
    const told = step ? `${band.where(step)}: ${this.words(step)}` : this.isWhole ? "The whole band" : "Nothing is tied yet";
    slider.setAttribute("aria-valuetext", told);
    id("where").textContent = told;
    id("back").disabled = this.at() === 0;
    id("whole").disabled = this.isWhole && this.chosen < 0;
    id("lead").disabled = !step;
    id("next").disabled = this.at() >= band.steps.length;
    this.chips(step);
  }

  /** What is tied in a step, in words: its knots, kind by kind, and the thread that is seen. */
  words(step) {
    const { band, colors } = this.state();
    if (step.aside) return step.aside.says;
    if (band.knots[step.from]?.form === WISHED) return NOT_TIED;
    const runs = [];
    for (const { form, thread } of band.knots.slice(step.from, step.to)) {
      const run = runs.at(-1);
      if (run && run.form === form && run.thread === thread) run.count += 1;
      else runs.push({ form, thread, count: 1 });
    }
    const said = runs.slice(0, 6).map(({ form, thread, count }) =>
      `${count} ${COUNTED[form]} ${count === 1 ? "knot" : "knots"} of ${colors[thread]?.name ?? "an unknown thread"}`);
    return said.join(", ") + (runs.length > 6 ? " and more" : "");
  }

  chips(step) {
    const { band, colors } = this.state();
    // What nothing ties yet moves no strand.
    const tied = step ? band.knots.slice(step.from, step.to).filter(({ form }) => form !== WISHED) : [];
    const moved = new Set(tied.flatMap(({ gap }) => [gap, gap + 1]));
    const taken = (at) => step?.aside && step.aside.positions[0] <= at && at < step.aside.positions[1];
    const hang = band.hanging(this.chosen + 1);
    id("hang").replaceChildren(...hang.map((number, at) => {
      const thread = colors[number] ?? { name: "unknown", shown: "#888888", ink: "#000000", letter: "?" };
      const chip = document.createElement("li");
      chip.style.background = thread.shown;
      chip.style.color = thread.ink;
      chip.title = thread.name;
      chip.className = moved.has(at) || taken(at) ? "hand" : "";
      const counted = Object.assign(document.createElement("small"), { textContent: at + 1 });
      // What is heard has the name for it.
      const letter = Object.assign(document.createElement("span"), { textContent: thread.letter, ariaHidden: "true" });
      const name = document.createElement("span");
      name.className = "heard";
      name.textContent = ` ${thread.name}${moved.has(at) ? ", moved in this step" : taken(at) ? ", taken in this step" : ""}`;
      chip.append(counted, letter, name);
      return chip;
    }));
    id("hang-head").textContent = step ? "After it, the strands hang like this" : "At the start, the strands hang like this";
  }
}
