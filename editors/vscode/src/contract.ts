// What the server's commands are asked, and what they answer.

/** Names a file; the first pattern in it is meant. */
export interface Asked {
  uri: string;
}

/** The commands of the server, each with its question and its answer. */
export interface Contract {
  "knotwright.picture": { asked: Asked & View; answer: { title: string; svg: string } };
  "knotwright.words": { asked: Asked & { by?: string; language?: string }; answer: Page };
  "knotwright.thread": { asked: Asked; answer: Page };
  "knotwright.fewestPickUps": { asked: Asked; answer: Rewritten };
  "knotwright.preview": { asked: Asked & { position?: Place }; answer: { url: string } };
  "knotwright.orders": { asked: Asked & { range: { start: Place; end: Place } }; answer: { orders: Order[] } };
  "knotwright.previewCursor": { asked: Asked & { position: Place }; answer: null };
}

export type Command = keyof Contract;

/** A place in a text, as the protocol counts. */
export interface Place {
  line: number;
  character: number;
}

/** How the strands hang after a step. */
export interface Order {
  position: Place;
  /** From the left; the letter stands for the thread, and for no other. */
  strands: { thread: string; color: string; letter: string }[];
  tooltip: string;
}

/** How a band is looked at. */
export interface View {
  chart?: boolean;
  colorway?: string;
  vision?: string;
}

/** A text to read. */
export interface Page {
  title: string;
  markdown: string;
}

/** The same band, written in other steps. */
export interface Rewritten {
  title: string;
  text: string;
  before: number;
  after: number;
  /** What is not in the new text, if anything. */
  leftOut?: string | null;
}
