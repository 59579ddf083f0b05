// Behind each step, a chip for every strand as it hangs after it.

import * as vscode from "vscode";
import { chips } from "./chip.ts";
import { isServed, settled } from "./patterns.ts";
import type { Server } from "./server.ts";

const TYPING_MS = 120;
/** How far above and below the lines in view they are painted, too: for who scrolls. */
const MORE_LINES = 30;

export class Chips implements vscode.Disposable {
  private readonly behind = vscode.window.createTextEditorDecorationType({ rangeBehavior: vscode.DecorationRangeBehavior.ClosedClosed });
  private readonly parts: vscode.Disposable[];

  constructor(private readonly server: Server) {
    const again = settled(TYPING_MS, () => vscode.window.visibleTextEditors.forEach((editor) => void this.paint(editor)));
    this.parts = [
      vscode.workspace.onDidChangeTextDocument(again),
      vscode.window.onDidChangeVisibleTextEditors(again),
      vscode.window.onDidChangeTextEditorVisibleRanges(again),
      vscode.workspace.onDidChangeConfiguration((event) => event.affectsConfiguration("knotwright.hints") && again()),
      server.restarted(again),
    ];
    again();
  }

  dispose(): void {
    this.behind.dispose();
    this.parts.forEach((part) => part.dispose());
  }

  private async paint(editor: vscode.TextEditor): Promise<void> {
    const { document } = editor;
    if (!isServed(document)) return;
    const settings = vscode.workspace.getConfiguration("knotwright", document);
    if (settings.get("hints.orders") !== "chips" || !this.server.can("knotwright.orders")) return editor.setDecorations(this.behind, []);
    const version = document.version;
    try {
      const orders = await Promise.all(editor.visibleRanges.map((range) => this.look(document, range)));
      if (document.version !== version) return;
      const letters = settings.get("hints.letters", false);
      editor.setDecorations(this.behind, orders.flat().map(({ position, strands, tooltip }) => {
        const end = document.lineAt(position.line).range.end;
        const image = vscode.Uri.parse(chips(strands, letters));
        const after = { contentIconPath: image, margin: "0 0 0 2ch" };
        return { range: new vscode.Range(end, end), hoverMessage: new vscode.MarkdownString(tooltip), renderOptions: { after } };
      }));
    } catch {
      // The text has changed meanwhile: what follows asks again.
    }
  }

  private async look(document: vscode.TextDocument, range: vscode.Range) {
    const start = { line: Math.max(0, range.start.line - MORE_LINES), character: 0 };
    const end = { line: Math.min(document.lineCount, range.end.line + MORE_LINES), character: 0 };
    return (await this.server.ask("knotwright.orders", { uri: document.uri.toString(), range: { start, end } })).orders;
  }
}
