// The language server: starts it, asks it, restarts it.

import { homedir } from "node:os";
import * as vscode from "vscode";
import {
  ExecuteCommandRequest,
  LanguageClient,
  type LanguageClientOptions,
  type ShowDocumentParams,
  type ShowDocumentResult,
  type StaticFeature,
} from "vscode-languageclient/node";
import type { Command, Contract, Place } from "./contract.ts";
import { isPattern } from "./patterns.ts";
import { search, told, type Search } from "./program.ts";

/** A document that is to be shown is shown, whatever else happens. */
const UNHURRIED = new vscode.CancellationTokenSource().token;
/** The command of the line above a set; the server would open a browser, here the panel is opened. */
const PREVIEW = "knotwright.preview";

/** Says that a new name is asked for at once: what a motif that was just made is called. */
const NAMING: StaticFeature = {
  fillClientCapabilities: (capabilities) => {
    capabilities.experimental = { ...capabilities.experimental, knotwright: { commands: ["knotwright.rename"] } };
  },
  initialize: () => {},
  getState: () => ({ kind: "static" }),
  clear: () => {},
};

/** Patterns stand in Markdown, too. Which of what is offered holds there, the server says. */
const LANGUAGES = ["knot", "markdown"];

/** A file that is open is shown where it is open, not over the picture that was clicked; else nothing is done here. */
async function showBeside({ uri, external, selection }: ShowDocumentParams): Promise<ShowDocumentResult | undefined> {
  const open = vscode.window.visibleTextEditors.find(({ document }) => document.uri.toString() === vscode.Uri.parse(uri).toString());
  if (!open || external || !selection) return undefined;
  const { start, end } = selection;
  const range = new vscode.Range(start.line, start.character, end.line, end.character);
  await vscode.window.showTextDocument(open.document, { viewColumn: open.viewColumn, selection: range });
  return { success: true };
}

export class Server implements vscode.Disposable {
  /** Every answer that was shown may be another one now. */
  readonly restarted: vscode.Event<void>;

  private client?: LanguageClient;
  private search?: Search;
  private readonly starts = new vscode.EventEmitter<void>();
  private readonly log = vscode.window.createOutputChannel("Knotwright", { log: true });
  private readonly status = vscode.languages.createLanguageStatusItem("knotwright", { language: "knot" });
  /** Starts and stops come one after the other; nothing runs before the first start. */
  private work?: Promise<void>;

  constructor(
    private readonly extensionFolder: string,
    private readonly openPreview: (uri: vscode.Uri, place?: Place) => unknown,
  ) {
    this.restarted = this.starts.event;
    this.status.name = "Knotwright";
    this.status.command = { command: "knotwright.restartServer", title: "Restart" };
  }

  /** Whether it was started ever. */
  get isBegun(): boolean {
    return this.work !== undefined;
  }

  /** Starts it, unless it was started before. */
  begin(): Promise<void> {
    return this.work ?? this.restart();
  }

  /** Stops what runs, looks for the program and starts it. */
  restart(): Promise<void> {
    this.work = (this.work ?? Promise.resolve()).then(() => this.stop()).then(() => this.start());
    return this.work;
  }

  showLog(): void {
    this.log.show();
  }

  /** Asks one of the commands; what goes wrong is an error with a message for people. */
  async ask<C extends Command>(command: C, asked: Contract[C]["asked"]): Promise<Contract[C]["answer"]> {
    await this.begin();
    if (!this.client) throw new Error("Knotwright is not running.");
    if (!this.can(command)) {
      throw new Error(`Knotwright ${this.search?.serving?.version} is too old for this: install a newer version.`);
    }
    return await this.client.sendRequest(ExecuteCommandRequest.type, { command, arguments: [asked] });
  }

  /** Whether the server that runs knows a command. */
  can(command: Command): boolean {
    return this.client?.initializeResult?.capabilities.executeCommandProvider?.commands.includes(command) ?? false;
  }

