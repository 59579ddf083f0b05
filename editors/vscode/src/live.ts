// The live picture, beside the text: the server's own page in a panel. It follows the text, the cursor, and the editor
// that is looked at; a click in it leads the cursor.

import * as vscode from "vscode";
import type { Place } from "./contract.ts";
import { isPattern, message, settled } from "./patterns.ts";
import type { Server } from "./server.ts";

const TYPE = "knotwright.live";
const MOVING_MS = 50;

/** The page answers to the names of this machine only; where the editor runs elsewhere, its port is passed on. */
const OURS = /^(127\.0\.0\.1|localhost)(:\d+)?$/;

export class Live implements vscode.Disposable {
  private panel?: vscode.WebviewPanel;
  private pattern?: vscode.Uri;
  private readonly parts: vscode.Disposable[];

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly server: Server,
  ) {
    const moved = settled(MOVING_MS, () => void this.tellCursor());
    this.parts = [
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.isShown(textEditor.document) && moved()),
      vscode.window.onDidChangeActiveTextEditor((editor) => editor && void this.follow(editor.document)),
      vscode.window.onDidChangeActiveColorTheme(() => void this.refresh().catch(complain)),
      server.restarted(() => void this.refresh().catch(complain)),
    ];
  }

  /** Opens the panel beside the text, or shows another pattern in it; of several in Markdown the one at this place. */
  async show(pattern: vscode.Uri, place?: Place): Promise<void> {
    const page = await this.page(pattern, place);
    this.pattern = pattern;
    if (this.panel) this.panel.reveal(undefined, true);
    else this.panel = this.opened();
    this.frame(page);
    // In Markdown the cursor may stand in another one than was chosen.
    const open = vscode.workspace.textDocuments.find(({ uri }) => uri.toString() === pattern.toString());
    if (!place || (open && isPattern(open))) await this.tellCursor();
  }

  /** Closes the panel. */
  close(): void {
    this.panel?.dispose();
  }

  dispose(): void {
    this.close();
    this.parts.forEach((part) => part.dispose());
  }

  private opened(): vscode.WebviewPanel {
    const place = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const panel = vscode.window.createWebviewPanel(TYPE, "Band", place, { retainContextWhenHidden: true });
    panel.iconPath = vscode.Uri.joinPath(this.extensionUri, "icons", "knotwright.svg");
    // The page within runs its scripts only if its frame may; our own has none, and its policy lets none in.
    panel.webview.options = { enableScripts: true, localResourceRoots: [] };
    panel.onDidDispose(() => (this.panel = undefined));
    return panel;
  }

  private async follow(document: vscode.TextDocument): Promise<void> {
    if (!this.panel || !isPattern(document) || this.isShown(document)) return;
    await this.show(document.uri).catch(complain);
  }

  /** A restarted server has another address. */
  private async refresh(): Promise<void> {
    if (this.panel && this.pattern) this.frame(await this.page(this.pattern));
  }

  /** The address of the page as this window reaches it. */
  private async page(pattern: vscode.Uri, position?: Place): Promise<string> {
    const { url } = await this.server.ask("knotwright.preview", { uri: pattern.toString(), position });
    const page = await vscode.env.asExternalUri(vscode.Uri.parse(url, true));
    if (OURS.test(page.authority)) return page.toString(true);
    throw new Error(
      "The live picture needs this window and the pattern on the same computer, or forwarded ports. " +
        "Show Picture Beside the Text works here, too.",
    );
  }

  /** Nothing is in the panel but the page, and nothing else can get into it. */
  private frame(page: string): void {
    if (!this.panel || !this.pattern) return;
    const address = new URL(page);
    // The page's own media queries know the system only, not the editor's theme.
    address.searchParams.set("theme", isDark() ? "dark" : "light");
    const policy = `default-src 'none'; frame-src ${address.origin}; style-src 'unsafe-inline'`;
    const [name] = this.pattern.path.split("/").slice(-1);
    this.panel.title = `Band: ${name}`;
    this.panel.webview.html = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<style>html, body, iframe { width: 100%; height: 100%; margin: 0; padding: 0; border: 0; display: block }</style>
<title>The band</title>
</head>
<body><iframe id="live" title="Live picture of the band" src="${address.href}"></iframe></body>
</html>`;
  }

  private isShown(document: vscode.TextDocument): boolean {
    return this.panel !== undefined && document.uri.toString() === this.pattern?.toString();
  }

  private async tellCursor(): Promise<void> {
    const editor = vscode.window.visibleTextEditors.find(({ document }) => this.isShown(document));
    if (!editor) return;
    const { line, character } = editor.selection.active;
    const asked = { uri: editor.document.uri.toString(), position: { line, character } };
    // The cursor moves on; what is not sent now is sent with the next step.
    await this.server.ask("knotwright.previewCursor", asked).catch(() => undefined);
  }
}

const isDark = () => {
  const { Dark, HighContrast } = vscode.ColorThemeKind;
  return [Dark, HighContrast].includes(vscode.window.activeColorTheme.kind);
};

const complain = (error: unknown) => void vscode.window.showErrorMessage(message(error));
