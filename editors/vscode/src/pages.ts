// Texts that the server writes about a pattern, shown as pages that follow it.

import * as vscode from "vscode";
import type { Page } from "./contract.ts";
import { isPattern, message, settled } from "./patterns.ts";
import type { Server } from "./server.ts";

const SCHEME = "knotwright";
const TYPING_MS = 300;

/** What can be read about a pattern. */
export type Kind = "instructions" | "thread";

export class Pages implements vscode.TextDocumentContentProvider, vscode.Disposable {
  readonly onDidChange: vscode.Event<vscode.Uri>;

  private readonly changes = new vscode.EventEmitter<vscode.Uri>();
  private readonly parts: vscode.Disposable[];

  constructor(private readonly server: Server) {
    this.onDidChange = this.changes.event;
    const again = settled(TYPING_MS, () => this.refresh());
    this.parts = [
      vscode.workspace.registerTextDocumentContentProvider(SCHEME, this),
      vscode.workspace.onDidChangeTextDocument((event) => isPattern(event.document) && again()),
      vscode.workspace.onDidChangeConfiguration((event) => event.affectsConfiguration(SCHEME) && again()),
      server.restarted(again),
      this.changes,
    ];
  }

  /** Opens the page beside the pattern. */
  async show(kind: Kind, pattern: vscode.Uri): Promise<void> {
    const name = pattern.path.replace(/^.*\//, "").replace(/\.knot$/, "");
    const query = JSON.stringify({ kind, pattern: pattern.toString() });
    const page = vscode.Uri.from({ scheme: SCHEME, path: `/${name}: ${kind}.md`, query });
    await vscode.commands.executeCommand("markdown.showPreviewToSide", page);
  }

  async provideTextDocumentContent(page: vscode.Uri): Promise<string> {
    try {
      const { kind, pattern } = JSON.parse(page.query) as { kind: Kind; pattern: string };
      return (await this.ask(kind, pattern)).markdown;
    } catch (error) {
      // No Markdown of its own may come from a message: it may quote the pattern.
      return `There is nothing to show yet.\n\n    ${message(error).replace(/\s+/g, " ")}\n`;
    }
  }

  dispose(): void {
    this.parts.forEach((part) => part.dispose());
  }

  private ask(kind: Kind, uri: string): Promise<Page> {
    if (kind === "thread") return this.server.ask("knotwright.thread", { uri });
    const settings = vscode.workspace.getConfiguration("knotwright.instructions");
    const wishes = { language: settings.get<string>("language"), by: settings.get<string>("by") };
    return this.server.ask("knotwright.words", { uri, ...wishes });
  }

  private refresh(): void {
    const open = vscode.workspace.textDocuments.filter((document) => document.uri.scheme === SCHEME);
    open.forEach((document) => this.changes.fire(document.uri));
  }
}