  dispose(): Promise<void> {
    this.work = (this.work ?? Promise.resolve()).then(() => this.stop());
    this.log.dispose();
    this.status.dispose();
    this.starts.dispose();
    return this.work;
  }

  private async stop(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    // One that has died cannot be stopped, and need not be.
    await client?.dispose().catch((error: unknown) => this.log.warn(String(error)));
  }

  private async start(): Promise<void> {
    this.status.busy = true;
    this.search = await search(this.places());
    this.search.refused.forEach((refused) => this.log.info(told([refused])));
    try {
      if (this.search.serving) await this.run(this.search.serving.path);
      this.tell(this.search);
    } catch (error) {
      this.log.error(String(error));
      this.tell({ refused: [...this.search.refused, { origin: "the language server", why: `ended: ${error}` }] });
    } finally {
      this.status.busy = false;
    }
    this.starts.fire();
  }

  private async run(command: string): Promise<void> {
    this.log.info(`Starts ${command}`);
    const client = new LanguageClient("knotwright", "Knotwright", { command, args: ["serve"] }, this.options());
    client.registerFeature(NAMING);
    await client.start();
    this.client = client;
  }

  private options(): LanguageClientOptions {
    return {
      documentSelector: ["file", "untitled"].flatMap((scheme) => LANGUAGES.map((language) => ({ scheme, language }))),
      initializationOptions: vscode.workspace.getConfiguration("knotwright"),
      synchronize: { configurationSection: "knotwright" },
      outputChannel: this.log,
      middleware: {
        window: {
          showDocument: async (shown, next) =>
            (await showBeside(shown)) ?? ((await next(shown, UNHURRIED)) as ShowDocumentResult),
        },
        executeCommand: async (command, asked, next) => {
          const uri = asked[0]?.uri;
          if (command !== PREVIEW || typeof uri !== "string") return next(command, asked);
          return this.openPreview(vscode.Uri.parse(uri), asked[0].position);
        },
        // Where we know none, VS Code looks for colors by itself.
        provideDocumentColors: async (document, token, next) => {
          const colors = await next(document, token);
          return colors?.length || isPattern(document) ? colors : undefined;
        },
      },
    };
  }

  private places() {
    return {
      setting: vscode.workspace.getConfiguration("knotwright").get("serverPath", "").trim(),
      home: homedir(),
      workspaceFolder: vscode.workspace.workspaceFolders?.[0]?.uri.fsPath,
      path: process.env["PATH"] ?? "",
      extensionFolder: this.extensionFolder,
    };
  }

  /** Says which program serves, or that none does. */
  private tell({ serving, refused }: Search): void {
    this.status.severity = serving ? vscode.LanguageStatusSeverity.Information : vscode.LanguageStatusSeverity.Error;
    this.status.text = serving ? `Knotwright ${serving.version}` : "Knotwright is not running";
    this.status.detail = serving ? serving.path : "patterns are colored, but not checked";
    if (!serving) void this.complain(refused);
    else if (this.places().setting && refused.length) {
      void vscode.window.showWarningMessage(`${told(refused)} Knotwright uses ${serving.path} instead.`);
    }
  }

  private async complain(refused: Search["refused"]): Promise<void> {
    const [choose, log] = ["Choose the Program…", "Show Log"];
    const message = `Patterns are colored, but not checked: no knotwright program was found that starts. ${told(refused)}`;
    const answer = await vscode.window.showErrorMessage(message, choose, log);
    if (answer === log) this.showLog();
    if (answer !== choose) return;
    const [file] = (await vscode.window.showOpenDialog({ title: "The program knotwright" })) ?? [];
    if (!file) return;
    const settings = vscode.workspace.getConfiguration("knotwright");
    // Changing the setting restarts the server.
    await settings.update("serverPath", file.fsPath, vscode.ConfigurationTarget.Global);
  }
}
