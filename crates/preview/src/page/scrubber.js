// Tying step by step: the slider, the step in words, and the strands as they hang.

const id = (name) => document.getElementById(name);
const COUNTED = ["forward", "backward", "forward-backward", "backward-forward", "leader's", "strand's"];

export class Scrubber {
  /** The step that is looked at, from 1; 0 is the whole band. */
  step = 0;

  constructor(state, changed, lead) {
    Object.assign(this, { state, changed });
    id("scrubber").addEventListener("input", (event) => this.go(Number(event.target.value)));
    id("back").addEventListener("click", () => this.go(this.step - 1));
    id("next").addEventListener("click", () => this.go(this.step + 1));
    id("whole").addEventListener("click", () => this.go(0));
    id("lead").addEventListener("click", () => lead(this.state().band.steps[this.step - 1]));
  }

  go(step) {
    this.step = Math.min(Math.max(step, 0), this.state().band.steps.length);
    this.show();
    this.changed(this.state().band.steps[this.step - 1]);
  }

  show() {
    const { band } = this.state();
    this.step = Math.min(this.step, band.steps.length);
    const [slider, step] = [id("scrubber"), band.steps[this.step - 1]];
    slider.max = band.steps.length;
    slider.value = this.step;
    const told = step ? `${band.where(step)}: ${this.words(step)}` : "The whole band";
    slider.setAttribute("aria-valuetext", told);
    id("where").textContent = told;
    id("back").disabled = this.step === 0;
    id("whole").disabled = this.step === 0;
    id("lead").disabled = !step;
    id("next").disabled = this.step >= band.steps.length;
    this.chips(step);
  }

  /** What is tied in a step, in words: its knots, kind by kind, and the thread that is seen. */
  words(step) {
    const { band, colors } = this.state();
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
    const moved = new Set(step ? band.knots.slice(step.from, step.to).flatMap(({ gap }) => [gap, gap + 1]) : []);
    const hang = band.hanging(step ? step.to : 0);
    id("hang").replaceChildren(...hang.map((number, at) => {
      const thread = colors[number] ?? { name: "unknown", shown: "#888888", ink: "#000000" };
      const chip = document.createElement("li");
      chip.style.background = thread.shown;
      chip.style.color = thread.ink;
      chip.title = thread.name;
      chip.className = moved.has(at) ? "hand" : "";
      const counted = document.createElement("span");
      counted.textContent = at + 1;
      const name = document.createElement("span");
      name.className = "heard";
      name.textContent = ` ${thread.name}${moved.has(at) ? ", moved in this step" : ""}`;
      chip.append(counted, name);
      return chip;
    }));
    id("hang-head").textContent = step ? "After it the strands hang so" : "At the start the strands hang so";
  }
}
