// The same band in the fewest pick-ups: shown as a change, applied if wanted.

import * as vscode from "vscode";
import type { Rewritten } from "./contract.ts";
import type { Server } from "./server.ts";

const SCHEME = "knotwright-fewest";

export class Fewest implements vscode.TextDocumentContentProvider, vscode.Disposable {
  private readonly texts = new Map<string, string>();
  private readonly registered = vscode.workspace.registerTextDocumentContentProvider(SCHEME, this);

  constructor(private readonly server: Server) {}

  async show(document: vscode.TextDocument): Promise<void> {
    const { version } = document;
    const rewritten = await this.server.ask("knotwright.fewestPickUps", { uri: document.uri.toString() });
    if (rewritten.after >= rewritten.before) {
      const said = `${rewritten.title} has the fewest pick-ups already: ${rewritten.before}.`;
      return void vscode.window.showInformationMessage(said);
    }
    const proposed = document.uri.with({ scheme: SCHEME });
    this.texts.set(proposed.toString(), rewritten.text);
    try {
      const title = `${rewritten.title}: ${rewritten.before} pick-ups, and ${rewritten.after}`;
      await vscode.commands.executeCommand("vscode.diff", document.uri, proposed, title);
      await this.offer(document, version, rewritten);
    } finally {
      await this.close(proposed);
      this.texts.delete(proposed.toString());
    }
  }

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.texts.get(uri.toString()) ?? "";
  }

  dispose(): void {
    this.registered.dispose();
  }

  /** The change has been looked at: back to the pattern. */
  private async close(proposed: vscode.Uri): Promise<void> {
    const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs);
    const shows = ({ input }: vscode.Tab) =>
      input instanceof vscode.TabInputTextDiff && input.modified.toString() === proposed.toString();
    await vscode.window.tabGroups.close(tabs.filter(shows));
  }

  private async offer(document: vscode.TextDocument, version: number, { before, after, leftOut, text }: Rewritten) {
    const apply = "Apply";
    const lost = leftOut ? ` Left out: ${leftOut}` : "";
    const question = `The same band with ${after} pick-ups instead of ${before}.${lost} Apply the change?`;
    if ((await vscode.window.showInformationMessage(question, apply, "Leave as It Is")) !== apply) return;
    if (document.version !== version) {
      return void vscode.window.showWarningMessage("The pattern has changed in the meantime. Run the command again.");
    }
    const edit = new vscode.WorkspaceEdit();
    const all = new vscode.Range(document.positionAt(0), document.positionAt(document.getText().length));
    edit.replace(document.uri, all, text);
    await vscode.workspace.applyEdit(edit);
  }
}
