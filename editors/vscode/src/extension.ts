// Knotwright in VS Code: what is registered, and nothing else.

import { readFileSync } from "node:fs";
import * as vscode from "vscode";
import { Fewest } from "./fewest.ts";
import { Live } from "./live.ts";
import { Pages } from "./pages.ts";
import { isServed, message, patternEditor, settled } from "./patterns.ts";
import { Picture } from "./picture.ts";
import { Server } from "./server.ts";

const TYPING_MS = 200;

export function activate(context: vscode.ExtensionContext): void {
  const server: Server = new Server(context.extensionPath, (uri, place) => live.show(uri, place).catch((error) => void vscode.window.showErrorMessage(message(error))));
  const live = new Live(context.extensionUri, server);
  const picture = new Picture(context.extensionUri, server);
  const pages = new Pages(server);
  const fewest = new Fewest(server);
  const about = (act: (editor: vscode.TextEditor) => unknown) => async () => {
    const editor = patternEditor();
    try {
      if (editor) await act(editor);
    } catch (error) {
      void vscode.window.showErrorMessage(message(error));
    }
  };
  const commands: Record<string, () => unknown> = {
    "knotwright.showPicture": about((editor) => picture.show(editor.document.uri)),
    "knotwright.showLive": about((editor) => live.show(editor.document.uri)),
    "knotwright.showInstructions": about((editor) => pages.show("instructions", editor.document.uri)),
    "knotwright.showThread": about((editor) => pages.show("thread", editor.document.uri)),
    "knotwright.showFewestPickUps": about((editor) => fewest.show(editor.document)),
    "knotwright.openSample": () => openSample(context),
    "knotwright.restartServer": () => server.restart(),
    "knotwright.showLog": () => server.showLog(),
  };
  // Whoever reads Markdown without patterns needs no server.
  const begin = (document: vscode.TextDocument) => !server.isBegun && isServed(document) && void server.begin();
  const typed = settled(TYPING_MS, () => vscode.workspace.textDocuments.forEach(begin));
  const registered = Object.entries(commands).map(([name, act]) => vscode.commands.registerCommand(name, act));
  context.subscriptions.push(
    ...registered,
    vscode.workspace.onDidChangeConfiguration((event) => {
      if (server.isBegun && event.affectsConfiguration("knotwright.serverPath")) void server.restart();
    }),
    // Only now do the workspace's settings count.
    vscode.workspace.onDidGrantWorkspaceTrust(() => server.isBegun && void server.restart()),
    vscode.workspace.onDidOpenTextDocument(begin),
    vscode.workspace.onDidChangeTextDocument(() => !server.isBegun && typed()),
    pages,
    fewest,
    picture,
    live,
    server,
  );
  vscode.workspace.textDocuments.forEach(begin);
}

/** A copy to play with: it is nowhere on the disk before it is saved. */
async function openSample(context: vscode.ExtensionContext): Promise<void> {
  const content = readFileSync(context.asAbsolutePath("walkthrough/dune-path.knot"), "utf8");
  const document = await vscode.workspace.openTextDocument({ language: "knot", content });
  await vscode.window.showTextDocument(document);
}
