// Someone who ties what the sheet says, word by word, and knows nothing else: the strands as they hang, and the sentences.

const ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"];
const NUMBERS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

const number = (word) => {
  const at = NUMBERS.indexOf(word.toLowerCase());
  return at >= 0 ? at + 1 : Number.parseInt(word, 10);
};
const ordinal = (word) => {
  const at = ORDINALS.indexOf(word);
  return at >= 0 ? at + 1 : Number.parseInt(word, 10);
};
/** What a pattern finds in a sentence, or the sentence is not understood. */
const found = (text, pattern) => {
  const match = pattern.exec(text);
  if (!match) throw new Error(`what is to be done? ${text}`);
  return match.slice(1);
};

export class Follower {
  /** `hang`: by position, the name of the thread there. */
  constructor(hang) {
    this.hang = hang.map((name, strand) => ({ name, strand }));
  }

  names() {
    return this.hang.map(({ name }) => name);
  }

  /** Does what a sentence says; the knots that were tied, and the strands that worked. */
  follow(text) {
    this.knots = [];
    this.working = new Set();
    const sentence = text.replaceAll("\u2060", "");
    if (sentence.startsWith("Take the leader (")) this.lead(sentence);
    else if (sentence.startsWith("Take ")) this.take(sentence);
    else if (sentence.startsWith("Tie the two middle strands together (")) this.meet(this.hang.length / 2 - 1, found(sentence, /\((.*)\)\.$/)[0]);
    else if (sentence.startsWith("Tie the ")) this.meet(this.place(sentence), found(sentence, /\(both (.*)\)\.$/)[0]);
    else this.row(found(sentence, /^Row: (.*)\.$/)[0]);
    return { knots: this.knots, working: this.working };
  }

  /** The position, from 0, of `the third strand from the right`. */
  place(text) {
    const [word, side] = found(text, /the (\S+) strand from the (left|right)/);
    return side === "left" ? ordinal(word) - 1 : this.hang.length - ordinal(word);
  }

  holds(place, name) {
    if (this.hang[place].name !== name) throw new Error(`at place ${place + 1} hangs ${this.hang[place].name}, but the words say ${name}`);
  }

  /** One knot in a gap, counted from 1. */
  knot(gap, kind) {
    const works = kind.startsWith("forward") ? gap - 1 : gap;
    const { name, strand } = this.hang[works];
    this.knots.push({ gap, kind, color: name });
    this.working.add(strand);
    if (!kind.includes("-")) [this.hang[gap - 1], this.hang[gap]] = [this.hang[gap], this.hang[gap - 1]];
  }

  meet(left, name) {
    this.holds(left, name);
    this.holds(left + 1, name);
    const both = [left, left + 1].map((place) => this.hang[place].strand);
    this.knot(left + 1, "forward");
    for (const strand of both) this.working.add(strand);
  }

  take(text) {
    let at = this.place(text);
    const [name, rest] = found(text, /^Take the .*? \((.*?)\): (.*)\.$/);
    this.holds(at, name);
    for (const run of rest.split(", then ")) {
      const words = run.split("; it is now ")[0];
      const kind = found(words, /((?:forward|backward)(?:-(?:forward|backward))?) knots?/)[0];
      const rightward = words.includes("right");
      const each = /each of the next (\S+)/.exec(words);
      const count = each ? number(each[1]) : words.startsWith("tie a ") ? 1 : number(found(words, /^tie (\S+)/)[0]);
      for (let tied = 0; tied < count; tied += 1) {
        this.knot(rightward ? at + 1 : at, kind);
        if (!kind.includes("-")) at += rightward ? 1 : -1;
      }
    }
  }

  lead(text) {
    const [name, side, rest] = found(text, /^Take the leader \((.*?)\) at the (left|right) edge.*?: (.*)\.$/);
    const rightward = side === "left";
    let at = rightward ? 0 : this.hang.length - 1;
    this.holds(at, name);
    for (const run of rest.split("; ")) {
      const each = /each of the next (\S+)/.exec(run);
      const kind = found(run, /a (\S+) knot/)[0];
      for (let tied = 0; tied < (each ? number(each[1]) : 1); tied += 1) {
        this.knot(rightward ? at + 1 : at, kind);
        at += rightward ? 1 : -1;
      }
    }
  }

  row(groups) {
    for (const group of groups.split("; ")) {
      const [kind, places, name] = found(group, /^(\S+) at (.*) \((.*)\)$/);
      for (const pair of places.replace(" and ", ", ").split(", ")) {
        const gap = number(pair);
        this.holds(kind.startsWith("forward") ? gap - 1 : gap, name);
        this.knot(gap, kind);
      }
    }
  }
}
