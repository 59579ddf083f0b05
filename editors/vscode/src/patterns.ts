// The pattern that a command is about.

import * as vscode from "vscode";

export const isPattern = (document: vscode.TextDocument): boolean => document.languageId === "knot";

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
