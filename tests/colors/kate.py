"""kate.py INKS SYNTAX FOLDER: Kate's highlighter, with a theme in which every style has a color of its own."""

import json
import os
import pathlib
import re
import subprocess
import sys
from html.parser import HTMLParser

STYLES = ["Normal", "Keyword", "ControlFlow", "BuiltIn", "Function", "SpecialChar", "Attribute", "Variable", "DecVal",
          "DataType", "Constant", "Operator", "String", "Char", "Comment"]
INKS = {
    "Comment": ["Comment"], "Text": ["String"], "Number": ["DecVal"], "Color": ["Constant"], "Statement": ["Keyword"],
    "Detail": ["ControlFlow", "Keyword", "BuiltIn"], "Kind": ["Function"], "Place": ["BuiltIn"], "Unit": ["DataType"],
    "Operator": ["Operator"], "Mark": ["SpecialChar"], "Motif": ["Attribute"], "Thread": ["Variable"],
    "Parameter": ["Variable"], "Counter": ["Variable"], "Label": ["Variable"],
}


class Page(HTMLParser):
    """Of every line, the style of every character."""

    def __init__(self):
        super().__init__()
        self.style, self.within, self.lines = "Normal", False, [[]]

    def handle_starttag(self, tag, attributes):
        if tag == "span":
            color = re.search(r"color:#0000(..)", dict(attributes)["style"])
            self.style = STYLES[int(color[1], 16)] if color else "Normal"
        self.within |= tag == "pre"

    def handle_endtag(self, tag):
        self.style = "Normal"

    def handle_data(self, text):
        for character in text if self.within else "":
            if character == "\n":
                self.lines.append([])
            else:
                self.lines[-1].append(self.style)


def theme():
    styles = {style: {"text-color": f"#0000{number:02x}"} for number, style in enumerate(STYLES)}
    return {"metadata": {"name": "Inks", "revision": 1}, "text-styles": styles, "editor-colors": {}}


def colored(text, syntax, folder):
    home = folder / "org.kde.syntax-highlighting"
    for name, content in [("syntax/knotwright.xml", syntax.read_text()), ("themes/inks.theme", json.dumps(theme()))]:
        (home / name).parent.mkdir(parents=True, exist_ok=True)
        (home / name).write_text(content)
    (folder / "samples.knot").write_text(text)
    page = Page()
    done = subprocess.run(
        ["kate-syntax-highlighter", "--theme", "Inks", folder / "samples.knot"],
        env={**os.environ, "XDG_DATA_HOME": str(folder), "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True, text=True, check=True)
    if done.stderr.strip():
        sys.exit(done.stderr)
    page.feed(done.stdout)
    return page.lines[1:]  # the page breaks the line before the text


inks, syntax, folder = (pathlib.Path(word) for word in sys.argv[1:])
samples = json.loads(inks.read_text(encoding="utf-8"))
texts = [re.sub("\r\n?", "\n", sample["text"]).removesuffix("\n") for sample in samples]
lines = colored("\n".join(text.removeprefix("\ufeff") for text in texts), syntax, folder)
first, count, wrong = 0, 0, 0
for sample, text in zip(samples, texts):
    for token in sample["tokens"]:
        start = token["column"] - (token["line"] == 0 and text.startswith("\ufeff"))
        found = lines[first + token["line"]][start:start + len(token["text"])]
        count += 1
        allowed = INKS[token["ink"]] + (["Char"] if token["ink"] == "Text" else [])
        if not found or not set(found) <= set(allowed):
            wrong += 1
            print(f"{sample['name']}:{token['line'] + 1}: {token['text']} is {token['ink']}, but {sorted(set(found))}")
    first += text.count("\n") + 1
print(f"{count} tokens, {wrong} colored wrongly")
sys.exit(count == 0 or wrong > 0)
