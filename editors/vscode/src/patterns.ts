// The pattern that a command is about.

import * as vscode from "vscode";

export const isPattern = (document: vscode.TextDocument): boolean => document.languageId === "knot";

/** A line that opens a block of Markdown as a pattern, be it in a quote or a list. */
const FENCE = /^[ \t>*+\-\d.)]*(?:`{3,}|~{3,})[ \t]*knot[ \t]*$/m;

/** Whether the server has something to say about it: a pattern, or Markdown with one. */
export const isServed = (document: vscode.TextDocument): boolean =>
  isPattern(document) || (document.languageId === "markdown" && FENCE.test(document.getText().replace(/\r/g, "")));

/** The editor with a pattern that was looked at last, or says that there is none. */
export function patternEditor(): vscode.TextEditor | undefined {
  const editors = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors];
  const editor = editors.find((editor) => editor && isPattern(editor.document));
  if (!editor) void vscode.window.showInformationMessage("Open a pattern first: a file that ends in .knot.");
  return editor;
}

/** Calls once, when for so long nobody has called again. */
export function settled(milliseconds: number, call: () => void): () => void {
  let timer: NodeJS.Timeout | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(call, milliseconds);
  };
}

/** What went wrong, in words for people. */
export const message = (error: unknown): string => (error instanceof Error ? error.message : String(error));
