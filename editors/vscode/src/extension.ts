// Knotwright in VS Code: what is registered, and nothing else.

import { readFileSync } from "node:fs";
import * as vscode from "vscode";
import { Chips } from "./chips.ts";
import type { Place } from "./contract.ts";
import { Fewest } from "./fewest.ts";
import { Live } from "./live.ts";
import { Pages } from "./pages.ts";
import { isServed, message, patternEditor, settled } from "./patterns.ts";
import { Picture } from "./picture.ts";
import { Server } from "./server.ts";

const TYPING_MS = 200;

export function activate(context: vscode.ExtensionContext): void {
  const server: Server = new Server(context.extensionPath, (uri, place) => showLive(uri, place).catch((error) => void vscode.window.showErrorMessage(message(error))));
  const live = new Live(context.extensionUri, server);
  const picture = new Picture(context.extensionUri, server);
  // There is one panel beside the text: the picture, or the live picture.
  const showPicture = (uri: vscode.Uri) => {
    live.close();
    return picture.show(uri);
  };
  const showLive = (uri: vscode.Uri, place?: Place) => {
    picture.close();
    return live.show(uri, place);
  };
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
  const commands: Record<string, (asked?: unknown) => unknown> = {
    "knotwright.showPicture": about((editor) => showPicture(editor.document.uri)),
    "knotwright.showLive": about((editor) => showLive(editor.document.uri)),
    "knotwright.showInstructions": about((editor) => pages.show("instructions", editor.document.uri)),
    "knotwright.showThread": about((editor) => pages.show("thread", editor.document.uri)),
    "knotwright.showFewestPickUps": about((editor) => fewest.show(editor.document)),
    "knotwright.openSample": () => openSample(context),
    "knotwright.restartServer": () => server.restart(),
    "knotwright.showLog": () => server.showLog(),
    // The server's, after a change that gives a name; of no use in the palette.
    "knotwright.rename": (asked) => rename(asked as { uri: string; position: Place }),
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
    new Chips(server),
    pages,
    fewest,
    picture,
    live,
    server,
  );
  vscode.workspace.textDocuments.forEach(begin);
}

/** Asks for another name for what stands there. */
async function rename({ uri, position: { line, character } }: { uri: string; position: Place }): Promise<void> {
  const editor = await vscode.window.showTextDocument(vscode.Uri.parse(uri), { preserveFocus: false });
  const place = new vscode.Position(line, character);
  editor.selection = new vscode.Selection(place, place);
  editor.revealRange(new vscode.Range(place, place));
  await vscode.commands.executeCommand("editor.action.rename", [editor.document.uri, place]);
}

/** A copy to play with: it is nowhere on the disk before it is saved. */
async function openSample(context: vscode.ExtensionContext): Promise<void> {
  const content = readFileSync(context.asAbsolutePath("walkthrough/dune-path.knot"), "utf8");
  const document = await vscode.workspace.openTextDocument({ language: "knot", content });
  await vscode.window.showTextDocument(document);
}
