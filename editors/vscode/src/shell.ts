// The page of the picture, before anything is shown in it.

import { randomBytes } from "node:crypto";
import * as vscode from "vscode";

/** Nothing but our own script and style runs in it, and nothing is fetched. */
export function shell(webview: vscode.Webview, media: vscode.Uri): string {
  const file = (name: string) => webview.asWebviewUri(vscode.Uri.joinPath(media, name));
  const nonce = randomBytes(16).toString("base64");
  const policy = `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<link rel="stylesheet" nonce="${nonce}" href="${file("picture.css")}">
<title>The band</title>
</head>
<body>
<form id="view" aria-label="How the band is shown">
  <label><input type="radio" name="chart" value="" checked> Band</label>
  <label><input type="radio" name="chart" value="yes"> Working chart</label>
  <label>as seen by
    <select name="vision">
      <option value="">most eyes</option>
      <option value="protan">eyes without red cones</option>
      <option value="deutan">eyes without green cones</option>
      <option value="tritan">eyes without blue cones</option>
    </select>
  </label>
</form>
<p id="trouble" role="status" hidden></p>
<main><img id="band" alt="" hidden></main>
<script nonce="${nonce}" src="${file("picture.js")}"></script>
</body>
</html>`;
}
