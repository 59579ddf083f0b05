// The picture of a pattern, beside its text. It follows the text, and the editor that is looked at.

import * as vscode from "vscode";
import type { View } from "./contract.ts";
import { isPattern, message, settled } from "./patterns.ts";
import type { Server } from "./server.ts";
import { shell } from "./shell.ts";

const TYPE = "knotwright.picture";
const TYPING_MS = 150;

/** What the page receives. */
type Shown = { title: string; svg: string } | { trouble: string };

export class Picture implements vscode.Disposable, vscode.WebviewPanelSerializer {
  private panel?: vscode.WebviewPanel;
  private pattern?: vscode.Uri;
  private view: View = {};
  /** Counts the questions: only the answer to the last one is shown. */
  private asked = 0;
  private readonly parts: vscode.Disposable[];

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly server: Server,
  ) {
    const again = settled(TYPING_MS, () => void this.refresh());
    this.parts = [
      vscode.window.registerWebviewPanelSerializer(TYPE, this),
      vscode.workspace.onDidChangeTextDocument(({ document }) => isPattern(document) && again()),
      vscode.window.onDidChangeActiveTextEditor((editor) => editor && this.follow(editor.document)),
      server.restarted(again),
    ];
  }

  /** Opens the panel beside the text, or shows another pattern in it. */
  async show(pattern: vscode.Uri): Promise<void> {
    this.pattern = pattern;
    if (this.panel) this.panel.reveal(undefined, true);
    else {
      const place = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      this.furnish(vscode.window.createWebviewPanel(TYPE, "Band", place, { retainContextWhenHidden: true }));
    }
    await this.refresh();
  }

  /** The window was reloaded. */
  async deserializeWebviewPanel(panel: vscode.WebviewPanel, state: unknown): Promise<void> {
    const { pattern, view } = (state ?? {}) as { pattern?: string; view?: View };
    if (this.panel || !pattern) return panel.dispose();
    this.pattern = vscode.Uri.parse(pattern);
    this.view = view ?? {};
    this.furnish(panel);
    await vscode.workspace.openTextDocument(this.pattern);
    await this.refresh();
  }

  /** Closes the panel. */
  close(): void {
    this.panel?.dispose();
  }

  dispose(): void {
    this.close();
    this.parts.forEach((part) => part.dispose());
  }

  private furnish(panel: vscode.WebviewPanel): void {
    const media = vscode.Uri.joinPath(this.extensionUri, "media");
    panel.iconPath = vscode.Uri.joinPath(this.extensionUri, "icons", "knotwright.svg");
    panel.webview.options = { enableScripts: true, localResourceRoots: [media] };
    panel.webview.onDidReceiveMessage((heard: { ready?: true; view?: View }) => {
      if (heard.view) this.view = heard.view;
      void this.refresh();
    });
    panel.onDidDispose(() => (this.panel = undefined));
    panel.webview.html = shell(panel.webview, media);
    this.panel = panel;
  }

  private follow(document: vscode.TextDocument): void {
    if (!this.panel || !isPattern(document) || document.uri.toString() === this.pattern?.toString()) return;
    this.pattern = document.uri;
    void this.refresh();
  }

  private async refresh(): Promise<void> {
    if (!this.panel || !this.pattern) return;
    const [asked, pattern] = [++this.asked, this.pattern.toString()];
    const shown = await this.look(pattern);
    if (asked !== this.asked || !this.panel) return;
    if ("title" in shown) this.panel.title = `Band: ${shown.title}`;
    await this.panel.webview.postMessage({ ...shown, state: { pattern, view: this.view } });
  }

  private async look(uri: string): Promise<Shown> {
    try {
      return await this.server.ask("knotwright.picture", { uri, ...this.view });
    } catch (error) {
      return { trouble: message(error) };
    }
  }
}
